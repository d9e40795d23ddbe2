import 'server-only'
import { jobFiller, recoveredRefusal } from '@/lib/records/filler-use/rules'
import type { FillerUse } from '@/lib/records/filler-use/schema'
import { moveFiller } from '@/lib/records/tooling/write'
import { db } from '@/lib/server/db'
import { Refused } from '@/lib/server/errors'
import type { Actor } from '@/lib/server/session'

/** Enters what a job took from a pot or gave back to it, in the pot's ledger. A job can't give back what it did not take. */
export async function enterJobFiller(input: FillerUse, actor: Actor): Promise<{ id: number }> {
  return db.$transaction(async (tx) => {
    await tx.$queryRaw`select id from "Filler" where id = ${input.fillerId} for update`
    const job = await tx.job.findUnique({
      where: { id: input.jobId },
      select: {
        status: true,
        number: true,
        fillerEntries: { where: { fillerId: input.fillerId }, select: { kind: true, massKg: true } },
      },
    })
    if (!job) throw new Refused('not-found', 'There is no such job.')
    if (job.status === 'cancelled' && input.kind !== 'recovered') {
      throw new Refused('wrong-state', 'The job is cancelled: filler can only come back from it.')
    }
    if (job.status === 'closed') throw new Refused('wrong-state', 'The job is closed. Open it again first.')
    if (input.kind === 'recovered') {
      const { lengthUnit } = await tx.shop.findUniqueOrThrow({
        where: { id: 1 },
        select: { lengthUnit: true },
      })
      const why = recoveredRefusal(input.massKg, jobFiller(job.fillerEntries), lengthUnit)
      if (why) throw new Refused('not-enough', why, 'massKg')
    }
    return moveFiller(tx, input, actor)
  })
}
