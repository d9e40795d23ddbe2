import { mayReadMetrics, readMetrics } from '@/lib/records/metrics/read'

export const dynamic = 'force-dynamic'

/** For a program that watches the shop's server. Who may not read it is not told that it is there. */
export async function GET(request: Request): Promise<Response> {
  if (!mayReadMetrics(request.headers.get('authorization'))) return new Response('Not found', { status: 404 })
  return new Response(await readMetrics(), {
    headers: { 'content-type': 'text/plain; version=0.0.4; charset=utf-8', 'cache-control': 'no-store' },
  })
}
