import { Text, View } from '@react-pdf/renderer'
import { Figures, Words } from './paper'
import { style } from './style'

export interface Column {
  readonly head: string
  /** Share of the width against the other columns. */
  readonly share: number
  readonly align?: 'left' | 'right'
  readonly mono?: boolean
  /** An empty square to tick by hand instead of a text. */
  readonly tick?: boolean
}

/** A table whose head repeats on each sheet and whose rows never break across two. */
export function Table({
  columns,
  rows,
  fontSize = 8.5,
}: {
  columns: readonly Column[]
  rows: readonly (readonly string[])[]
  fontSize?: number
}) {
  return (
    <View>
      <View style={{ ...style.row, ...style.heavyRule }} fixed wrap={false}>
        {columns.map(({ head, share, align = 'left' }) => (
          <Text key={head} style={{ ...style.headCell, flex: share, textAlign: align }}>
            {head}
          </Text>
        ))}
      </View>
      {rows.map((row, index) => (
        // Rows are printed once and never reordered.
        <View key={`${index}-${row[0] ?? ''}`} style={{ ...style.row, ...style.rule }} wrap={false}>
          {columns.map((column, place) => (
            <View key={column.head} style={{ ...style.cell, flex: column.share }}>
              <Cell column={column} words={row[place] ?? ''} fontSize={fontSize} />
            </View>
          ))}
        </View>
      ))}
    </View>
  )
}

function Cell({ column, words, fontSize }: { column: Column; words: string; fontSize: number }) {
  if (column.tick)
    return (
      <View style={{ width: fontSize + 2, height: fontSize + 2, borderWidth: 0.6, borderColor: '#000' }} />
    )
  const look = { fontSize, textAlign: column.align ?? 'left' } as const
  return column.mono ? <Figures style={look}>{words}</Figures> : <Words style={look}>{words}</Words>
}
