import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { rowId } from '@/app/_shop/row-id'
import { LinkButton } from '@/app/_ui/button'
import { Section } from '@/app/_ui/section'
import { answerWords, deliveryWords } from '@/app/sources/history-words'
import { receivingRatesOf } from '@/lib/core/cost/landed'
import { formatDate } from '@/lib/core/format'
import { readAsksOfRevision } from '@/lib/records/ask/read'
import { beyondSource } from '@/lib/records/ask/rules'
import { readPart } from '@/lib/records/part/read'
import { dayInZone } from '@/lib/records/quote/rules'
import { readRates } from '@/lib/records/rates/read'
import { readShop } from '@/lib/records/shop/read'
import { readSourceChoices } from '@/lib/records/source/read'
import { may, requireActor } from '@/lib/server/session'
import { SendAsksForm } from '../../_asks/send-asks-form'
import { AsksOfRevision, LandedAt, NobodyToAsk } from '../../_asks/side-by-side'
import { PartHead } from '../../part-head'

type Asked = { params: Promise<{ id: string }>; searchParams: Promise<{ rev?: string }> }

export async function generateMetadata({ params }: Asked): Promise<Metadata> {
  await requireActor('ask.read')
  const id = rowId((await params).id)
  const part = id === null ? null : await readPart(id)
  return { title: part ? `Asks for ${part.number}` : 'Asks' }
}

const twoWeeksMs = 14 * 86_400_000

export default async function PartAsksPage({ params, searchParams }: Asked) {
  const actor = await requireActor('ask.read')
  const id = rowId((await params).id)
  const part = id === null ? null : await readPart(id)
  if (!part) notFound()
  const { rev } = await searchParams
  const revision = rev === undefined ? part.newest : part.revisions.find(({ letter }) => letter === rev)
  if (!revision) notFound()
  const [shop, asks, sources, { rates }] = await Promise.all([
    readShop(),
    readAsksOfRevision(revision.id),
    readSourceChoices(),
    readRates(),
  ])
  const today = dayInZone(new Date(), shop.timeZone)
  const iso = (at: Date) => at.toISOString().slice(0, 10)
  const day = (at: Date) => formatDate(iso(at), { locale: 'en-US', timeZone: shop.timeZone })
  const units = { lengthUnit: shop.lengthUnit, currency: shop.currency }
  const quoted = asks.filter((ask) => ask.status === 'quoted')
  const quantities = [...new Set(quoted.flatMap((ask) => ask.quantities))].sort((one, other) => one - other)
  const usual = [...new Set([1, revision.typicalQuantity])].join('/')
  const shown = { revision, receiving: receivingRatesOf(rates), today, units, day }
  const history = (sourceId: number) => {
    const source = sources.find((one) => one.id === sourceId)
    return source ? `${answerWords(source.history)}; ${deliveryWords(source.history)}` : 'put away'
  }
  return (
    <>
      <PartHead part={part} revision={revision} allows={(needs) => may(actor, needs)} current="asks" />
      <div className="stack stack-loose">
        <Section
          title={`Who was asked about revision ${revision.letter}`}
          aside={
            <LinkButton kind="quiet" href="/asks">
              Asks of all parts
            </LinkButton>
          }
        >
          <AsksOfRevision asks={asks} history={history} {...shown} />
        </Section>
        {quantities.length > 0 && (
          <Section title="Answers side by side" id="side-by-side">
            <div className="stack stack-loose">
              <p className="muted small">
                Landed: their price with tooling, set-up and freight, our ordering, receiving and inspection,
                and the pieces that will be turned away, over the good pieces. From the shop’s rates in force.
              </p>
              {quantities.map((quantity) => (
                <LandedAt key={quantity} quantity={quantity} asks={quoted} {...shown} />
              ))}
            </div>
          </Section>
        )}
        {may(actor, 'ask.write') && (
          <Section title="Ask for prices" id="ask">
            {sources.length === 0 ? (
              <NobodyToAsk />
            ) : (
              <SendAsksForm
                start={{
                  revisionId: revision.id,
                  sourceIds: [],
                  quantities: usual,
                  sentOn: iso(today),
                  chaseOn: iso(new Date(today.getTime() + twoWeeksMs)),
                  notesText: '',
                }}
                choices={sources.map((source) => ({
                  id: source.id,
                  name: source.name,
                  hint: [source.canBendText, answerWords(source.history)].filter(Boolean).join('; '),
                  against: beyondSource(source, revision),
                }))}
              />
            )}
          </Section>
        )}
      </div>
    </>
  )
}
