import { Text, View } from '@react-pdf/renderer'
import { cleanText } from './clean-text'
import { style } from './style'

export interface Column {
  readonly head: string
  /** Share of the width against the other columns. */
  readonly share: number
  readonly align?: 'left' | 'right'
  readonly mono?: boolean
  /** Larger than the table's other letters. */
  readonly fontSize?: number
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
            <Cell key={column.head} column={column} words={row[place] ?? ''} fontSize={fontSize} />
          ))}
        </View>
      ))}
    </View>
  )
}

function Cell({ column, words, fontSize }: { column: Column; words: string; fontSize: number }) {
  if (column.tick)
    return (
      <View style={{ ...style.cell, flex: column.share }}>
        <View style={{ width: fontSize + 2, height: fontSize + 2, borderWidth: 0.6, borderColor: '#000' }} />
      </View>
    )
  return (
    <Text
      style={{
        ...style.cell,
        flex: column.share,
        fontSize: column.fontSize ?? fontSize,
        lineHeight: 1.25,
        textAlign: column.align ?? 'left',
        ...(column.mono && style.mono),
      }}
    >
      {cleanText(words)}
    </Text>
  )
}
