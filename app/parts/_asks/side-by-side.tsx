import Link from 'next/link'
import { DataTable } from '@/app/_ui/data-table'
import { Mark } from '@/app/_ui/marks'
import { moneyText } from '@/app/_ui/money'
import { Standing } from '@/app/asks/standing'
import type { LandedCost, ReceivingRates } from '@/lib/core/cost/landed'
import { formatLength, formatPercent } from '@/lib/core/format'
import {
  type AskFacts,
  askNumber,
  askStanding,
  changedRadiiMm,
  chasedWords,
  isExpired,
  landedAt,
  lateWords,
  minimumOrderBites,
} from '@/lib/records/ask/rules'
import type { ShopUnits } from '@/lib/records/fields'

type Shown = {
  revision: { bends: readonly { centrelineRadiusMm: number }[] }
  receiving: ReceivingRates
  today: Date
  units: ShopUnits
  day: (at: Date) => string
}

/** All that was asked about a revision and how it stands, with what must be known before counting on an answer. */
export function AsksOfRevision({
  asks,
  history,
  revision,
  today,
  units,
  day,
}: { asks: readonly AskFacts[]; history: (sourceId: number) => string } & Omit<Shown, 'receiving'>) {
  return (
    <DataTable
      caption="Who was asked and what they said"
      captionHidden
      rows={asks}
      rowKey={(ask) => String(ask.id)}
      rowHref={(ask) => `/asks/${ask.id}`}
      empty={<p className="muted">Nobody has been asked about this revision.</p>}
      columns={[
        {
          key: 'source',
          head: 'Ask',
          title: true,
          cell: (ask) => `${askNumber(ask.id)} ${ask.source.name}`,
        },
        {
          key: 'standing',
          head: 'Stands',
          cell: (ask) => <Standing standing={askStanding(ask, today)} />,
        },
        {
          key: 'lead',
          head: 'Lead time',
          cell: (ask) => (ask.leadTimeDays === null ? '–' : `${ask.leadTimeDays} working days`),
        },
        {
          key: 'until',
          head: 'Holds until',
          cell: (ask) =>
            ask.validUntil === null ? (
              '–'
            ) : isExpired(ask, today) ? (
              <Flag>expired {day(ask.validUntil)}</Flag>
            ) : (
              day(ask.validUntil)
            ),
        },
        {
          key: 'know',
          head: 'To know',
          cell: (ask) => <ToKnow ask={ask} revision={revision} units={units} day={day} />,
        },
        { key: 'history', head: 'So far', cell: (ask) => history(ask.source.id) },
      ]}
    />
  )
}

function Flag({ children }: { children: React.ReactNode }) {
  return (
    <span className="verdict">
      <span className="verdict-word">
        <Mark name="caution" /> {children}
      </span>
    </span>
  )
}

function ToKnow({
  ask,
  revision,
  units,
  day,
}: { ask: AskFacts } & Pick<Shown, 'revision' | 'units' | 'day'>) {
  if (ask.status === 'declined') return <>declined: {ask.declineReason}</>
  if (ask.status === 'silent') return <>no answer, {chasedWords(ask.chasedCount)}</>
  if (ask.status === 'sent') return <>chase on {day(ask.chaseOn)}</>
  const length = (mm: number) => formatLength(mm, units.lengthUnit)
  const changed = changedRadiiMm(ask.offeredRadiusMm, revision.bends)
  return (
    <span className="stack stack-tight">
      {changed.length > 0 && ask.offeredRadiusMm !== null && (
        <Flag>
          radius {length(ask.offeredRadiusMm)}, drawn {changed.map(length).join(', ')}
        </Flag>
      )}
      {ask.conditionsText && (
        <span>
          <Flag>condition</Flag> {ask.conditionsText}
        </span>
      )}
      <span>
        {formatPercent(ask.expectedRejectFraction)} expected to be turned away
        {ask.replacesRejects ? ', replaced by them' : ''}
      </span>
    </span>
  )
}

/** For one quantity of good pieces, what each answer costs by the time they stand in the shop, cheapest first. */
export function LandedAt({
  quantity,
  asks,
  receiving,
  today,
  units,
  revision,
}: { quantity: number; asks: readonly AskFacts[] } & Omit<Shown, 'day'>) {
  const money = (cents: number) => moneyText(Math.round(cents), units.currency)
  const rows = asks
    .flatMap((ask) => {
      const landed = landedAt(ask, quantity, receiving)
      return landed ? [{ ask, landed }] : []
    })
    .sort((one, other) => one.landed.totalCents - other.landed.totalCents)
  return (
    <DataTable
      caption={`Landed cost of ${quantity} good ${quantity === 1 ? 'piece' : 'pieces'}`}
      rows={rows}
      rowKey={({ ask }) => String(ask.id)}
      rowHref={({ ask }) => `/asks/${ask.id}`}
      columns={[
        { key: 'source', head: 'Bender', title: true, cell: ({ ask }) => ask.source.name },
        {
          key: 'each',
          head: 'A good piece, landed',
          numeric: true,
          cell: ({ landed }) => money(landed.perGoodPieceCents),
        },
        { key: 'total', head: 'All', numeric: true, cell: ({ landed }) => money(landed.totalCents) },
        {
          key: 'ordered',
          head: 'Ordered',
          unit: 'pieces',
          numeric: true,
          cell: ({ landed }) => String(landed.orderedPieceCount),
        },
        {
          key: 'days',
          head: 'In the shop after',
          unit: 'working days',
          cell: ({ ask }) => (
            <span className="stack stack-tight">
              <span>{ask.leadTimeDays === null ? 'not said' : `${ask.leadTimeDays}, as promised`}</span>
              {ask.lateDays && <span className="small muted">so far {lateWords(ask.lateDays)}</span>}
            </span>
          ),
        },
        {
          key: 'made',
          head: 'Made of',
          cell: ({ landed }) => <Lines landed={landed} money={money} />,
        },
        {
          key: 'effects',
          head: 'Mind',
          cell: ({ ask, landed }) => {
            const effects = effectsOf(ask, landed, quantity, money, { today, units, revision })
            return effects.length === 0 ? '–' : effects.join('; ')
          },
        },
      ]}
    />
  )
}

function Lines({ landed, money }: { landed: LandedCost; money: (cents: number) => string }) {
  return (
    <details>
      <summary>{landed.lines.length} lines</summary>
      <ul className="plain-list small">
        {landed.lines.map((line) => (
          <li key={line.key}>
            {line.label} <span className="nowrap">{money(line.cents)}</span>, {line.from}
          </li>
        ))}
      </ul>
    </details>
  )
}

function effectsOf(
  ask: AskFacts,
  landed: LandedCost,
  quantity: number,
  money: (cents: number) => string,
  { today, units, revision }: Pick<Shown, 'today' | 'units' | 'revision'>,
): string[] {
  const cheaper = landed.cheaperLargerOrder
  const changed = changedRadiiMm(ask.offeredRadiusMm, revision.bends)
  return [
    ...(isExpired(ask, today) ? ['price expired'] : []),
    ...(minimumOrderBites(ask, landed) ? [`minimum order ${money(ask.minimumOrderCents)} sets it`] : []),
    ...(landed.orderedPieceCount > quantity
      ? [`${landed.orderedPieceCount - quantity} more than needed`]
      : []),
    ...(cheaper
      ? [`${cheaper.pieceCount} would cost less: ${money(cheaper.totalCents)} for the pieces`]
      : []),
    ...(changed.length > 0 && ask.offeredRadiusMm !== null
      ? [`radius ${formatLength(ask.offeredRadiusMm, units.lengthUnit)}`]
      : []),
    ...(ask.conditionsText ? ['has a condition'] : []),
  ]
}

/** Where the name of a part's bender leads when none is entered. */
export function NobodyToAsk() {
  return (
    <p className="muted">
      No outside bender is entered yet: <Link href="/sources/new">enter the first one</Link>.
    </p>
  )
}
