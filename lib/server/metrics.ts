import 'server-only'
import { subscribe } from 'node:diagnostics_channel'
import type { IncomingMessage, ServerResponse } from 'node:http'
import { log } from '@/lib/server/log'

/** Upper ends in seconds, of which each counts all requests up to it. */
const bucketEndsS = [0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5, 10]
const slowMs = 5000
const mostSeries = 400

type Series = { count: number; sumS: number; buckets: number[] }
type Counted = { series: Map<string, Series>; inFlight: number }

/** Kept beside the modules: pages, routes and the start-up each have their own copy of this file. */
const kept = globalThis as { bendwrightMetrics?: Counted }

function counted(): Counted {
  kept.bendwrightMetrics ??= { series: new Map(), inFlight: 0 }
  return kept.bendwrightMetrics
}

/** The route an address belongs to, without what differs from record to record: ids, codes, tokens, names with digits. */
export function routeOf(url: string): string {
  const path = url.split('?')[0] ?? '/'
  if (path.startsWith('/_next/')) return '/_next'
  const places = path.split('/').slice(0, 6)
  return places.map((place) => (/\d|%/.test(place) || place.length > 24 ? '[id]' : place)).join('/') || '/'
}

export function countRequest(method: string, route: string, status: number, tookMs: number): void {
  const { series } = counted()
  const labels = (path: string) =>
    `method="${method.replace(/[^A-Z]/g, '')}",route="${path.replace(/["\\\n]/g, '_')}",status="${status}"`
  // Whoever asks for a thousand addresses that are not there must not fill the memory with them.
  const key = series.size < mostSeries || series.has(labels(route)) ? labels(route) : labels('other')
  const one = series.get(key) ?? { count: 0, sumS: 0, buckets: bucketEndsS.map(() => 0) }
  const tookS = tookMs / 1000
  one.count += 1
  one.sumS += tookS
  bucketEndsS.forEach((endS, index) => {
    if (tookS <= endS) one.buckets[index] = (one.buckets[index] ?? 0) + 1
  })
  series.set(key, one)
}

/** From here on every request that reaches this process is counted, whatever answers it. Called once, at the start. */
export function observeRequests(): void {
  subscribe('http.server.request.start', (message) => {
    const { request, response } = message as { request: IncomingMessage; response: ServerResponse }
    const startedMs = performance.now()
    counted().inFlight += 1
    response.once('close', () => {
      counted().inFlight -= 1
      const tookMs = performance.now() - startedMs
      // 499: the asker went away before the answer was whole.
      const status = response.writableFinished ? response.statusCode : 499
      const route = routeOf(request.url ?? '/')
      countRequest(request.method ?? 'GET', route, status, tookMs)
      if (process.env.BENDWRIGHT_LOG_REQUESTS === '1' || status >= 500 || tookMs > slowMs) {
        const requestId = response.getHeader('x-request-id')
        log.info('request', {
          method: request.method,
          route,
          status,
          tookMs: Math.round(tookMs),
          ...(typeof requestId === 'string' && { requestId }),
        })
      }
    })
  })
}

export type Gauge = { name: string; help: string; value: number; kind?: 'gauge' | 'counter' }

/** All that was counted, as text. Source: Prometheus documentation, "Exposition formats", text format 0.0.4. */
export function metricsText(gauges: readonly Gauge[]): string {
  const { series, inFlight } = counted()
  const name = 'bendwright_http_request_seconds'
  const lines = [`# HELP ${name} How long requests took, by route and status.`, `# TYPE ${name} histogram`]
  for (const [labels, { count, sumS, buckets }] of series) {
    bucketEndsS.forEach((endS, index) =>
      lines.push(`${name}_bucket{${labels},le="${endS}"} ${buckets[index] ?? 0}`),
    )
    lines.push(`${name}_bucket{${labels},le="+Inf"} ${count}`)
    lines.push(`${name}_sum{${labels}} ${sumS}`, `${name}_count{${labels}} ${count}`)
  }
  const all: readonly Gauge[] = [
    { name: 'bendwright_http_requests_in_flight', help: 'Requests being answered now.', value: inFlight },
    ...gauges,
  ]
  for (const gauge of all) {
    lines.push(
      `# HELP ${gauge.name} ${gauge.help}`,
      `# TYPE ${gauge.name} ${gauge.kind ?? 'gauge'}`,
      `${gauge.name} ${gauge.value}`,
    )
  }
  return `${lines.join('\n')}\n`
}
