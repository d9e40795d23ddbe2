import { describe, expect, it } from 'vitest'
import { proxyCount, settleForwarded } from '@/lib/launch/forwarded.mjs'

function settled(headers: Record<string, string>, proxies: number) {
  const copy = { ...headers }
  settleForwarded(copy, '198.51.100.9', proxies)
  return copy
}

describe('who a request comes from', () => {
  it('is the connection where no proxy stands in front, whatever the request says', () => {
    expect(
      settled(
        { 'x-forwarded-for': '10.0.0.1, 10.0.0.2', 'x-forwarded-host': 'evil.example', host: 'shop' },
        0,
      ),
    ).toEqual({ 'x-forwarded-for': '198.51.100.9', host: 'shop' })
    expect(settled({ 'x-forwarded-proto': 'https', forwarded: 'for=10.0.0.1' }, 0)).toEqual({
      'x-forwarded-for': '198.51.100.9',
    })
  })

  it('is what the outermost trusted proxy saw, not what the asker typed before it', () => {
    const typed = { 'x-forwarded-for': '1.1.1.1, 203.0.113.5', 'x-forwarded-proto': 'https' }
    expect(settled(typed, 1)).toEqual({ 'x-forwarded-for': '203.0.113.5', 'x-forwarded-proto': 'https' })
    expect(settled({ 'x-forwarded-for': '1.1.1.1, 203.0.113.5, 192.0.2.1' }, 2)).toEqual({
      'x-forwarded-for': '203.0.113.5',
    })
  })

  it('is the connection where a proxy that should stand there was gone round', () => {
    expect(settled({}, 1)).toEqual({ 'x-forwarded-for': '198.51.100.9' })
  })

  it('needs a number of proxies that can be', () => {
    expect([undefined, '', '0', '2'].map(proxyCount)).toEqual([0, 0, 0, 2])
    expect(() => proxyCount('yes')).toThrow('BENDWRIGHT_TRUSTED_PROXIES')
    expect(() => proxyCount('-1')).toThrow('BENDWRIGHT_TRUSTED_PROXIES')
  })
})
