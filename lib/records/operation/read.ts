import 'server-only'
import { db } from '@/lib/server/db'

/** The operations of a job for the bench, in order, with the clocks of one person that still run. */
export async function readBenchOperations(jobId: number, userId: number) {
  return db.jobOperation.findMany({
    where: { jobId },
    orderBy: { position: 'asc' },
    select: {
      id: true,
      name: true,
      doneAt: true,
      logs: {
        where: { byId: userId, endedAt: null },
        select: { clientKey: true, startedAt: true, piece: { select: { number: true } } },
      },
    },
  })
}
