import { rowId } from '@/app/_shop/row-id'
import { requestDxf } from '@/app/asks/ask-pack'
import { readAskPack } from '@/lib/records/ask/read'
import { askNumber } from '@/lib/records/ask/rules'
import { shopRoute } from '@/lib/server/route'

/** The part’s centreline for the bender’s drawing program. */
export const GET = shopRoute<{ params: Promise<{ id: string }> }>(
  'ask.read',
  async (_request, { params }) => {
    const id = rowId((await params).id)
    const read = id === null ? null : await readAskPack(id)
    if (!read) return Response.json({ message: 'There is no such request.' }, { status: 404 })
    return new Response(requestDxf(read), {
      headers: {
        'content-type': 'application/dxf',
        'content-disposition': `attachment; filename="request-${askNumber(read.ask.id)}.dxf"`,
        'cache-control': 'private, no-store',
      },
    })
  },
)
