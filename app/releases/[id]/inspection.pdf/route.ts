import { noSuchPaper, pdfAnswer } from '@/app/_paper/answer'
import { InspectionDocument } from '@/app/_paper/inspection-document'
import { inspectionOf } from '@/app/_paper/release-papers'
import { rowId } from '@/app/_shop/row-id'
import { readRelease } from '@/lib/records/release/read'
import { readShop } from '@/lib/records/shop/read'
import { shopRoute } from '@/lib/server/route'

type Context = { params: Promise<{ id: string }> }

/** The record of what was measured on the pieces of a release. */
export const GET = shopRoute<Context>('job.read', async (_request, { params }) => {
  const id = rowId((await params).id)
  const [shop, release] = await Promise.all([readShop(), id === null ? null : readRelease(id)])
  if (!release) return noSuchPaper('There is no such release.')
  return pdfAnswer(
    InspectionDocument({ data: inspectionOf(release, shop) }),
    `inspection-record-${release.number}`,
  )
})
