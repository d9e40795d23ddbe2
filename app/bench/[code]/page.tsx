import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { LinkButton } from '@/app/_ui/button'
import { Notice } from '@/app/_ui/notice'
import { PageHead } from '@/app/_ui/page-head'
import { Section } from '@/app/_ui/section'
import { Verdict } from '@/app/_ui/verdict'
import { stateMarks } from '@/app/jobs/state-marks'
import { formatAngle } from '@/lib/core/format'
import { readAim } from '@/lib/records/bend-record/read'
import { bendState, bendStateWords, isBentHere, meltsOut } from '@/lib/records/bend-record/rules'
import type { JobPlan } from '@/lib/records/job/rules'
import { readBenchOperations } from '@/lib/records/operation/read'
import { readPieceByCode } from '@/lib/records/piece/read'
import { readShop } from '@/lib/records/shop/read'
import { may, requireActor } from '@/lib/server/session'
import { BendWork, triesOf } from './bend-work'
import { Clock } from './clock'
import { FaultForm } from './fault-form'
import { NextStep } from './next-step'
import { SetPoints } from './set-points'
import { SetUp } from './set-up'
import '@/app/jobs/jobs.css'

export const metadata: Metadata = { title: 'Bench' }

/** One bend of one piece at the bench: what to bend to, what came of it, the next reading. */
export default async function BenchPiecePage({
  params,
  searchParams,
}: {
  params: Promise<{ code: string }>
  searchParams: Promise<{ bend?: string | string[] }>
}) {
  const actor = await requireActor('bench.read')
  const [{ code }, asked] = await Promise.all([params, searchParams])
  const [shop, piece] = await Promise.all([
    readShop(),
    /^[\w-]{16,64}$/.test(code) ? readPieceByCode(code) : null,
  ])
  if (!piece) notFound()
  const plan = piece.job.plan as unknown as JobPlan
  const { bends } = piece.job.revision
  const bentHere = isBentHere(plan)
  const states = bends.map((_, index) => bendState(piece.bendRecords, index + 1))
  const openAt = states.findIndex((state) => state !== 'pass' && state !== 'conceded')
  const wished = Number(asked.bend)
  const position = bends[wished - 1] ? wished : openAt + 1 || 1
  const bend = bends[position - 1]
  const [aim, operations] = await Promise.all([
    readAim(plan, piece.job.id, position),
    readBenchOperations(piece.job.id, actor.userId),
  ])
  const mayLog = piece.status === 'open' && piece.job.status === 'open' && may(actor, 'bench.write')
  const replacement = piece.replacements[0]
  const label = `${piece.job.number}, piece ${piece.number}`
  const nextPiece = piece.job.pieces.find(({ number }) => number > piece.number) ?? piece.job.pieces[0]
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
        <Notice
          title={`This piece is ${piece.status}`}
          actions={
            replacement && (
              <LinkButton kind="primary" href={`/bench/${replacement.scanCode}`}>
                Go to piece {replacement.number}, which replaces it
              </LinkButton>
            )
          }
        >
          Nothing more is logged on it.
        </Notice>
      )}
      {piece.faults.map(({ id, number, description }) => (
        <Notice
          key={number}
          kind="stop"
          title={`Set this piece aside: ${number} is open`}
          actions={<LinkButton href={`/faults/${id}`}>Open {number}</LinkButton>}
        >
          {description}. The office decides first what becomes of it.
        </Notice>
      ))}
      {bends.length > 1 && (
        <nav className="bench-steps" aria-label="Bends of this piece">
          {states.map((state, index) => (
            <LinkButton
              key={index + 1}
              href={`/bench/${code}?bend=${index + 1}`}
              aria-current={index + 1 === position ? 'step' : undefined}
            >
              {index + 1}: {bendStateWords[state]}
            </LinkButton>
          ))}
        </nav>
      )}
      {bend ? (
        <Section
          title={`Bend ${position}: ${formatAngle(bend.angleDeg)}`}
          aside={
            <Verdict
              word={stateMarks[states[position - 1] ?? 'none']}
              label={bendStateWords[states[position - 1] ?? 'none']}
            />
          }
        >
          {aim ? (
            <SetPoints
              aim={aim}
              codes={[piece.scanCode, ...piece.job.pieces.map(({ scanCode }) => scanCode)]}
              position={position}
              melts={meltsOut(plan)}
              tryCount={triesOf(piece, position).length}
            />
          ) : (
            <p>
              {bentHere
                ? plan.refusal || 'There are no set-points for this bend: work from the drawing.'
                : 'This is not bent here: measure the finished angle.'}
            </p>
          )}
          {bentHere && <SetUp plan={plan} position={position} piece={piece} lengthUnit={shop.lengthUnit} />}
          {bentHere && (
            <Notice kind="caution" title="The bent bar stores energy; the bath burns">
              Stand out of the press’s line. Never plug both ends. Gloves and face shield at the pot.
            </Notice>
          )}
          <BendWork
            piece={piece}
            position={position}
            state={states[position - 1] ?? 'none'}
            mayLog={mayLog}
            form={{
              scanCode: piece.scanCode,
              position,
              aim: aim?.now ?? null,
              bentHere,
              meltsOut: meltsOut(plan),
              needsPenetrant: plan.tolerances.penetrant,
              lengthUnit: shop.lengthUnit,
            }}
            label={label}
          />
          <NextStep
            code={code}
            position={position}
            openAt={openAt}
            states={states}
            nextPiece={nextPiece && nextPiece.scanCode !== piece.scanCode ? nextPiece : null}
          />
        </Section>
      ) : (
        <p>{plan.refusal || 'This part has no bend.'}</p>
      )}
      {mayLog && <FaultForm scanCode={piece.scanCode} label={`fault of ${label}`} />}
      {mayLog && (
        <Section title="Clock" id="clock">
          <Clock
            pieceId={piece.id}
            operations={operations.map(({ id, name, logs: [log] }) => ({
              id,
              name,
              running: log ? { key: log.clientKey, startedAt: log.startedAt.toISOString() } : null,
            }))}
          />
        </Section>
      )}
    </>
  )
}
