import Link from 'next/link'
import { type Column, DataTable } from '@/app/_ui/data-table'
import { moneyText } from '@/app/_ui/money'
import { Section } from '@/app/_ui/section'
import { Verdict } from '@/app/_ui/verdict'
import { formatPercent } from '@/lib/core/format'
import { breakTotals, earned, soldBelowCost } from '@/lib/records/quote/rules'

type Line = {
  id: number
  position: number
  description: string
  leadTimeDays: number
  acceptedQuantity: number | null
  estimateId: number | null
  breaks: readonly { quantity: number; unitCents: number; costCents: number | null }[]
  revision: { letter: string; part: { id: number; number: string } }
}

/** A quote that is no longer a draft: its lines as they stand. */
export function SentLines({
  quote,
  estimateOf,
}: {
  estimateOf: (line: Line) => { href: string; label: string; warning: string } | null
  quote: {
    currency: string
    taxName: string
    taxPpm: number
    termsText: string
    noteText: string
    lines: readonly Line[]
  }
}) {
  return (
    <>
      {quote.lines.map((line) => (
        <Section
          key={line.id}
          title={`Line ${line.position}`}
          aside={
            <Link href={`/parts/${line.revision.part.id}`}>
              {line.revision.part.number} revision {line.revision.letter}
            </Link>
          }
        >
          <p>
            {line.description}. Ready in {line.leadTimeDays} calendar days.
            {line.acceptedQuantity !== null && <strong> {acceptedWords(line, quote.currency)}</strong>}
          </p>
          <DataTable
            caption={`Prices of line ${line.position}`}
            captionHidden
            rows={line.breaks}
            rowKey={(step) => String(step.quantity)}
            columns={[
              {
                key: 'quantity',
                head: 'From',
                unit: 'pieces',
                numeric: true,
                cell: (step) => String(step.quantity),
              },
              {
                key: 'unit',
                head: 'Each',
                numeric: true,
                cell: (step) => moneyText(step.unitCents, quote.currency),
              },
              {
                key: 'net',
                head: 'Comes to',
                numeric: true,
                cell: (step) => moneyText(breakTotals(step, quote.taxPpm).netCents, quote.currency),
              },
              ...(quote.taxPpm > 0 ? [grossColumn(quote)] : []),
            ]}
          />
          <Earned line={line} currency={quote.currency} estimate={estimateOf(line)} />
        </Section>
      ))}
      {quote.noteText && (
        <Section title="Note to the customer">
          <p className="prose">{quote.noteText}</p>
        </Section>
      )}
      {quote.termsText && (
        <Section title="Terms">
          <p className="prose">{quote.termsText}</p>
        </Section>
      )}
    </>
  )
}

type Step = Line['breaks'][number]

function grossColumn({
  taxName,
  taxPpm,
  currency,
}: {
  taxName: string
  taxPpm: number
  currency: string
}): Column<Step> {
  return {
    key: 'gross',
    head: `With ${taxName}`,
    numeric: true,
    cell: (step) => moneyText(breakTotals(step, taxPpm).grossCents, currency),
  }
}

/** What the shop alone sees, on the screen and not on a print that may go to the customer. */
function Earned({
  line,
  currency,
  estimate,
}: {
  line: Line
  currency: string
  estimate: { href: string; label: string; warning: string } | null
}) {
  const costed = line.breaks.filter(({ costCents }) => costCents !== null)
  if (costed.length === 0) return null
  return (
    <div className="no-print">
      <LineEstimate estimate={estimate} />
      <DataTable
        caption="What it costs and earns, for the shop’s eyes: left out when this page is printed"
        rows={costed}
        rowKey={(step) => String(step.quantity)}
        columns={[
          {
            key: 'quantity',
            head: 'From',
            unit: 'pieces',
            numeric: true,
            cell: (step) => String(step.quantity),
          },
          ...costColumns(currency),
        ]}
      />
    </div>
  )
}

/** Cost, and what is earned by both names. */
function costColumns(currency: string): Column<Step>[] {
  const share = (step: Step, of: 'marginFraction' | 'markupFraction') => {
    const fraction = earned(step)?.[of] ?? null
    return fraction === null ? '–' : formatPercent(fraction)
  }
  return [
    {
      key: 'cost',
      head: 'Cost each',
      numeric: true,
      cell: (step) => (step.costCents === null ? '–' : moneyText(step.costCents, currency)),
    },
    {
      key: 'margin',
      head: 'Margin, of the price',
      cell: (step) =>
        soldBelowCost(step) ? (
          <Verdict word="warn" label="below cost">
            {share(step, 'marginFraction')}
          </Verdict>
        ) : (
          share(step, 'marginFraction')
        ),
    },
    { key: 'markup', head: 'Markup, on the cost', cell: (step) => share(step, 'markupFraction') },
  ]
}

/** What was taken and at which step of the list: 'Accepted: 7 pieces at $482.00, $3,374.00.' */
function acceptedWords({ acceptedQuantity, breaks }: Line, currency: string): string {
  const quantity = acceptedQuantity ?? 0
  const step = breaks.findLast((one) => one.quantity <= quantity)
  const pieces = `Accepted: ${quantity} ${quantity === 1 ? 'piece' : 'pieces'}`
  if (!step) return `${pieces}.`
  const { netCents } = breakTotals({ ...step, quantity }, 0)
  return `${pieces} at ${moneyText(step.unitCents, currency)} each, ${moneyText(netCents, currency)}.`
}

function LineEstimate({ estimate }: { estimate: { href: string; label: string; warning: string } | null }) {
  if (!estimate) return null
  return (
    <p className="small">
      Costs from the <Link href={estimate.href}>{estimate.label}</Link>.
      {estimate.warning && <span className="muted"> {estimate.warning}</span>}
    </p>
  )
}
