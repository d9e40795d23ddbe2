import { noSuchPaper, originOf, pdfAnswer } from '@/app/_paper/answer'
import { travellerOfJob } from '@/app/_paper/job-traveller'
import { TravellerDocument } from '@/app/_paper/traveller-document'
import { rowId } from '@/app/_shop/row-id'
import { readShop } from '@/lib/records/shop/read'
import { readJobPapers, readTravellerStanding } from '@/lib/records/traveller/read'
import { shopRoute } from '@/lib/server/route'

type Context = { params: Promise<{ id: string }> }

/** The job's traveller; ?piece= prints it for one piece. */
export const GET = shopRoute<Context>('job.read', async (request, { params }, actor) => {
  const id = rowId((await params).id)
  const [shop, job, standing] = await Promise.all([
    readShop(),
    id === null ? null : readJobPapers(id),
    id === null ? null : readTravellerStanding(id),
  ])
  if (!job || !standing) return noSuchPaper('There is no such job.')
  const asked = new URL(request.url).searchParams.get('piece')
  const piece = asked === null ? undefined : rowId(asked)
  if (piece === null || (piece !== undefined && !job.pieces.some(({ number }) => number === piece)))
    return noSuchPaper('The job has no such piece.')
  const data = travellerOfJob(
    job,
    standing,
    { shop, origin: originOf(request.headers), by: actor.name, atIso: new Date().toISOString() },
    piece,
  )
  return pdfAnswer(
    TravellerDocument({ data }),
    `traveller-${job.number}-issue-${job.travellerIssue}${piece ? `-piece-${piece}` : ''}`,
  )
})
