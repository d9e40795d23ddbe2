import { noSuchPaper, originOf, pdfAnswer } from '@/app/_paper/answer'
import { labelsOfJob } from '@/app/_paper/job-labels'
import { LabelDocument } from '@/app/_paper/label-document'
import { rowId } from '@/app/_shop/row-id'
import { readShop } from '@/lib/records/shop/read'
import { readJobPapers } from '@/lib/records/traveller/read'
import { shopRoute } from '@/lib/server/route'

type Context = { params: Promise<{ id: string }> }

/** A label for each piece: on sheets, or with ?stock=roll one a page for a label printer. */
export const GET = shopRoute<Context>('job.read', async (request, { params }, actor) => {
  const id = rowId((await params).id)
  const [shop, job] = await Promise.all([readShop(), id === null ? null : readJobPapers(id)])
  if (!job) return noSuchPaper('There is no such job.')
  const data = labelsOfJob(
    job,
    { shop, origin: originOf(request.headers), by: actor.name, atIso: new Date().toISOString() },
    new URL(request.url).searchParams.get('stock') === 'roll' ? 'roll' : 'sheet',
  )
  if (data.labels.length === 0) return noSuchPaper('Every piece of this job is scrapped.')
  return pdfAnswer(LabelDocument({ data }), `labels-${job.number}`)
})
