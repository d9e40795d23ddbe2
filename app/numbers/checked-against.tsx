import { DataTable } from '@/app/_ui/data-table'
import { formatNumber } from '@/lib/core/format'
import { isWithin, type OutsideResult } from '@/lib/core/spec/outside-check'
import { kindWords, sourcesOf } from './results'

const numbers = (count: number) => (count === 1 ? '1 number' : `${count} numbers`)
const places = (value: number) => formatNumber(value, { decimals: 12 }).split('.')[1]?.length ?? 0
const shown = (value: number, decimals: number, unit: string) => (
  <span className="quantity">
    {formatNumber(value, { decimals, keepZeros: true })}
    {unit && <span className="unit">{unit}</span>}
  </span>
)

/** What a part of the model was held against: its sources, and under them every number, expected and got. */
export function CheckedAgainst({ title, results }: { title: string; results: readonly OutsideResult[] }) {
  if (results.length === 0) return null
  return (
    <div className="stack">
      <div className="prose">
        <h3>Checked against</h3>
        <ul>
          {sourcesOf(results).map(({ source, kind, count }) => (
            <li key={`${source} ${kind}`}>
              {source}: {numbers(count)}, {kindWords[kind]}
            </li>
          ))}
        </ul>
      </div>
      <details>
        <summary>{numbers(results.length)}, expected and got</summary>
        <DataTable
          caption={`${title}: numbers from outside and from the program`}
          captionHidden
          rows={results}
          rowKey={({ claim, source }) => `${claim} ${source}`}
          columns={[
            { key: 'claim', head: 'What', title: true, cell: ({ claim }) => claim },
            { key: 'source', head: 'Source', cell: ({ source }) => source },
            {
              key: 'expected',
              head: 'Expected',
              cell: ({ expected, unit }) => shown(expected, places(expected), unit),
            },
            {
              key: 'got',
              head: 'Got',
              // One digit more than was asked for, so that the distance can be seen.
              cell: ({ expected, got, tolerance, unit }) =>
                shown(got, places(expected) + (tolerance > 0 ? 1 : 0), unit),
            },
            {
              key: 'within',
              head: 'Within',
              cell: (result) =>
                `${isWithin(result) ? '' : 'outside '}±${formatNumber(result.tolerance, { decimals: 12 })}`,
            },
          ]}
        />
      </details>
    </div>
  )
}
