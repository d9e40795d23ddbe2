import { readExport } from '@/lib/records/export/read'
import { dispositionHeader } from '@/lib/records/file/rules'
import { shopRoute } from '@/lib/server/route'
import { noteExportAction } from '../actions'

/** Everything the shop has kept, in open formats. A POST: it leaves a line in the audit trail. */
export const POST = shopRoute('data.export', async () => {
  const noted = await noteExportAction({})
  if (!noted.ok) return Response.json({ code: noted.code, message: noted.message }, { status: 409 })
  const { body, name } = await readExport()
  return new Response(body, {
    headers: {
      'content-type': 'application/zip',
      'content-disposition': dispositionHeader(name, false),
      'cache-control': 'no-store',
    },
  })
})
