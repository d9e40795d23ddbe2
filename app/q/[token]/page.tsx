import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { LinkButton } from '@/app/_ui/button'
import { DataTable } from '@/app/_ui/data-table'
import { moneyText } from '@/app/_ui/money'
import { Notice } from '@/app/_ui/notice'
import { PageHead } from '@/app/_ui/page-head'
import { Section } from '@/app/_ui/section'
import { PlainShell } from '@/app/_ui/shell'
import { formatDate, formatDateTime } from '@/lib/core/format'
import { readSentQuote } from '@/lib/records/quote/read'
import { breakTotals } from '@/lib/records/quote/rules'
import { readLogo } from '@/lib/records/shop/read'
import { currentActor } from '@/lib/server/session'
import { AnswerForms } from './answer-forms'
import { NoteOpened } from './note-opened'

export const metadata: Metadata = {
  title: 'Quote',
  robots: { index: false, follow: false },
  referrer: 'no-referrer',
}
export const dynamic = 'force-dynamic'

/** The customer's page: no account, only the link. Shows what was sent, as it was sent. */
export default async function CustomerQuotePage({ params }: { params: Promise<{ token: string }> }) {
  const { token } = await params
  const sent = token.length <= 100 ? await readSentQuote(token) : null
  if (!sent) notFound()
  const { snapshot: quote, state } = sent
  // The shop's own people look at it too: that is not the customer's opening it.
  const isCustomer = (await currentActor()) === null
  const place = { locale: 'en-US', timeZone: quote.shop.timeZone }
  const logo = await readLogo(quote.shop.logoId)
  const money = (cents: number) => moneyText(cents, quote.currency)
  return (
    <PlainShell shopName={quote.shop.name}>
      {isCustomer && sent.firstReadAt === null && <NoteOpened token={token} />}
      {logo && (
        // eslint-disable-next-line @next/next/no-img-element -- shown from the page itself: the link opens nothing else
        <img
          className="shop-logo"
          src={`data:${logo.mediaType};base64,${Buffer.from(logo.content).toString('base64')}`}
          alt={quote.shop.name}
        />
      )}
      <PageHead
        kind={`Quote, issue ${quote.issue}, for ${quote.customer.name}`}
        title={quote.number}
        actions={<LinkButton href={`/q/${token}/quote.pdf`}>Download as PDF</LinkButton>}
      >
        Sent {formatDate(quote.sentOn, place)}, valid until {formatDate(quote.validUntil, place)}.
      </PageHead>
      <div className="stack stack-loose">
        {state === 'accepted' && (
          <Notice title="Accepted. Thank you.">
            Accepted by {sent.answeredBy}
            {sent.answeredAt && `, ${formatDateTime(sent.answeredAt.toISOString(), place)}`}. The shop will be
            in touch.
          </Notice>
        )}
        {state === 'declined' && (
          <Notice title="Declined">Declined by {sent.answeredBy}. Thank you for saying so.</Notice>
        )}
        {state === 'withdrawn' && (
          <Notice title="Withdrawn">The shop took this quote back. Ask for the newest one.</Notice>
        )}
        {state === 'lapsed' && (
          <Notice title="Lapsed">This quote’s last day has passed. Ask for a new one.</Notice>
        )}
        {quote.noteText && <p className="prose">{quote.noteText}</p>}
        {quote.lines.map((line) => {
          const accepted = sent.quote.lines.find(({ id }) => id === line.lineId)?.acceptedQuantity
          return (
            <Section key={line.lineId} title={line.description}>
              <p className="muted">
                {line.customerRef && `Your reference ${line.customerRef}. `}Part {line.partNumber} revision{' '}
                {line.revision}. Ready in {line.leadTimeDays} calendar days from your order.
                {state === 'accepted' && accepted && <strong> Ordered: {accepted} pieces.</strong>}
              </p>
              <DataTable
                caption={`Prices of ${line.partNumber}`}
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
                  { key: 'unit', head: 'Each', numeric: true, cell: (step) => money(step.unitCents) },
                  {
                    key: 'net',
                    head: 'Comes to',
                    numeric: true,
                    cell: (step) => money(breakTotals(step, quote.taxPpm).netCents),
                  },
                  ...(quote.taxPpm > 0
                    ? [
                        {
                          key: 'gross',
                          head: `With ${quote.taxName}`,
                          numeric: true,
                          cell: (step: { quantity: number; unitCents: number }) =>
                            money(breakTotals(step, quote.taxPpm).grossCents),
                        },
                      ]
                    : []),
                ]}
              />
            </Section>
          )
        })}
        {quote.termsText && (
          <Section title="Terms">
            <p className="prose">{quote.termsText}</p>
          </Section>
        )}
        {state === 'open' && (
          <AnswerForms
            token={token}
            lines={quote.lines.map((line) => ({
              id: line.lineId,
              label: line.customerRef || line.partNumber,
              quantities: line.breaks.map(({ quantity }) => quantity),
            }))}
          />
        )}
        <p className="muted small">
          {quote.shop.name} {quote.shop.addressText} {quote.shop.contactText}
        </p>
      </div>
    </PlainShell>
  )
}
