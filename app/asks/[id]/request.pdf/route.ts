import { rowId } from '@/app/_shop/row-id'
import { requestPdf } from '@/app/asks/ask-pack'
import { readAskPack } from '@/lib/records/ask/read'
import { askNumber } from '@/lib/records/ask/rules'
import { readLogo } from '@/lib/records/shop/read'
import { shopRoute } from '@/lib/server/route'

/** The request on the shop’s letterhead, with its drawing, bend table and a form to answer on. */
export const GET = shopRoute<{ params: Promise<{ id: string }> }>(
  'ask.read',
  async (_request, { params }) => {
    const id = rowId((await params).id)
    const read = id === null ? null : await readAskPack(id)
    if (!read) return Response.json({ message: 'There is no such request.' }, { status: 404 })
    return new Response(new Uint8Array(await requestPdf(read, await readLogo(read.shop.logoId))), {
      headers: {
        'content-type': 'application/pdf',
        'content-disposition': `inline; filename="request-${askNumber(read.ask.id)}.pdf"`,
        'cache-control': 'private, no-store',
      },
    })
  },
)
