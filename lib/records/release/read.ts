import 'server-only'
import type { JobPlan } from '@/lib/records/job/rules'
import type { ReleasePapers, ReleaseSnapshot } from '@/lib/records/release/rules'
import { db } from '@/lib/server/db'

/** A release with what stood behind it; null when there is none. */
export async function readRelease(id: number): Promise<ReleasePapers | null> {
  const release = await db.release.findUnique({
    where: { id },
    select: {
      id: true,
      number: true,
      at: true,
      statementText: true,
      snapshot: true,
      by: { select: { name: true } },
      job: {
        select: {
          id: true,
          number: true,
          quantity: true,
          plan: true,
          customer: { select: { name: true, addressText: true } },
          quoteLine: { select: { quote: { select: { number: true } } } },
          revision: {
            select: {
              letter: true,
              materialId: true,
              part: { select: { id: true, number: true, name: true, customerRef: true } },
            },
          },
          releases: {
            orderBy: { id: 'asc' },
            select: { id: true, number: true, pieces: { select: { pieceId: true } } },
          },
        },
      },
      pieces: {
        orderBy: { piece: { number: 'asc' } },
        select: {
          piece: {
            select: {
              number: true,
              bendRecords: {
                orderBy: [{ bendPosition: 'asc' }, { tryNumber: 'asc' }],
                select: { bendPosition: true, tryNumber: true, look: true, dyePenetrant: true },
              },
              faults: {
                where: { disposition: 'concession' },
                select: {
                  number: true,
                  description: true,
                  whyText: true,
                  decidedAt: true,
                  decidedBy: { select: { name: true } },
                },
              },
            },
          },
        },
      },
    },
  })
  if (!release) return null
  return {
    ...release,
    snapshot: release.snapshot as unknown as ReleaseSnapshot,
    job: { ...release.job, plan: release.job.plan as unknown as JobPlan },
    pieces: release.pieces.map(({ piece }) => piece),
  }
}
