import type { Metadata } from 'next'
import { headers } from 'next/headers'
import { notFound } from 'next/navigation'
import { LinkButton } from '@/app/_ui/button'
import { Notice } from '@/app/_ui/notice'
import { PageHead } from '@/app/_ui/page-head'
import { Section } from '@/app/_ui/section'
import { formatDate, formatDateTime } from '@/lib/core/format'
import { readEstimateAges } from '@/lib/records/estimate/read'
import { ageWords } from '@/lib/records/estimate-age/rules'
import { readQuotableParts, readQuote } from '@/lib/records/quote/read'
import { dayInZone, standingOn, standingWords } from '@/lib/records/quote/rules'
import { readRates } from '@/lib/records/rates/read'
import { typedRate } from '@/lib/records/rates/rules'
import { readShop } from '@/lib/records/shop/read'
import { typedNumber } from '@/lib/records/shop/rules'
import { may, requireActor } from '@/lib/server/session'
import { AcceptedLines } from './accepted-lines'
import { IssueChanges } from './issue-changes'
import { QuoteDesk } from './quote-desk'
import { SentLines } from './sent-lines'

type Params = { params: Promise<{ id: string }> }

async function quoteOf(params: Params['params']) {
  const { id } = await params
  const quote = /^[1-9]\d{0,8}$/.test(id) ? await readQuote(Number(id)) : null
  return quote ?? notFound()
}

export async function generateMetadata({ params }: Params): Promise<Metadata> {
  await requireActor('quote.read')
  const quote = await quoteOf(params)
  return { title: `Quote ${quote.number}` }
}

export default async function QuotePage({ params }: Params) {
  const actor = await requireActor('quote.read')
  const [quote, shop, list] = await Promise.all([quoteOf(params), readShop(), headers()])
  const today = dayInZone(new Date(), shop.timeZone)
  const standing = standingOn(quote, today)
  const place = { locale: 'en-US', timeZone: shop.timeZone }
  const day = (date: Date) => formatDate(date.toISOString().slice(0, 10), place)
  const mayWrite = may(actor, 'quote.write')
  const isoDay = (date: Date) => date.toISOString().slice(0, 10)
  const editable = standing === 'draft' && mayWrite
  const [ages, { rates }] = await Promise.all([
    readEstimateAges(quote.lines.flatMap(({ estimateId }) => estimateId ?? [])),
    readRates(),
  ])
  const estimateOf = (line: { estimateId: number | null }) => {
    const known = line.estimateId === null ? undefined : ages.get(line.estimateId)
    if (!known) return null
    const newer =
      known.newestNumber > known.number ? ` Version ${known.newestNumber} is the newest estimate.` : ''
    return {
      href: `/estimates/${line.estimateId}`,
      label: `estimate, version ${known.number}`,
      warning: `${ageWords(known.age)}${newer}`.trim(),
    }
  }
  const parts = editable ? await readQuotableParts(quote.customerId) : []
  const onQuote = new Set(quote.lines.map(({ revision }) => revision.part.id))
  const origin = `${list.get('x-forwarded-proto') ?? 'http'}://${list.get('host') ?? ''}`
  return (
    <>
      <PageHead
        kind={quote.issue > 0 ? `Quote, sent ${quote.issue} time${quote.issue > 1 ? 's' : ''}` : 'Quote'}
        title={quote.number}
        trail={[
          { label: 'Quotes', href: '/quotes' },
          { label: quote.customer.name, href: `/customers/${quote.customer.id}` },
          ...quote.lines
            .slice(0, 3)
            .map(({ revision }) => ({ label: revision.part.number, href: `/parts/${revision.part.id}` })),
        ]}
        actions={
          quote.issue > 0 && <LinkButton href={`/quotes/${quote.id}/quote.pdf`}>PDF as sent</LinkButton>
        }
      >
        {standingWords[standing]}. Valid until {day(quote.validUntil)}.
        <span className="no-print">
          {quote.followUpOn && ` Follow up on ${day(quote.followUpOn)}.`}
          {quote.lostReason && ` Lost because: ${quote.lostReason}`}
        </span>
      </PageHead>
      <QuoteDesk
        draft={
          editable
            ? {
                units: { lengthUnit: shop.lengthUnit, currency: quote.currency },
                start: {
                  id: String(quote.id),
                  version: quote.version,
                  validUntil: isoDay(quote.validUntil),
                  termsText: quote.termsText,
                  noteText: quote.noteText,
                  taxName: quote.taxName,
                  taxPpm: typedNumber(quote.taxPpm / 10_000),
                  lines: quote.lines.map((line) => ({
                    id: String(line.id),
                    description: line.description,
                    leadTimeDays: String(line.leadTimeDays),
                    breaks: line.breaks.map((step) => ({
                      quantity: String(step.quantity),
                      unitPrice:
                        step.unitCents === 0
                          ? ''
                          : typedRate(
                              step.unitCents,
                              { is: 'money', unit: '' },
                              { lengthUnit: shop.lengthUnit, currency: quote.currency },
                            ),
                    })),
                  })),
                },
                lines: quote.lines.map((line) => ({
                  id: String(line.id),
                  partHref: `/parts/${line.revision.part.id}`,
                  partLabel: `${line.revision.part.number} revision ${line.revision.letter}`,
                  costs: line.breaks.flatMap(({ quantity, costCents }) =>
                    costCents === null ? [] : [{ quantity, costCents }],
                  ),
                  estimate: estimateOf(line),
                  estimateHref: `/parts/${line.revision.part.id}/estimate?rev=${line.revision.letter}`,
                })),
                rounding: rates.priceRounding,
                otherParts: parts
                  .filter(({ id }) => !onQuote.has(id))
                  .map(({ number, name, revision }) => ({
                    revisionId: revision.id,
                    label: `${number} ${name}`,
                  })),
              }
            : null
        }
        presses={
          mayWrite
            ? {
                press: { id: String(quote.id), version: quote.version },
                standing,
                origin,
                followUpOn: quote.followUpOn ? isoDay(quote.followUpOn) : '',
                lines: quote.lines.map((line) => ({
                  id: String(line.id),
                  label: line.revision.part.number,
                  least: Math.min(...line.breaks.map(({ quantity }) => quantity)),
                  isOnly: line.breaks.length === 1,
                })),
              }
            : null
        }
      >
        {!editable && <SentLines quote={quote} estimateOf={estimateOf} />}
      </QuoteDesk>
      {standing === 'accepted' && (
        <AcceptedLines
          mayOpen={may(actor, 'job.write')}
          lines={quote.lines
            .filter((line) => line.acceptedQuantity !== null)
            .map((line) => ({
              id: String(line.id),
              label: `${line.acceptedQuantity} of ${line.revision.part.number}: ${line.description}`,
              dueOn: isoDay(new Date(today.getTime() + line.leadTimeDays * 86_400_000)),
              job: line.job,
            }))}
        />
      )}
      {quote.issues.length > 0 && (
        <div className="no-print">
          <Section title="What was sent">
            <ul className="ruled-list">
              {quote.issues.map((issue) => (
                <li key={issue.id}>
                  <strong>Issue {issue.issue}</strong>, {formatDateTime(issue.sentAt.toISOString(), place)}
                  {issue.firstReadAt
                    ? `, first opened ${formatDateTime(issue.firstReadAt.toISOString(), place)}`
                    : ', not opened yet'}
                  {issue.answeredAt
                    ? `. ${issue.answer === 'accepted' ? 'Accepted' : 'Declined'} by ${issue.answeredBy}, ${formatDateTime(issue.answeredAt.toISOString(), place)}${issue.answerNote ? `: “${issue.answerNote}”` : ''}`
                    : issue.withdrawnAt
                      ? `. Withdrawn ${formatDateTime(issue.withdrawnAt.toISOString(), place)}`
                      : ''}{' '}
                  <a href={`/quotes/${quote.id}/quote.pdf?issue=${issue.issue}`}>PDF</a>
                  <IssueChanges
                    before={quote.issues.find((one) => one.issue === issue.issue - 1)}
                    after={issue}
                    currency={quote.currency}
                  />
                </li>
              ))}
            </ul>
          </Section>
        </div>
      )}
      {editable && quote.lines.some((line) => line.breaks.some((step) => step.unitCents === 0)) && (
        <Notice title="A quantity has no price yet">It can be sent once every quantity has one.</Notice>
      )}
    </>
  )
}
