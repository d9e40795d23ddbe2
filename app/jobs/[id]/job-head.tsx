import Link from 'next/link'
import { LinkButton } from '@/app/_ui/button'
import { FoldSection } from '@/app/_ui/fold'
import { moneyText } from '@/app/_ui/money'
import { PageHead } from '@/app/_ui/page-head'
import { Facts } from '@/app/_ui/section'
import { Verdict } from '@/app/_ui/verdict'
import { wayNames } from '@/lib/core/cost/ways'
import { isWay, type JobPlan } from '@/lib/records/job/rules'
import type { NextStep } from '@/lib/records/progress/rules'
import { type JobView, wordsOf } from './job-view'

/** What job it is, and the one thing to do next on it. */
export function JobHead({ view, step }: { view: JobView; step: NextStep }) {
  const { job, revision, allows } = view
  const { part } = revision
  const { day } = wordsOf(view)
  return (
    <>
      <PageHead
        kind={`Job ${job.number}, ${job.status}`}
        title={`${job.quantity} × ${part.name}, revision ${revision.letter}`}
        trail={[
          { label: 'Jobs', href: '/jobs' },
          { label: part.number, href: `/parts/${part.id}` },
        ]}
        actions={
          allows('job.write') &&
          job.status === 'open' && <LinkButton href={`/jobs/${job.id}/plan-again`}>Plan again</LinkButton>
        }
      >
        {job.status === 'open'
          ? `Due ${day(job.dueOn)} for ${job.customer.name}`
          : `${job.status === 'closed' ? 'Closed' : 'Cancelled'}${job.closedAt ? ` ${day(job.closedAt)}` : ''}${job.endReason ? `: ${job.endReason}` : ''}`}
      </PageHead>
      <p className="job-next">
        <span className="muted">Next</span>
        {step.href ? (
          <LinkButton kind="primary" href={step.href}>
            {step.text}
          </LinkButton>
        ) : (
          <strong>{step.text}</strong>
        )}
        {step.why && <span className="muted">{step.why}</span>}
      </p>
    </>
  )
}

const isKnown = <Value,>(value: Value | false | null | undefined): value is Value =>
  value !== false && value !== null && value !== undefined

/** Where the job comes from, and what it is made to. */
export function JobFacts({ view }: { view: JobView }) {
  const { job, revision, shop, allows } = view
  const { day, moment } = wordsOf(view)
  const plan = job.plan as unknown as JobPlan
  const quote = job.quoteLine?.quote
  const decision = job.revision.decisions[0]
  const wayText = (way: string) => (isWay(way) ? wayNames[way] : way)
  const setUp = plan.setUp
  const facts: (readonly [string, React.ReactNode] | false | null | undefined)[] = [
    [
      'Customer',
      allows('customer.read') ? (
        <Link key="customer" href={`/customers/${job.customer.id}`}>
          {job.customer.name}
        </Link>
      ) : (
        job.customer.name
      ),
    ],
    [
      'Part',
      <Link key="part" href={`/parts/${revision.part.id}?rev=${revision.letter}`}>
        {revision.part.number} revision {revision.letter}, {revision.part.name}
      </Link>,
    ],
    allows('quote.read') && [
      'Quote',
      quote ? (
        <Link key="quote" href={`/quotes/${quote.id}`}>
          {quote.number}, line {job.quoteLine?.position}
        </Link>
      ) : (
        'none: opened straight in'
      ),
    ],
    allows('decision.read') &&
      decision && [
        'Decision',
        <Link key="decision" href={`/parts/${revision.part.id}`}>
          {wayText(decision.way)} for {decision.quantity}, {day(decision.decidedAt)}
        </Link>,
      ],
    allows('quote.read') &&
      job.priceCents !== null && ['Price', moneyText(job.priceCents, quote?.currency ?? shop.currency)],
    ['Way', wayText(job.way)],
    setUp && [
      'Set-up',
      [
        setUp.press.shopNumber,
        setUp.die && `die ${setUp.die.shopNumber}`,
        setUp.strap && `strap ${setUp.strap.shopNumber}`,
        setUp.filler && `filler ${setUp.filler.shopNumber}`,
      ]
        .filter(Boolean)
        .join(', '),
    ],
    [
      'Springback factor',
      <span key="factor">
        {plan.factor.value.toFixed(3)} ± {plan.factor.sd.toFixed(3)}, from {plan.factor.text}.{' '}
        <Link href="/lessons">Lessons</Link>
      </span>,
    ],
    [
      'Traveller',
      `issue ${job.travellerIssue}, planned ${moment(new Date(plan.madeAt))}${plan.issue ? ` by ${plan.issue.byText}` : ''}`,
    ],
    plan.issue && [
      'Changed in it',
      plan.issue.changes.length === 0 ? (
        'nothing'
      ) : (
        <ul key="changes" className="plain-list">
          {plan.issue.changes.map((change) => (
            <li key={change}>{change}</li>
          ))}
        </ul>
      ),
    ],
  ]
  return (
    <FoldSection
      title="What it is made to"
      id="facts"
      summary={`${wayText(job.way)}; traveller issue ${job.travellerIssue}`}
      open={plan.refusal !== ''}
    >
      {plan.refusal && <Verdict word="refuse">{plan.refusal}</Verdict>}
      <Facts facts={facts.filter(isKnown)} />
    </FoldSection>
  )
}
