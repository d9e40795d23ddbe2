import 'server-only'
import { estimatedLine } from '@/lib/records/quote-line/rules'
import type { Tx } from '@/lib/server/db'
import { Refused } from '@/lib/server/errors'

/** Until an estimate says better, the days a first draft offers. Common practice, no source. */
const usualLeadTimeDays = 15

/** A line for each part as a draft begins with it: priced by its newest estimate where there is one, open where not. */
export async function readFirstLines(tx: Tx, revisionIds: readonly number[], customerId: number) {
  const revisions = await tx.partRevision.findMany({
    where: { id: { in: [...revisionIds] }, part: { customerId } },
    select: {
      id: true,
      letter: true,
      typicalQuantity: true,
      part: { select: { number: true, name: true } },
      estimates: {
        orderBy: { number: 'desc' },
        take: 1,
        select: { id: true, inputs: true, results: true },
      },
    },
  })
  const known = new Map(revisions.map((revision) => [revision.id, revision]))
  return revisionIds.map((revisionId) => {
    const revision = known.get(revisionId)
    if (!revision) throw new Refused('bad-input', 'This part belongs to another customer.', 'revisionIds')
    const [estimate] = revision.estimates
    const made = estimate && estimatedLine(estimate)
    return {
      revisionId,
      description: `${revision.part.name}, part ${revision.part.number} revision ${revision.letter}`,
      estimateId: estimate?.id ?? null,
      leadTimeDays: made?.leadTimeDays ?? usualLeadTimeDays,
      breaks: { create: made?.steps ?? [{ quantity: revision.typicalQuantity, unitCents: 0 }] },
    }
  })
}
