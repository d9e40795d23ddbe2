import { DataTable } from '@/app/_ui/data-table'
import { moneyText } from '@/app/_ui/money'
import { Notice } from '@/app/_ui/notice'
import { Facts, Section } from '@/app/_ui/section'
import { formatLength, formatPercent } from '@/lib/core/format'
import type { NestInput, NestPlan, NestResult, PlannedBar } from '@/lib/core/stock/nest-plan'
import type { LengthUnit } from '@/lib/core/units'
import { NestBar } from './nest-bar'

type Shown = { lengthUnit: LengthUnit; currency: string; showPrices: boolean }
type RackName = (barKey: string) => string

/** The plan as bars to scale, what to take, what to buy, what goes back; or which piece doesn't fit. */
export function NestAnswer({
  input,
  result,
  rackName,
  shown,
}: {
  input: NestInput
  result: NestResult
  rackName: RackName
  shown: Shown
}) {
  if (result.found) return <Plan input={input} plan={result.plan} rackName={rackName} shown={shown} />
  const piece = input.pieces.find(({ key }) => key === result.pieceKey)
  return result.because === 'piece-longer-than-any-bar' && piece ? (
    <Notice
      kind="caution"
      title={`No bar is long enough for ${formatLength(piece.lengthMm, shown.lengthUnit)}`}
    >
      Name a longer bar to buy, or splice the part where its drawing allows it.
    </Notice>
  ) : (
    <Notice kind="caution" title="There is not enough tube">
      What lies free on the rack does not do for all of these. Name a length that can be bought, or cut fewer.
    </Notice>
  )
}

/** Bars that are cut alike stand once, with how many of them there are. */
function alike(bars: readonly PlannedBar[]): { bar: PlannedBar; keys: string[] }[] {
  const groups = new Map<string, { bar: PlannedBar; keys: string[] }>()
  for (const bar of bars) {
    const cuts = bar.cuts.map(({ pieceKey, pieceCount }) => `${pieceKey}${pieceCount}`).join(' ')
    const name = `${bar.source} ${bar.kind} ${bar.lengthMm} ${cuts}`
    const group = groups.get(name)
    if (group) group.keys.push(bar.barKey)
    else groups.set(name, { bar, keys: [bar.barKey] })
  }
  return [...groups.values()]
}

function Plan({
  input,
  plan,
  rackName,
  shown,
}: {
  input: NestInput
  plan: NestPlan
  rackName: RackName
  shown: Shown
}) {
  const { lengthUnit, currency, showPrices } = shown
  const length = (mm: number) => formatLength(mm, lengthUnit)
  const longestMm = Math.max(...plan.bars.map(({ lengthMm }) => lengthMm))
  const barCount = plan.bars.length
  const money = (cents: number) => moneyText(cents, currency)
  return (
    <>
      <Section title={`${barCount} ${barCount === 1 ? 'bar' : 'bars'} to cut`}>
        <ol className="nest-bars">
          {alike(plan.bars).map(({ bar, keys }) => (
            <li key={keys.join(' ')}>
              <p>
                <span className="strong">
                  {keys.length > 1 && `${keys.length} × `}
                  {bar.source === 'buy' ? 'bought' : bar.kind} of {length(bar.lengthMm)}
                </span>
                {bar.source === 'rack' && (
                  <span className="muted">, {[...new Set(keys.map(rackName))].slice(0, 6).join('; ')}</span>
                )}
              </p>
              <NestBar bar={bar} longestMm={longestMm} input={input} lengthUnit={lengthUnit} />
              <p className="small">
                {bar.cuts
                  .map((cut) => `${cut.pieceCount} × ${cut.pieceKey} ${length(cut.lengthMm)}`)
                  .join(', ')}
                .{' '}
                {bar.leftover === 'none'
                  ? 'Nothing is left.'
                  : `Left: ${length(bar.leftoverMm)}, ${bar.leftover === 'scrap' ? 'scrap' : 'back to the rack'}.`}
              </p>
            </li>
          ))}
        </ol>
      </Section>
      <div className="split split-even">
        <Section title="What comes of it">
          <Facts
            facts={[
              ['Tube used', length(plan.usedLengthMm)],
              ['In pieces', length(plan.piecesLengthMm)],
              [
                'Kerf, crops and scrap',
                `${length(plan.wasteMm)}, ${formatPercent(plan.wasteFraction)} of the tube used`,
              ],
              [
                'Back to the rack',
                plan.returned.length === 0
                  ? 'nothing'
                  : plan.returned.map(({ lengthMm }) => length(lengthMm)).join(', '),
              ],
              ...(showPrices
                ? ([
                    ['Bought', money(plan.boughtCents)],
                    ['From the rack', money(plan.rackCents)],
                    ['Worth of what goes back', money(plan.returnedCents)],
                    ['Cost of the tube', <strong key="net">{money(plan.netCents)}</strong>],
                  ] as const)
                : []),
              ['How good it is', plan.proof.text],
            ]}
          />
        </Section>
        {showPrices && (
          <Section title="To buy">
            <DataTable
              caption="Lengths to buy"
              captionHidden
              rows={plan.toBuy}
              rowKey={({ key }) => key}
              empty={<p className="muted">Nothing: the rack has it all.</p>}
              columns={[
                { key: 'length', head: 'Bar', title: true, cell: (row) => length(row.lengthMm) },
                { key: 'count', head: 'How many', numeric: true, cell: (row) => row.barCount },
                { key: 'cost', head: 'Cost', cell: (row) => money(row.costCents) },
              ]}
            />
          </Section>
        )}
      </div>
    </>
  )
}
