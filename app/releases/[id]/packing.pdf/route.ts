import { noSuchPaper, pdfAnswer } from '@/app/_paper/answer'
import { PackingDocument } from '@/app/_paper/packing-document'
import { packingOf } from '@/app/_paper/release-papers'
import { rowId } from '@/app/_shop/row-id'
import { readRelease } from '@/lib/records/release/read'
import { readLogo, readShop } from '@/lib/records/shop/read'
import { shopRoute } from '@/lib/server/route'

type Context = { params: Promise<{ id: string }> }

/** What is in the crate of a release. */
export const GET = shopRoute<Context>('job.read', async (_request, { params }) => {
  const id = rowId((await params).id)
  const [shop, release] = await Promise.all([readShop(), id === null ? null : readRelease(id)])
  if (!release) return noSuchPaper('There is no such release.')
  const data = packingOf(release, shop, await readLogo(shop.logoId))
  return pdfAnswer(PackingDocument({ data }), `packing-list-${release.number}`)
})
