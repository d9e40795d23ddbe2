import type { Metadata } from 'next'
import Link from 'next/link'
import { Empty } from '@/app/_ui/empty'
import { PageHead } from '@/app/_ui/page-head'
import { formatDate } from '@/lib/core/format'
import { bendState, bendStateWords } from '@/lib/records/bend-record/rules'
import { mostBenchPieces, readBenchPieces } from '@/lib/records/piece/read'
import { readShop } from '@/lib/records/shop/read'
import { requireActor } from '@/lib/server/session'

export const metadata: Metadata = { title: 'Bench' }

export default async function BenchPage() {
  await requireActor('bench.read')
  const [shop, found] = await Promise.all([readShop(), readBenchPieces()])
  const pieces = found.slice(0, mostBenchPieces)
  const day = (date: Date) =>
    formatDate(date.toISOString().slice(0, 10), { locale: 'en-US', timeZone: shop.timeZone })
  return (
    <>
      <PageHead title="Bench">Scan the code on a traveller, or pick the piece.</PageHead>
      {pieces.length === 0 ? (
        <Empty title="No piece waits for the bench">A job puts its pieces here.</Empty>
      ) : (
        <ul className="ruled-list">
          {pieces.map((piece) => {
            const states = Array.from({ length: piece.job.revision._count.bends }, (_, index) =>
              bendState(piece.bendRecords, index + 1),
            )
            return (
              <li key={piece.scanCode}>
                <Link className="table-row-link" href={`/bench/${piece.scanCode}`}>
                  {piece.job.number}, piece {piece.number}: {piece.job.revision.part.name}
                </Link>
                <div className="muted">
                  Due {day(piece.job.dueOn)}.{' '}
                  {states.map((state, index) => `Bend ${index + 1} ${bendStateWords[state]}`).join(', ')}.
                </div>
              </li>
            )
          })}
        </ul>
      )}
      {found.length > pieces.length && (
        <p>
          These are the {mostBenchPieces} due first. Scan the code on the traveller, or open the job, for any
          other.
        </p>
      )}
    </>
  )
}
