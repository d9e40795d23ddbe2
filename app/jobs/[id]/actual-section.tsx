import Link from 'next/link'
import { DataTable } from '@/app/_ui/data-table'
import { FoldSection } from '@/app/_ui/fold'
import { moneyText } from '@/app/_ui/money'
import { Facts } from '@/app/_ui/section'
import { Verdict, type VerdictWord } from '@/app/_ui/verdict'
import { formatNumber, formatPercent } from '@/lib/core/format'
import type { ActualReport, Earned } from '@/lib/records/actual/rules'

const verdicts: Readonly<
  Record<ActualReport['operations'][number]['verdict'], { word: VerdictWord; label: string }>
> = {
  within: { word: 'ok', label: 'as estimated' },
  over: { word: 'warn', label: 'longer' },
  under: { word: 'marks', label: 'shorter' },
  notLogged: { word: 'waiting', label: 'not timed' },
  notPlanned: { word: 'warn', label: 'not estimated' },
}

const minutes = (value: number) => formatNumber(value, { decimals: value < 10 ? 1 : 0 })

/** 'sold for $2,892.00, cost $2,020.00: 30.1 % of the price, and 27 % was expected' */
function earnedText(earned: Earned, money: (cents: number) => string): string {
  const share = (fraction: number | null) => (fraction === null ? 'nothing known' : formatPercent(fraction))
  return `${share(earned.marginFraction)} of the price: sold for ${money(earned.priceCents)}, cost ${money(earned.costCents)} with overhead, contingency and what nobody noted as estimated. Quoted to earn ${share(earned.expectedMarginFraction)}, at ${money(earned.expectedCostCents)}.`
}

/** What a job took against the estimate it was quoted from: starts, tries, minutes, tube, filler, money. */
export function ActualSection({ report }: { report: ActualReport }) {
  const money = (cents: number) => moneyText(cents, report.currency)
  const difference = report.actualCents - report.plannedCents
  const share = report.plannedCents > 0 ? difference / report.plannedCents : null
  return (
    <FoldSection
      title="Against the estimate"
      id="actual"
      summary={`${money(report.actualCents)} against ${money(report.plannedCents)}`}
      aside={<Link href={`/estimates/${report.estimateId}`}>Estimate, version {report.version}</Link>}
    >
      <div className="stack">
        <Facts
          facts={[
            [
              'Starts',
              `${report.startedCount} made for ${report.goodCount} good; ${formatNumber(report.startsPlanned.expected, { decimals: 1 })} expected, ${report.startsPlanned.p90} do 9 times in 10`,
            ],
            ['Tries at a bend', `${report.tries.made}; ${report.tries.least} if every first one were good`],
            [
              'Cost of what both sides know',
              <span key="cost">
                <strong>{money(report.actualCents)}</strong> against {money(report.plannedCents)}
                {share !== null &&
                  `, ${difference === 0 ? 'the same' : `${formatPercent(Math.abs(share))} ${difference > 0 ? 'more' : 'less'}`}`}
              </span>,
            ],
            ...(report.earned ? [['What it earned', earnedText(report.earned, money)] as const] : []),
          ]}
        />
        <DataTable
          caption="Money, actual against estimate"
          rows={report.costs}
          rowKey={({ key }) => key}
          columns={[
            { key: 'what', head: 'What', title: true, cell: ({ label }) => label },
            { key: 'planned', head: 'Estimated', cell: (row) => money(row.plannedCents) },
            {
              key: 'actual',
              head: 'Took',
              cell: (row) => (row.actualCents === null ? 'not known' : money(row.actualCents)),
            },
            { key: 'note', head: 'From', cell: ({ note }) => <span className="muted small">{note}</span> },
          ]}
        />
        <DataTable
          caption="Minutes by operation, at the starts really made"
          rows={report.operations}
          rowKey={({ operationKey }) => operationKey}
          columns={[
            { key: 'name', head: 'Operation', title: true, cell: ({ name }) => name },
            {
              key: 'planned',
              head: 'Estimated',
              unit: 'min',
              cell: ({ plannedMinutes: { low, likely, high } }) =>
                `${minutes(likely)} (${minutes(low)} to ${minutes(high)})`,
            },
            {
              key: 'actual',
              head: 'Took',
              unit: 'min',
              cell: ({ actualMinutes }) => (actualMinutes === null ? '–' : minutes(actualMinutes)),
            },
            {
              key: 'verdict',
              head: 'So',
              cell: ({ verdict, ratio }) => (
                <Verdict word={verdicts[verdict].word} label={verdicts[verdict].label}>
                  {ratio === null ? null : `${formatNumber(ratio, { decimals: 2 })} of the likely time`}
                </Verdict>
              ),
            },
            { key: 'plannedCost', head: 'Estimated cost', cell: (row) => money(row.plannedCents) },
            {
              key: 'actualCost',
              head: 'Cost',
              cell: (row) => (row.actualCents === null ? '–' : money(row.actualCents)),
            },
          ]}
        />
        <p className="muted small">
          Money at the rates of the estimate, before overhead and contingency: what differs is the work, not
          the rates.
        </p>
      </div>
    </FoldSection>
  )
}
