import { noSuchPaper, originOf, pdfAnswer } from '@/app/_paper/answer'
import { firstArticleOf } from '@/app/_paper/first-article'
import { FirstArticleDocument } from '@/app/_paper/first-article-document'
import { rowId } from '@/app/_shop/row-id'
import { readShop } from '@/lib/records/shop/read'
import { readFirstArticle, readJobPapers } from '@/lib/records/traveller/read'
import { shopRoute } from '@/lib/server/route'

type Context = { params: Promise<{ id: string }> }

/** The first measured piece of the job, characteristic by characteristic. */
export const GET = shopRoute<Context>('job.read', async (request, { params }, actor) => {
  const id = rowId((await params).id)
  const [shop, job, piece] = await Promise.all([
    readShop(),
    id === null ? null : readJobPapers(id),
    id === null ? null : readFirstArticle(id),
  ])
  if (!job) return noSuchPaper('There is no such job.')
  if (!piece) return noSuchPaper('No piece of this job is measured yet.')
  const printing = {
    shop,
    origin: originOf(request.headers),
    by: actor.name,
    atIso: new Date().toISOString(),
  }
  return pdfAnswer(
    FirstArticleDocument({ data: firstArticleOf(job, piece, printing) }),
    `first-article-${job.number}`,
  )
})
