import type { Logo } from '@/app/_paper/letter-head'
import { letterheadOf, linesOf } from '@/app/_paper/letterhead-of'
import { QuoteDocument } from '@/app/_paper/quote-document'
import { renderPdf } from '@/app/_paper/render'
import { moneyText } from '@/app/_ui/money'
import { formatDate } from '@/lib/core/format'
import { breakTotals, changeWords, type QuoteSnapshot } from '@/lib/records/quote/rules'

function totalsOf(quote: QuoteSnapshot) {
  const steps = quote.lines.flatMap(({ breaks }) => (breaks.length === 1 && breaks[0] ? [breaks[0]] : []))
  if (steps.length < quote.lines.length) return undefined
  const sums = steps.map((step) => breakTotals(step, quote.taxPpm))
  const subtotalCents = sums.reduce((sum, { netCents }) => sum + netCents, 0)
  const amountCents = sums.reduce((sum, { taxCents }) => sum + taxCents, 0)
  return {
    subtotalCents,
    taxes: quote.taxPpm > 0 ? [{ label: quote.taxName, rateFraction: quote.taxPpm / 1e6, amountCents }] : [],
    totalCents: subtotalCents + amountCents,
  }
}

/** A sent quote as a PDF answer, from what was sent and the sending before it alone: the same bytes whenever it is asked for. */
export async function quotePdf(
  quote: QuoteSnapshot,
  {
    before,
    logo = null,
    acceptUrl,
  }: { before: QuoteSnapshot | null; logo?: Logo | null; acceptUrl?: string },
): Promise<Response> {
  const day = (iso: string) => formatDate(iso, { locale: 'en-US', timeZone: quote.shop.timeZone })
  const totals = totalsOf(quote)
  const pdf = await renderPdf(
    QuoteDocument({
      data: {
        paper: quote.shop.paper,
        revision: quote.issue,
        printedOn: day(quote.sentOn),
        printedAtIso: `${quote.sentOn}T12:00:00Z`,
        letterhead: letterheadOf(quote.shop, logo),
        customer: { name: quote.customer.name, addressLines: linesOf(quote.customer.addressText) },
        quoteNumber: quote.number,
        issuedOn: day(quote.sentOn),
        validUntil: day(quote.validUntil),
        currency: quote.currency,
        locale: 'en-US',
        lines: quote.lines.map((line) => ({
          lineNumber: line.position,
          partNumber: line.customerRef || line.partNumber,
          partRevision: line.revision,
          description: line.description,
          breaks: line.breaks.map((step) => ({
            quantityPieces: step.quantity,
            unitPriceCents: step.unitCents,
            amountCents: breakTotals(step, quote.taxPpm).netCents,
            leadTimeText: `${line.leadTimeDays} calendar days`,
          })),
        })),
        ...(totals && { totals }),
        ...(!totals &&
          quote.taxPpm > 0 && {
            taxNote: `${quote.taxName} of ${quote.taxPpm / 10_000} % is added to what you choose.`,
          }),
        noteLines: linesOf(quote.noteText),
        terms: linesOf(quote.termsText),
        whatIsChecked: [
          'Every bend is measured for angle against the drawing’s tolerance, with the gauge’s uncertainty named.',
          'Whether the part may carry load where you use it is for you, your local code and a licensed engineer to decide.',
        ],
        changesSinceLastRevision: before
          ? changeWords(before, quote, (cents) => moneyText(cents, quote.currency))
          : [],
        ...(acceptUrl !== undefined && { acceptUrl }),
      },
    }),
  )
  return new Response(new Uint8Array(pdf), {
    headers: {
      'content-type': 'application/pdf',
      'content-disposition': `inline; filename="quote-${quote.number}-${quote.issue}.pdf"`,
      'cache-control': 'private, no-store',
    },
  })
}
