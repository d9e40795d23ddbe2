import { type NextRequest, NextResponse } from 'next/server'
import { isReadableActionForm, isReadableActionText } from '@/lib/server/action-body'
import { isFromOwnPage } from '@/lib/server/origin'

/** What a page may load and run. Inline styles on elements stay allowed: drawings and bars set their own sizes. */
function contentPolicy(nonce: string): string {
  const development = process.env.NODE_ENV === 'development'
  return [
    "default-src 'self'",
    `script-src 'self' 'nonce-${nonce}' 'strict-dynamic'${development ? " 'unsafe-eval'" : ''}`,
    `style-src 'self' 'nonce-${nonce}'`,
    "style-src-attr 'unsafe-inline'",
    "img-src 'self' data: blob:",
    "font-src 'self'",
    "connect-src 'self'",
    "worker-src 'self' blob:",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
  ].join('; ')
}

/** A proxy of the shop's own may have named the request already, and logs it under that name. */
function requestIdOf(request: NextRequest): string {
  const given = request.headers.get('x-request-id') ?? ''
  const believed =
    Number(process.env.BENDWRIGHT_TRUSTED_PROXIES ?? 0) > 0 && /^[A-Za-z0-9-]{8,64}$/.test(given)
  return believed ? given : crypto.randomUUID()
}

/** The largest file the shop keeps and the rest of its form; what is longer is not looked at. */
const mostBytes = 26 * 1024 * 1024

/** Whether the framework will be able to take the address and the body apart: what it can't, it answers with a 500. */
async function refusalOfBadForm(request: NextRequest): Promise<{ status: number; message: string } | null> {
  const noAddress = { status: 400, message: 'This is no address.' }
  try {
    decodeURIComponent(request.nextUrl.pathname)
  } catch {
    return noAddress
  }
  // The database holds no text with a NUL in it and refuses even to look for one.
  if (`${request.nextUrl.pathname}${request.nextUrl.search}`.includes('%00')) return noAddress
  if (request.method !== 'POST') return null
  const namedInHeader = request.headers.has('next-action')
  const inParts = request.headers.get('content-type')?.trimStart().toLowerCase().startsWith('multipart/')
  if (!namedInHeader && !inParts) return null
  if (Number(request.headers.get('content-length') ?? 0) > mostBytes)
    return { status: 413, message: 'This is more than the shop takes at once.' }
  const readable = inParts
    ? await request.formData().then(
        (form) => isReadableActionForm(form, namedInHeader),
        () => false,
      )
    : isReadableActionText(await request.text())
  return readable ? null : { status: 400, message: 'This is not what a form sends.' }
}

/**
 * Gives every page a fresh script nonce, a request id and its own address, and turns away what was posted from
 * elsewhere, to whatever address: an action answers at all of them. Who may ask is for pages, actions and routes to say.
 */
export async function proxy(request: NextRequest): Promise<NextResponse> {
  const changes = request.method !== 'GET' && request.method !== 'HEAD'
  if (changes && !isFromOwnPage(request.headers)) {
    const message = 'This request did not come from one of the shop’s own pages.'
    return NextResponse.json({ code: 'not-allowed', message }, { status: 403 })
  }
  const bad = await refusalOfBadForm(request)
  if (bad) {
    const code = bad.status === 413 ? 'too-large' : 'bad-input'
    return NextResponse.json({ code, message: bad.message }, { status: bad.status })
  }
  const requestId = requestIdOf(request)
  const passed = new Headers(request.headers)
  passed.set('x-request-id', requestId)
  if (request.nextUrl.pathname.startsWith('/files/')) {
    return NextResponse.next({ request: { headers: passed }, headers: { 'x-request-id': requestId } })
  }
  const nonce = btoa(crypto.randomUUID())
  const policy = contentPolicy(nonce)
  passed.set('content-security-policy', policy)
  passed.set('x-nonce', nonce)
  passed.set('x-bendwright-path', request.nextUrl.pathname + request.nextUrl.search)
  const response = NextResponse.next({ request: { headers: passed } })
  response.headers.set('content-security-policy', policy)
  response.headers.set('x-request-id', requestId)
  // What a script may read of an answer's head: the error screen names the request with it.
  response.headers.set('server-timing', `request;desc="${requestId}"`)
  response.headers.set('x-content-type-options', 'nosniff')
  response.headers.set('referrer-policy', 'same-origin')
  response.headers.set('x-frame-options', 'DENY')
  response.headers.set('cross-origin-opener-policy', 'same-origin')
  response.headers.set('permissions-policy', 'camera=(self), microphone=(), geolocation=()')
  return response
}

/** Everything but the app's own scripts and styles; files keep the stricter policy their own route gives them. */
export const config = {
  matcher: [{ source: '/((?!_next/static/).*)' }],
}
