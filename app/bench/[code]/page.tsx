import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { LinkButton } from '@/app/_ui/button'
import { Notice } from '@/app/_ui/notice'
import { PageHead } from '@/app/_ui/page-head'
import { Section } from '@/app/_ui/section'
import { Verdict, type VerdictWord } from '@/app/_ui/verdict'
import { formatAngle } from '@/lib/core/format'
import { readAim } from '@/lib/records/bend-record/read'
import {
  type BendState,
  bendState,
  bendStateWords,
  meltsOut,
  newTryRefusal,
  nextStepText,
  type TryReason,
} from '@/lib/records/bend-record/rules'
import type { JobPlan } from '@/lib/records/job/rules'
import { readBenchOperations } from '@/lib/records/operation/read'
import { readPieceByCode } from '@/lib/records/piece/read'
import { readShop } from '@/lib/records/shop/read'
import { may, requireActor } from '@/lib/server/session'
import { Clock } from './clock'
import { FaultForm } from './fault-form'
import { Photo } from './photo'
import { type Readings, TryForm } from './try-form'

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

type Piece = NonNullable<Awaited<ReturnType<typeof readPieceByCode>>>
type Kept = Piece['bendRecords'][number]

/** What a waiting try was read as, as text to go on from; the unit stands with each length. */
function readingsOf(record: Kept): Readings {
  const angle = (deg: number | null) => (deg === null ? '' : String(Number(deg.toFixed(4))))
  const length = (mm: number | null) => (mm === null ? '' : `${Number(mm.toFixed(4))} mm`)
  return {
    loadedAngleDeg: angle(record.loadedAngleDeg),
    angleAtPressDeg: angle(record.angleAtPressDeg),
    angleFinalDeg: angle(record.angleFinalDeg),
    radiusMm: length(record.radiusMm),
    widthOutsideMm: length(record.widthOutsideMm),
    widthMiddleMm: length(record.widthMiddleMm),
    widthInsideMm: length(record.widthInsideMm),
    heightMm: length(record.heightMm),
    wallOutsideMm: length(record.wallOutsideMm),
    wallInsideMm: length(record.wallInsideMm),
    look: record.look ?? '',
    dyePenetrant: record.dyePenetrant,
    gaugeText: record.gaugeText,
    gaugeUncertaintyDeg: angle(record.gaugeUncertaintyDeg),
    noteText: record.noteText,
  }
}

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
  const bends = plan.input?.bends ?? []
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
        <Notice title={`This piece is ${piece.status}`}>Nothing more is logged on it.</Notice>
      )}
      {piece.faults.map(({ number, description }) => (
        <Notice
          key={number}
          kind="stop"
          title={`Set this piece aside: ${number} is open`}
          actions={<LinkButton href={`/jobs/${piece.job.id}#faults`}>Open {number}</LinkButton>}
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
              word={looks[states[position - 1] ?? 'none']}
              label={bendStateWords[states[position - 1] ?? 'none']}
            />
          }
        >
          {aim ? <SetPoints aim={aim} melts={meltsOut(plan)} tries={triesOf(piece, position)} /> : null}
          {!aim && <p>{plan.refusal || 'There are no set-points for this bend: work from the drawing.'}</p>}
          <Notice kind="caution" title="The bent bar stores energy; the bath burns">
            Stand out of the press’s line. Never plug both ends. Gloves and face shield at the pot.
          </Notice>
          <BendWork
            piece={piece}
            position={position}
            state={states[position - 1] ?? 'none'}
            mayLog={mayLog}
            form={{
              scanCode: piece.scanCode,
              position,
              aim: aim?.now ?? null,
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
        <p>{plan.refusal || 'This way bends nothing here.'}</p>
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

/** Where to go from here: the bend that is open, or once all are done the next piece. */
function NextStep({
  code,
  position,
  openAt,
  states,
  nextPiece,
}: {
  code: string
  position: number
  openAt: number
  states: readonly BendState[]
  nextPiece: { number: number; scanCode: string } | null
}) {
  return (
    <div className="stack stack-tight">
      {openAt < 0 && <p className="strong">Every bend of this piece is done.</p>}
      {openAt >= 0 && openAt + 1 !== position && (
        <LinkButton big wide kind="primary" href={`/bench/${code}?bend=${openAt + 1}`}>
          Next: {lowerFirst(nextStepText(states) ?? '')}
        </LinkButton>
      )}
      {nextPiece && (
        <LinkButton
          big={openAt < 0}
          wide={openAt < 0}
          kind={openAt < 0 ? 'primary' : 'plain'}
          href={`/bench/${nextPiece.scanCode}`}
        >
          Go to piece {nextPiece.number}
        </LinkButton>
      )}
    </div>
  )
}

const lowerFirst = (text: string) => text.charAt(0).toLowerCase() + text.slice(1)

const triesOf = (piece: Piece, position: number) =>
  piece.bendRecords.filter((record) => record.bendPosition === position)

function SetPoints({
  aim: { now, planned },
  melts,
  tries,
}: {
  aim: NonNullable<Awaited<ReturnType<typeof readAim>>>
  melts: boolean
  tries: readonly Kept[]
}) {
  const show = (deg: number) => formatAngle(deg, { decimals: 1, keepZeros: true })
  return (
    <>
      <dl className="bench-points">
        <dt>Load to</dt>
        <dd>{show(now.loadedDeg)}</dd>
        <dt>Let go, read</dt>
        <dd>{show(now.atPressDeg)}</dd>
        {melts && <dt>After melt-out</dt>}
        {melts && <dd>{show(now.finalDeg)}</dd>}
      </dl>
      {show(now.loadedDeg) !== show(planned.loadedDeg) && (
        <p>
          {tries.length === 0
            ? 'From what this job taught so far'
            : `After ${tries.length === 1 ? '1 try' : `${tries.length} tries`} here`}
          : aim <strong>{show(now.loadedDeg)}</strong> loaded, was {show(planned.loadedDeg)}. Springback ×{' '}
          {now.factor.toFixed(2)}, planned × {planned.factor.toFixed(2)}.
        </p>
      )}
    </>
  )
}

function BendWork({
  piece,
  position,
  state,
  mayLog,
  form,
  label,
}: {
  piece: Piece
  position: number
  state: BendState
  mayLog: boolean
  form: Omit<Parameters<typeof TryForm>[0], 'completes' | 'label'>
  label: string
}) {
  const tries = triesOf(piece, position)
  const waiting = tries.find((record) => record.verdict === 'waiting')
  const last = tries.at(-1)
  const what = `bend ${position} of ${label}`
  const fault = last?.faults.find(({ disposition }) => disposition === null)
  return (
    <>
      {fault && (
        <Notice
          kind="stop"
          title={`Set this piece aside: ${fault.number} is open`}
          actions={<LinkButton href={`/jobs/${piece.job.id}#faults`}>Open {fault.number}</LinkButton>}
        >
          The office decides first what becomes of it.
        </Notice>
      )}
      {tries.length > 0 && (
        <ul className="ruled-list" aria-label="Tries so far">
          {tries.toReversed().map((record) => (
            <li key={record.id}>
              <Verdict
                word={record.verdict === 'cannotSay' ? 'cannot-say' : record.verdict}
                label={`Try ${record.tryNumber}, ${bendStateWords[record.verdict]}`}
              >
                {(record.reasons as unknown as TryReason[]).map(({ text }) => text).join('; ')}
              </Verdict>
              {record.photos.map(({ id }, index) => (
                <Link key={id} className="button button-quiet" href={`/files/${id}`} prefetch={false}>
                  Picture {index + 1}
                </Link>
              ))}
            </li>
          ))}
        </ul>
      )}
      {mayLog && (waiting || newTryRefusal(state) === null) ? (
        <TryForm
          key={`${position}-${tries.length}-${waiting?.clientKey ?? ''}`}
          {...form}
          label={waiting ? `the rest of the try at ${what}` : `the try at ${what}`}
          completes={waiting ? { key: waiting.clientKey, readings: readingsOf(waiting) } : null}
        />
      ) : (
        <p className="muted">{newTryRefusal(state)}</p>
      )}
      {mayLog && last && (
        <Photo key={last.clientKey} recordKey={last.clientKey} label={`picture of ${what}`} />
      )}
    </>
  )
}
