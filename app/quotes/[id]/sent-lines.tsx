import Link from 'next/link'
import { DataTable } from '@/app/_ui/data-table'
import { moneyText } from '@/app/_ui/money'
import { Section } from '@/app/_ui/section'
import { breakTotals } from '@/lib/records/quote/rules'

type Line = {
  id: number
  position: number
  description: string
  leadTimeDays: number
  acceptedQuantity: number | null
  breaks: readonly { quantity: number; unitCents: number }[]
  revision: { letter: string; part: { id: number; number: string } }
}

/** A quote that is no longer a draft: its lines as they stand. */
export function SentLines({
  quote,
}: {
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
            {line.description}. {line.leadTimeDays} days.
            {line.acceptedQuantity !== null && <strong> Accepted: {line.acceptedQuantity} pieces.</strong>}
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
              { key: 'unit', head: 'Each', cell: (step) => moneyText(step.unitCents, quote.currency) },
              {
                key: 'net',
                head: 'Comes to',
                cell: (step) => moneyText(breakTotals(step, quote.taxPpm).netCents, quote.currency),
              },
              {
                key: 'gross',
                head: `With ${quote.taxName}`,
                cell: (step) => moneyText(breakTotals(step, quote.taxPpm).grossCents, quote.currency),
              },
            ]}
          />
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
