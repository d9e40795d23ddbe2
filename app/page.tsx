import Link from 'next/link'
import { ShopFrame } from '@/app/_shop/shop-frame'
import { PageHead } from '@/app/_ui/page-head'
import { Section } from '@/app/_ui/section'
import { formatDate } from '@/lib/core/format'
import { readBenchPieces } from '@/lib/records/piece/read'
import { dayInZone } from '@/lib/records/quote/rules'
import { readShop } from '@/lib/records/shop/read'
import { readBeginnings, readDueJobs, readOpenAnswers, readOpenFaults } from '@/lib/records/today/read'
import { benchWaits } from '@/lib/records/today/rules'
import { may, requireActor } from '@/lib/server/session'

/** The three questions that open the day, as lists of records with the next step. */
export default async function TodayPage() {
  const actor = await requireActor('today.read')
  const shop = await readShop()
  const today = dayInZone(new Date(), shop.timeZone)
  // At the bench the day begins with the next piece; at the desk with what is due.
  const mayDecide = may(actor, 'fault.decide')
  const seesPrices = may(actor, 'quote.read')
  const [jobs, pieces, faults, answers, begun] = await Promise.all([
    readDueJobs(),
    readBenchPieces(),
    readOpenFaults(),
    seesPrices ? readOpenAnswers(today) : null,
    readBeginnings(),
  ])
  const { toMeasure, toBend } = benchWaits(pieces)
  const owed = answers
    ? answers.toCall.length + answers.lapsed.length + answers.open.count + answers.asks.length
    : 0
  const place = { locale: 'en-US', timeZone: shop.timeZone }
  const day = (date: Date) => formatDate(date.toISOString().slice(0, 10), place)
  const due = (
    <Section title="What is due" aside={<Link href="/jobs">All jobs</Link>}>
      <ul className="ruled-list">
        {jobs.map((job) => (
          <li key={job.id}>
            <Link href={`/jobs/${job.id}`}>
              {job.number}: {job.quantity} × {job.revision.part.name}
            </Link>{' '}
            for {job.customer.name}, due {day(job.dueOn)}
            {job.dueOn < today && <strong className="stop-text">, late</strong>}. {job.pieces.length} of{' '}
            {job.quantity} released.
          </li>
        ))}
        {jobs.length === 0 && <li className="muted">Nothing is due: no job is open.</li>}
      </ul>
    </Section>
  )
  const measure = (
    <Section title="What waits for a measurement" aside={<Link href="/bench">All at the bench</Link>}>
      <ul className="ruled-list">
        {toMeasure.map((one) => (
          <li key={`${one.scanCode} ${one.bend}`}>
            <Link href={`/bench/${one.scanCode}`}>
              Measure {one.jobNumber}, piece {one.pieceNumber}, bend {one.bend}
            </Link>
            : {one.partName}. Its last try waits for a reading.
          </li>
        ))}
        {toBend.map((job) => (
          <li key={job.jobNumber}>
            {job.jobNumber}, {job.partName}: {job.doneCount} of {job.bendCount} bends have passed.{' '}
            {job.next ? (
              <Link href={`/bench/${job.next.scanCode}`}>
                Go on with piece {job.next.pieceNumber}, bend {job.next.bend}
              </Link>
            ) : (
              'The rest waits for a reading or a decision.'
            )}
          </li>
        ))}
        {toMeasure.length + toBend.length === 0 && (
          <li className="muted">Every bend of every open piece has passed, or there is none.</li>
        )}
      </ul>
    </Section>
  )
  return (
    <ShopFrame>
      <PageHead title="Today">{formatDate(today.toISOString().slice(0, 10), place)}</PageHead>
      {(begun.presses === 0 || begun.parts === 0) && <FirstSteps begun={begun} />}
      {mayDecide ? (
        <>
          {due}
          {measure}
        </>
      ) : (
        <>
          {measure}
          {due}
        </>
      )}
      <Section
        title="What waits for an answer"
        aside={
          <span className="row">
            <Link href="/faults">All faults</Link>
            {seesPrices && <Link href="/quotes">All quotes</Link>}
            {seesPrices && <Link href="/asks">All asks</Link>}
          </span>
        }
      >
        <ul className="ruled-list">
          {faults.map((fault) => (
            <li key={fault.id}>
              <Link href={`/faults/${fault.id}`}>
                {fault.number} on {fault.job.number}
              </Link>
              : {mayDecide ? 'decide what becomes of it' : 'set aside until the office decides'}.{' '}
              {fault.description}
            </li>
          ))}
          {answers?.toCall.map((quote) => (
            <li key={quote.id}>
              <Link href={`/quotes/${quote.id}`}>Call {quote.customer.name}</Link> about {quote.number}: to
              follow up since {day(quote.followUpOn ?? today)}, valid until {day(quote.validUntil)}.
            </li>
          ))}
          {answers?.lapsed.map((quote) => (
            <li key={quote.id}>
              <Link href={`/quotes/${quote.id}`}>Settle {quote.number}</Link> with {quote.customer.name}:{' '}
              <strong>lapsed</strong> on {day(quote.validUntil)} without an answer. Send it again, or note how
              it ended.
            </li>
          ))}
          {answers && answers.open.count > 0 && (
            <li>
              <Link href="/quotes?standing=sent">
                {answers.open.count} more {answers.open.count === 1 ? 'quote is' : 'quotes are'} with
                customers
              </Link>
              {answers.open.next?.followUpOn &&
                `; the next to call about is ${answers.open.next.number}, ${answers.open.next.customer.name}, on ${day(answers.open.next.followUpOn)}`}
              .
            </li>
          )}
          {answers?.asks.map((ask) => (
            <li key={ask.id}>
              <Link href={`/asks/${ask.id}`}>Chase {ask.source.name}</Link> for the price of{' '}
              {ask.revision.part.name}: due {day(ask.chaseOn)}.
            </li>
          ))}
          {faults.length + owed === 0 && <li className="muted">Nobody owes an answer.</li>}
        </ul>
      </Section>
    </ShopFrame>
  )
}

function FirstSteps({ begun }: { begun: { customers: number; parts: number; presses: number } }) {
  return (
    <Section title="First steps">
      <ol className="ruled-list">
        {begun.presses === 0 && (
          <li>
            <Link href="/shop/presses/new">Enter your press</Link>: its capacity, stroke and supports.
          </li>
        )}
        {begun.customers === 0 && (
          <li>
            <Link href="/customers/new">Enter a customer</Link>.
          </li>
        )}
        {begun.parts === 0 && (
          <li>
            <Link href="/parts/new">Enter a part</Link>: tube, bends, ends. Its bend spec is computed as you
            choose a set-up.
          </li>
        )}
      </ol>
    </Section>
  )
}
