import type { TravellerBend } from '@/app/_paper/traveller-data'
import { bendTable } from '@/app/_paper/traveller-words'
import type { LengthUnit } from '@/lib/core/units'

/** The bends of an operation with their angles, the largest things on the sheet; on a narrow screen each figure has its name beside it. */
export function BendFigures({ bends, unit }: { bends: readonly TravellerBend[]; unit: LengthUnit }) {
  const { heads, rows } = bendTable(bends, unit)
  return (
    <table className="bend-figures">
      <thead>
        <tr>
          {heads.map((head) => (
            <th key={head} scope="col">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(({ bendNumber, cells }) => (
          <tr key={bendNumber}>
            {cells.map(({ main, below }, place) => (
              <td key={heads[place]}>
                <span className="bend-figure-name">{heads[place]}</span>
                <span className="set-point">{main}</span>
                <span className="small">{below}</span>
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  )
}
