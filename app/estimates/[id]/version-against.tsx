import { DataTable } from '@/app/_ui/data-table'
import { moneyText } from '@/app/_ui/money'
import { Section } from '@/app/_ui/section'
import { type EstimateStepKey, estimateSteps } from '@/lib/core/cost/estimate-steps'
import { estimateDifference } from '@/lib/core/cost/variance'
import { wayNames } from '@/lib/core/cost/ways'
import { formatPercent } from '@/lib/core/format'
import type { EstimateInputs, EstimateResults } from '@/lib/records/estimate/rules'
import { ratesSet } from '@/lib/records/estimate-rate/rules'
import { revisionDifferences } from '@/lib/records/part/rules'
import { rateDifferences } from '@/lib/records/rates/rules'

type Version = { number: number; inputs: EstimateInputs; results: EstimateResults }
type Units = { lengthUnit: 'in' | 'mm'; currency: string }

const stepWords: Readonly<Record<EstimateStepKey, string>> = {
  way: 'The part and the way of making it',
  tools: 'Tools to make',
  tube: 'Tube',
  rates: 'Rates, the shop’s or set for the estimate',
  yield: 'How many end good the first time',
  times: 'Times set by hand',
}

/** What changed from one version to another, and what each change did to the cost. */
export function VersionAgainst({ before, after, units }: { before: Version; after: Version; units: Units }) {
  const money = (cents: number) => moneyText(cents, units.currency)
  const common = after.inputs.ask.quantities.filter((count) => before.inputs.ask.quantities.includes(count))
  const pieceCount = common.at(Math.min(1, common.length - 1))
  const inputs = inputDifferences(before.inputs, after.inputs, units)
  return (
    <Section title={`What changed since version ${before.number}`} id="against">
      <div className="stack">
        <DataTable
          caption={`What was decided otherwise in version ${after.number}`}
          rows={inputs}
          rowKey={({ what }) => what}
          empty={<p className="muted">Nothing was entered otherwise.</p>}
          columns={[
            { key: 'what', head: 'What', title: true, cell: ({ what }) => what },
            { key: 'was', head: 'Was', cell: ({ was }) => was },
            { key: 'now', head: 'Now', cell: ({ now }) => now },
          ]}
        />
        {pieceCount === undefined ? (
          <p className="muted">The two have no quantity in common to set side by side.</p>
        ) : (
          <Effects before={before} after={after} pieceCount={pieceCount} money={money} />
        )}
      </div>
    </Section>
  )
}

function Effects({
  before,
  after,
  pieceCount,
  money,
}: {
  before: Version
  after: Version
  pieceCount: number
  money: (cents: number) => string
}) {
  const inputOf = ({ inputs }: Version) => inputs.quantities.find((one) => one.pieceCount === pieceCount)
  const resultOf = ({ results }: Version) => results.quantities.find((one) => one.pieceCount === pieceCount)
  const [was, now] = [inputOf(before), inputOf(after)]
  const [old, made] = [resultOf(before), resultOf(after)]
  if (!was || !now || !old || !made) return null
  const steps = estimateSteps(was, now).filter(({ changeCents }) => changeCents !== 0)
  const first = Math.round(old.estimate.costCents.mean)
  const last = Math.round(made.estimate.costCents.mean)
  const lines = estimateDifference(old.estimate, made.estimate).lines.filter(({ what }) => what !== 'same')
  const signed = (cents: number) => (cents > 0 ? `+${money(cents)}` : money(cents))
  return (
    <>
      <DataTable
        caption={`What it did to the expected cost of ${pieceCount}: ${money(first)} became ${money(last)}`}
        rows={steps}
        rowKey={({ key }) => key}
        empty={
          <p className="muted">
            The cost of {pieceCount} is the same, {money(last)}.
          </p>
        }
        columns={[
          { key: 'what', head: 'Because of', title: true, cell: ({ key }) => stepWords[key] },
          { key: 'order', head: 'The order', cell: ({ changeCents }) => signed(changeCents) },
          {
            key: 'each',
            head: 'Each piece',
            cell: ({ changeCents }) => signed(Math.round(changeCents / pieceCount)),
          },
          {
            key: 'price',
            head: 'Cost then stands at',
            cell: ({ afterCents }) => money(afterCents),
          },
        ]}
      />
      <p>
        Price each at {pieceCount}: {money(old.priced.unitPriceCents)} became{' '}
        <strong>{money(made.priced.unitPriceCents)}</strong>.
      </p>
      <details>
        <summary>Line by line, likely values</summary>
        <DataTable
          caption="Lines that changed"
          captionHidden
          rows={lines}
          rowKey={({ key }) => key}
          empty={<p className="muted">No line changed.</p>}
          columns={[
            {
              key: 'label',
              head: 'Line',
              title: true,
              cell: ({ label, what }) =>
                `${label}${what === 'new' ? ', new' : what === 'gone' ? ', gone' : ''}`,
            },
            {
              key: 'was',
              head: 'Was',
              cell: (line) => (line.beforeCents === null ? '–' : money(line.beforeCents)),
            },
            {
              key: 'now',
              head: 'Now',
              cell: (line) => (line.afterCents === null ? '–' : money(line.afterCents)),
            },
            { key: 'change', head: 'Change', cell: (line) => signed(line.changeCents) },
            {
              key: 'because',
              head: 'Because',
              cell: (line) => <span className="muted small">{line.because}</span>,
            },
          ]}
        />
      </details>
    </>
  )
}

type Difference = { what: string; was: string; now: string }

function inputDifferences(before: EstimateInputs, after: EstimateInputs, units: Units): Difference[] {
  const rows = (inputs: EstimateInputs): [string, string][] => {
    const { ask } = inputs
    return [
      ['Way', wayNames[ask.way]],
      ['Quantities', ask.quantities.join(', ')],
      [
        'Good the first time',
        `${formatPercent(ask.yieldFraction)}${ask.yieldReason ? `: ${ask.yieldReason}` : ''}`,
      ],
      ['Holes', String(ask.holeCount)],
      ['Ends to weld', String(ask.weldedEndCount)],
      ['Dye penetrant', ask.dyePenetrant ? 'yes' : 'no'],
      ['Price by', `${ask.pricing.by} of ${formatPercent(ask.pricing.ppm / 1_000_000)}`],
      [
        'Bars to buy',
        ask.buyable
          .map(
            ({ lengthMm, priceCents }) =>
              `${Math.round(lengthMm)} mm at ${moneyText(priceCents, units.currency)}`,
          )
          .join(', ') || 'none',
      ],
      ...ratesSet(inputs.ground.rates, ask.rateOverrides, units).map(
        ({ label, value, reason }): [string, string] => [
          `${label}, for this estimate`,
          `${value}: ${reason}`,
        ],
      ),
      ...ask.overrides.map(({ operationKey, field, value, reason }): [string, string] => [
        `${inputs.quantities.length > 0 ? operationKey : ''}, ${field === 'setUpMinutes' ? 'set-up' : field === 'elapsedMinutes' ? 'waiting' : 'run'}`,
        `${value.likely} min: ${reason}`,
      ]),
    ]
  }
  const [old, now] = [new Map(rows(before)), new Map(rows(after))]
  const decided = [...new Set([...old.keys(), ...now.keys()])].flatMap((what) => {
    const [was, is] = [old.get(what) ?? '–', now.get(what) ?? '–']
    return was === is ? [] : [{ what, was, now: is }]
  })
  const drawn = revisionDifferences(before.ground.revision, after.ground.revision, units.lengthUnit).map(
    (row) => ({ what: row.what, was: row.before, now: row.after }),
  )
  const rates = rateDifferences(before.ground.rates, after.ground.rates, units).map((row) => ({
    what: row.label,
    was: row.before,
    now: row.after,
  }))
  return [...decided, ...drawn, ...rates]
}
