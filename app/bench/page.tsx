import type { Metadata } from 'next'
import Link from 'next/link'
import { redirect } from 'next/navigation'
import { Empty } from '@/app/_ui/empty'
import { PageHead } from '@/app/_ui/page-head'
import { Section } from '@/app/_ui/section'
import { formatDate } from '@/lib/core/format'
import { bendState, nextStepText } from '@/lib/records/bend-record/rules'
import { mostBenchPieces, readBenchPieces, readPieceNamed } from '@/lib/records/piece/read'
import { readPieceName } from '@/lib/records/piece/rules'
import { readShop } from '@/lib/records/shop/read'
import { requireActor } from '@/lib/server/session'
import { FindPiece } from './find-piece'

export const metadata: Metadata = { title: 'Bench' }

/** What waits at the bench, and the way to any piece by its code or its name. */
export default async function BenchPage({
  searchParams,
}: {
  searchParams: Promise<{ piece?: string | string[] }>
}) {
  await requireActor('bench.read')
  const { piece: asked } = await searchParams
  const typed = typeof asked === 'string' ? asked.trim().slice(0, 200) : ''
  const name = typed === '' ? null : readPieceName(typed)
  const code = name && (await readPieceNamed(name))
  if (code) redirect(`/bench/${code}`)
  const [shop, found] = await Promise.all([readShop(), readBenchPieces()])
  const pieces = found.slice(0, mostBenchPieces)
  const day = (date: Date) =>
    formatDate(date.toISOString().slice(0, 10), { locale: 'en-US', timeZone: shop.timeZone })
  const jobs = new Map<string, typeof pieces>()
  for (const piece of pieces) jobs.set(piece.job.number, [...(jobs.get(piece.job.number) ?? []), piece])
  return (
    <>
      <PageHead title="Bench">Scan the code on a traveller, or pick the piece.</PageHead>
      <FindPiece typed={typed} error={typed === '' ? undefined : `No piece is called “${typed}”.`} />
      {pieces.length === 0 && <Empty title="No piece waits for the bench">A job puts its pieces here.</Empty>}
      {[...jobs.values()].map((ofJob) => {
        const [{ job } = { job: null }] = ofJob
        return (
          job && (
            <Section
              key={job.number}
              title={`${job.number}, ${job.revision.part.name}`}
              aside={<span>Due {day(job.dueOn)}</span>}
            >
              <PieceList pieces={ofJob} bendCount={job.revision.bends.length} />
            </Section>
          )
        )
      })}
      {found.length > pieces.length && (
        <p>
          These are the {mostBenchPieces} due first. Scan the code on the traveller, or open the job, for any
          other.
        </p>
      )}
    </>
  )
}

/** Pieces with something to do, each with what; those with every bend done behind one line. */
function PieceList({
  pieces,
  bendCount,
}: {
  pieces: Awaited<ReturnType<typeof readBenchPieces>>
  bendCount: number
}) {
  const listed = pieces.map((piece) => {
    const states = Array.from({ length: bendCount }, (_, index) => bendState(piece.bendRecords, index + 1))
    return { piece, next: nextStepText(states) }
  })
  const rows = (some: typeof listed) => (
    <ul className="ruled-list bench-pieces">
      {some.map(({ piece, next }) => (
        <li key={piece.scanCode}>
          <Link href={`/bench/${piece.scanCode}`}>
            <span className="strong">Piece {piece.number}</span>
            <span>{next ?? 'Every bend done'}</span>
          </Link>
        </li>
      ))}
    </ul>
  )
  const toDo = listed.filter(({ next }) => next !== null)
  const bent = listed.filter(({ next }) => next === null)
  return (
    <>
      {toDo.length > 0 && rows(toDo)}
      {bent.length > 0 && (
        <details>
          <summary className="check">
            {bent.length === 1 ? '1 piece has' : `${bent.length} pieces have`} every bend done
          </summary>
          {rows(bent)}
        </details>
      )}
    </>
  )
}
