import '../../parts/part.css'
import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PressAction } from '@/app/_shop/press-action'
import { rowId } from '@/app/_shop/row-id'
import { moneyText } from '@/app/_ui/money'
import { Notice } from '@/app/_ui/notice'
import { PageHead } from '@/app/_ui/page-head'
import { Facts, Section } from '@/app/_ui/section'
import { formatDate, formatDateTime, formatPercent } from '@/lib/core/format'
import { readAskHistory, readAskPack } from '@/lib/records/ask/read'
import { askNumber, askStanding, changedRadiiMm, chasedWords, requestText } from '@/lib/records/ask/rules'
import { dayInZone } from '@/lib/records/quote/rules'
import { readSource } from '@/lib/records/source/read'
import { may, requireActor } from '@/lib/server/session'
import { giveUpAskAction } from '../actions'
import { AnswerFacts } from '../answer-facts'
import { ChaseForm, DeclinedForm, NoteForm, OrderForm } from '../answer-forms'
import { CopyText } from '../copy-text'
import { QuotedForm } from '../quoted-form'
import { Standing } from '../standing'
import { typedOrder, typedQuote } from '../typed-answer'

type Asked = { params: Promise<{ id: string }> }

export async function generateMetadata({ params }: Asked): Promise<Metadata> {
  await requireActor('ask.read')
  const id = rowId((await params).id)
  return { title: id === null ? 'Ask' : `Ask ${askNumber(id)}` }
}

const weekMs = 7 * 86_400_000

export default async function AskPage({ params }: Asked) {
  const actor = await requireActor('ask.read')
  const id = rowId((await params).id)
  const read = id === null ? null : await readAskPack(id)
  if (!read) notFound()
  const { ask, pack, shop } = read
  const today = dayInZone(new Date(), shop.timeZone)
  const place = { locale: 'en-US', timeZone: shop.timeZone }
  const iso = (at: Date) => at.toISOString().slice(0, 10)
  const day = (at: Date) => formatDate(iso(at), place)
  const units = { lengthUnit: shop.lengthUnit, currency: shop.currency }
  const writes = may(actor, 'ask.write')
  const standing = askStanding(ask, today)
  const isOpen = ask.status === 'sent' || ask.status === 'silent'
  const [history, source] = await Promise.all([readAskHistory(ask), readSource(ask.sourceId)])
  const rejected = source?.history.rejectedFraction ?? null
  const rejectsSoFar =
    rejected === null ? 'No delivery of theirs is kept yet' : `So far ${formatPercent(rejected)} of theirs`
  const text = requestText(pack, shop.lengthUnit, shop.name)
  const subject = `Request for price ${askNumber(ask.id)}: ${pack.partNumber} rev ${pack.letter}`
  const mailHref = `mailto:${encodeURIComponent(ask.source.email)}?subject=${encodeURIComponent(subject)}&body=${encodeURIComponent(text.slice(0, 1800))}`
  const which = { id: ask.id, version: ask.version }
  const changed = changedRadiiMm(ask.offeredRadiusMm, pack.revision.bends)
  // A form keeps what it began with: a saved answer gives it a new beginning.
  const key = `${ask.version}`
  return (
    <>
      <PageHead
        kind={`Ask ${askNumber(ask.id)}`}
        title={ask.source.name}
        trail={[
          { label: 'Asks', href: '/asks' },
          { label: ask.revision.part.name, href: `/parts/${ask.revision.part.id}/asks?rev=${pack.letter}` },
        ]}
      />
      <div className="stack stack-loose">
        {standing === 'chase' && (
          <Notice kind="caution" title="The day to chase has come">
            Ask {ask.source.name} again{ask.source.phone && `, ${ask.source.phone}`}, or give up.
          </Notice>
        )}
        <Section title="The request">
          <Facts
            facts={[
              ['Stands', <Standing key="standing" standing={standing} />],
              [
                'Asked of',
                <Link key="source" href={`/sources/${ask.source.id}`}>
                  {ask.source.name}
                </Link>,
              ],
              [
                'For',
                <Link key="part" href={`/parts/${ask.revision.part.id}?rev=${pack.letter}`}>
                  {pack.partNumber} revision {pack.letter}, {pack.partName}
                </Link>,
              ],
              ['Quantities', ask.quantities.join(' / ')],
              ['Sent', day(ask.sentOn)],
              ...(isOpen
                ? [['Chase on', `${day(ask.chaseOn)}, ${chasedWords(ask.chasedCount)} so far`] as const]
                : []),
              ...(ask.repliedOn ? [['Answered', day(ask.repliedOn)] as const] : []),
              ...(ask.status === 'declined' ? [['Their reason', ask.declineReason] as const] : []),
            ]}
          />
        </Section>
        {ask.status === 'quoted' && (
          <Section title="Their answer">
            <AnswerFacts ask={ask} changedRadiiMm={changed} today={today} units={units} day={day} />
          </Section>
        )}
        <Section title="What to send">
          <div className="stack">
            <div className="row">
              <a className="button" href={`/asks/${ask.id}/request.pdf`}>
                Request as PDF
              </a>
              <a className="button" href={`/asks/${ask.id}/request.dxf`} download>
                Centreline as DXF
              </a>
              <a className="button" href={`/asks/${ask.id}/request.json`} download>
                Part as JSON
              </a>
            </div>
            <p className="muted small">
              Holds our part number and revision only: no customer and no price of ours.
            </p>
            <CopyText text={text} mailHref={mailHref} />
            {writes && isOpen && <NoteForm key={key} start={{ ...which, notesText: ask.notesText }} />}
          </div>
        </Section>
        {writes && (
          <>
            {isOpen && (
              <Section title={ask.status === 'silent' ? 'Chase after all' : 'No answer yet'}>
                <div className="stack">
                  <ChaseForm
                    key={key}
                    start={{ ...which, chaseOn: iso(new Date(today.getTime() + weekMs)) }}
                  />
                  {ask.status === 'sent' && (
                    <PressAction
                      label="Give up: silent"
                      kind="quiet"
                      input={which}
                      action={giveUpAskAction}
                    />
                  )}
                </div>
              </Section>
            )}
            <Section
              title={ask.status === 'quoted' ? 'They priced it again' : 'They gave prices'}
              id="prices"
            >
              <QuotedForm
                key={key}
                units={units}
                start={typedQuote(ask, units, iso(today))}
                again={ask.status === 'quoted'}
                rejectsSoFar={rejectsSoFar}
              />
            </Section>
            {ask.status === 'quoted' && (
              <Section title="An order to them" id="order">
                <OrderForm key={key} start={typedOrder(ask, iso(today))} />
              </Section>
            )}
            <Section title={ask.status === 'quoted' ? 'They withdrew it' : 'They declined'} id="decline">
              <DeclinedForm
                key={key}
                start={{
                  ...which,
                  repliedOn: iso(ask.status === 'declined' && ask.repliedOn ? ask.repliedOn : today),
                  declineReason: ask.declineReason,
                }}
              />
            </Section>
          </>
        )}
        <Section title="History" id="history">
          {history.length === 0 && <p className="muted">Nothing noted yet.</p>}
          <ul className="ruled-list">
            {history.map((entry) => (
              <li key={String(entry.id)}>
                {formatDateTime(entry.at.toISOString(), place)}: {entry.action} by {entry.actorText}
                {entry.replaced &&
                  `. Before it stood: ${entry.replaced.map(({ quantity, unitCents }) => `${quantity} at ${moneyText(unitCents, shop.currency)}`).join(', ')}`}
                .
              </li>
            ))}
          </ul>
        </Section>
      </div>
    </>
  )
}
