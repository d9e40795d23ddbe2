import 'server-only'
import { db } from '@/lib/server/db'

/** The operations of a job for the bench, in order, with the clocks of one person that still run. */
export async function readBenchOperations(jobId: number, userId: number) {
  return db.jobOperation.findMany({
    where: {
      jobId,
      // One that is no longer planned is shown while somebody's clock still runs on it.
      OR: [{ leftOutAtIssue: null }, { logs: { some: { byId: userId, endedAt: null } } }],
    },
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
