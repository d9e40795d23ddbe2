import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { Notice } from '@/app/_ui/notice'
import { PageHead } from '@/app/_ui/page-head'
import { Section } from '@/app/_ui/section'
import { Verdict, type VerdictWord } from '@/app/_ui/verdict'
import { formatAngle } from '@/lib/core/format'
import { type BendState, bendState, bendStateWords, newTryRefusal } from '@/lib/records/bend-record/rules'
import type { JobPlan } from '@/lib/records/job/rules'
import { readPieceByCode } from '@/lib/records/piece/read'
import { readShop } from '@/lib/records/shop/read'
import { may, requireActor } from '@/lib/server/session'
import { TryForm } from './try-form'

export const metadata: Metadata = { title: 'Bench' }

const looks: Readonly<Record<BendState, VerdictWord>> = {
  none: 'waiting',
  waiting: 'waiting',
  pass: 'pass',
  fail: 'fail',
  cannotSay: 'cannot-say',
  conceded: 'conceded',
  again: 'warn',
}

/** One piece at the bench: each bend with its target, what was tried, and the next reading to log. */
export default async function BenchPiecePage({ params }: { params: Promise<{ code: string }> }) {
  const actor = await requireActor('bench.read')
  const { code } = await params
  const [shop, piece] = await Promise.all([
    readShop(),
    /^[\w-]{16,64}$/.test(code) ? readPieceByCode(code) : null,
  ])
  if (!piece) notFound()
  const plan = piece.job.plan as unknown as JobPlan
  const isOpen = piece.status === 'open' && piece.job.status === 'open' && may(actor, 'bench.write')
  return (
    <>
      <PageHead
        kind={`${piece.job.number}, piece ${piece.number} of ${piece.job.quantity}`}
        title={piece.job.revision.part.name}
        trail={[
          { label: 'Bench', href: '/bench' },
          { label: piece.job.number, href: `/jobs/${piece.job.id}` },
        ]}
      />
      {piece.status !== 'open' && (
        <Notice title={`This piece is ${piece.status}`}>Nothing more is logged on it.</Notice>
      )}
      <Notice kind="caution" title="The bent bar stores energy; the bath burns">
        Stand out of the press’s line. Never plug both ends. Gloves and face shield at the pot.
      </Notice>
      {(plan.input?.bends ?? []).map((bend, index) => {
        const position = index + 1
        const state = bendState(piece.bendRecords, position)
        const aim = plan.spec?.bends[index]
        const tries = piece.bendRecords.filter((record) => record.bendPosition === position)
        const waiting = tries.find((record) => record.verdict === 'waiting')
        return (
          <Section
            key={position}
            title={`Bend ${position}: ${formatAngle(bend.angleDeg)}`}
            aside={<Verdict word={looks[state]} label={bendStateWords[state]} />}
          >
            {aim && (
              <p>
                Load to <strong>{formatAngle(aim.loadedAngleDeg)}</strong>, expect{' '}
                <strong>{formatAngle(aim.angleAtPressDeg)}</strong> at the press and{' '}
                <strong>{formatAngle(aim.finalAngleDeg)}</strong> after melt-out.
              </p>
            )}
            <ul className="plain-list">
              {tries.map((record) => (
                <li key={record.id}>
                  Try {record.tryNumber}:{' '}
                  {record.angleFinalDeg === null
                    ? 'not measured after melt-out yet'
                    : formatAngle(record.angleFinalDeg)}
                  , {record.verdict === 'cannotSay' ? 'cannot say' : record.verdict}
                </li>
              ))}
            </ul>
            {isOpen && (waiting || newTryRefusal(state) === null) ? (
              <TryForm
                key={`${position}-${tries.length}-${waiting?.clientKey ?? ''}`}
                scanCode={piece.scanCode}
                position={position}
                completes={waiting?.clientKey ?? null}
                aimDeg={aim?.angleAtPressDeg ?? null}
                units={{ lengthUnit: shop.lengthUnit, currency: shop.currency }}
              />
            ) : (
              state === 'fail' && <p className="muted">{newTryRefusal(state)}</p>
            )}
          </Section>
        )
      })}
    </>
  )
}
