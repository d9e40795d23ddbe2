import { type NextRequest, NextResponse } from 'next/server'
import { isReadableActionText } from '@/lib/server/action-body'
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
  const isActionText =
    request.headers.has('next-action') && request.headers.get('content-type')?.startsWith('text/plain')
  if (changes && isActionText && !isReadableActionText(await request.text())) {
    return NextResponse.json(
      { code: 'bad-input', message: 'This is not what a form sends.' },
      { status: 400 },
    )
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
