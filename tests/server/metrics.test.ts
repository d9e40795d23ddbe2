import http from 'node:http'
import type { AddressInfo } from 'node:net'
import { afterEach, describe, expect, it, vi } from 'vitest'
import { countRequest, metricsText, observeRequests, routeOf } from '@/lib/server/metrics'

const valueOf = (text: string, name: string) => {
  const line = text.split('\n').find((one) => one.startsWith(`${name} `))
  return line === undefined ? null : Number(line.slice(name.length + 1))
}

describe('the metrics', () => {
  it('name a route without what differs from record to record', () => {
    expect(
      ['/', '/parts/12?x=1', '/q/9f3KxkO_2m', '/_next/static/a.js', '/materials/6061-T6/edit'].map(routeOf),
    ).toEqual(['/', '/parts/[id]', '/q/[id]', '/_next', '/materials/[id]/edit'])
  })

  it('count each request in every bucket that it fits, as the text format wants it', () => {
    const name = 'bendwright_http_request_seconds'
    const labels = 'method="GET",route="/counted",status="200"'
    for (const tookMs of [20, 200, 20_000]) countRequest('GET', '/counted', 200, tookMs)
    const text = metricsText([{ name: 'x_total', help: 'Help.', kind: 'counter', value: 3 }])
    const bucket = (le: string) => valueOf(text, `${name}_bucket{${labels},le="${le}"}`)
    // Source: Prometheus documentation, "Histograms": buckets are cumulative, +Inf equals the count.
    expect(['0.01', '0.025', '0.25', '10', '+Inf'].map(bucket)).toEqual([0, 1, 2, 2, 3])
    expect(valueOf(text, `${name}_count{${labels}}`)).toBe(3)
    expect(valueOf(text, `${name}_sum{${labels}}`)).toBeCloseTo(20.22, 6)
    expect(text).toContain('# HELP x_total Help.\n# TYPE x_total counter\nx_total 3\n')
    for (const line of text.trimEnd().split('\n')) {
      expect(line).toMatch(/^(# (HELP|TYPE) \w+ .+|\w+(\{(\w+="[^"\n]*",?)+\})? -?[\d.e+-]+)$/)
    }
  })

  it('count what a server of this process really answered, also what broke off', async () => {
    observeRequests()
    const server = http.createServer((request, response) => {
      if (request.url === '/broken') request.socket.destroy()
      else response.writeHead(418).end('x')
    })
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
    const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}`
    await fetch(`${url}/seen/7`)
    await fetch(`${url}/broken`).catch(() => null)
    await new Promise((resolve) => setTimeout(resolve, 50))
    server.close()
    const text = metricsText([])
    expect(
      valueOf(text, 'bendwright_http_request_seconds_count{method="GET",route="/seen/[id]",status="418"}'),
    ).toBe(1)
    expect(
      valueOf(text, 'bendwright_http_request_seconds_count{method="GET",route="/broken",status="499"}'),
    ).toBe(1)
    expect(valueOf(text, 'bendwright_http_requests_in_flight')).toBe(0)
  })

  it('have no end of memory for addresses that are not there', () => {
    for (let n = 0; n < 1000; n += 1)
      countRequest('GET', `/made-up-${String.fromCharCode(97 + (n % 26))}${'x'.repeat(n % 40)}`, 404, 1)
    expect(metricsText([]).split('\n').length).toBeLessThan(400 * 14 + 200)
  })
})

describe('who may read them', () => {
  afterEach(() => {
    vi.unstubAllEnvs()
    vi.resetModules()
  })
  const may = async (token: string | undefined, header: string | null) => {
    vi.stubEnv('DATABASE_URL', 'postgresql://x')
    vi.stubEnv('BENDWRIGHT_METRICS_TOKEN', token)
    const { mayReadMetrics } = await import('@/lib/records/metrics/read')
    return mayReadMetrics(header)
  }
  it('nobody without the setting', async () => {
    expect(await may(undefined, 'Bearer ')).toBe(false)
    expect(await may(undefined, null)).toBe(false)
  })
  it('who shows the token, and nobody else', async () => {
    expect(await may('a-token-of-the-shop', 'Bearer a-token-of-the-shop')).toBe(true)
    expect(await may('a-token-of-the-shop', 'Bearer a-token-of-the-shoq')).toBe(false)
  })
})
