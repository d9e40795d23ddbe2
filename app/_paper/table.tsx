import { Text, View } from '@react-pdf/renderer'
import { Words } from './paper'
import { style } from './style'

export interface Column {
  readonly head: string
  /** Share of the width against the other columns. */
  readonly share: number
  readonly align?: 'left' | 'right'
  readonly mono?: boolean
}

/** A table whose head repeats on each sheet and whose rows never break across two. */
export function Table({ columns, rows, fontSize = 8.5 }: { columns: readonly Column[]; rows: readonly (readonly string[])[]; fontSize?: number }) {
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
          {columns.map(({ head, share, align = 'left', mono }, place) => (
            <View key={head} style={{ ...style.cell, flex: share }}>
              <Words style={{ fontSize, textAlign: align, ...(mono ? style.mono : {}) }}>{row[place] ?? ''}</Words>
            </View>
          ))}
        </View>
      ))}
    </View>
  )
}
