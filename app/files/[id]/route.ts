import { rowId } from '@/app/_shop/row-id'
import { readFile } from '@/lib/records/file/read'
import { dispositionHeader, fileKinds, kindOfMediaType } from '@/lib/records/file/rules'
import { shopRoute } from '@/lib/server/route'

/**
 * Whatever a file holds, it can load and run nothing here. A PDF is left out of the sandbox: browsers refuse to open
 * their own viewer in one, and the viewer keeps the document's script away from the page's origin.
 */
function contentPolicy(kind: string | null): string {
  const nothing = "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'"
  return kind === 'pdf' ? `${nothing}; object-src 'self'` : `${nothing}; img-src 'self'; sandbox`
}

/** A stored file, byte for byte as it came in; shown where a browser can show it, saved where not. */
export const GET = shopRoute<{ params: Promise<{ id: string }> }>(
  'file.read',
  async (request, { params }) => {
    const id = rowId((await params).id)
    const file = id === null ? null : await readFile(id)
    if (!file) return new Response('There is no such file.', { status: 404 })
    const kind = kindOfMediaType(file.mediaType)
    const wantsSaving = new URL(request.url).searchParams.has('save')
    const shown = kind !== null && fileKinds[kind].shown && !wantsSaving
    const headers = {
      'content-type': kind === null ? 'application/octet-stream' : file.mediaType,
      'content-length': String(file.byteCount),
      'content-disposition': dispositionHeader(file.name, shown),
      'content-security-policy': contentPolicy(kind),
      'x-content-type-options': 'nosniff',
      'cache-control': 'private, no-cache',
      etag: `"${file.sha256}"`,
    }
    if (request.headers.get('if-none-match') === headers.etag)
      return new Response(null, { status: 304, headers: { etag: headers.etag } })
    return new Response(await file.content(), { headers })
  },
)
