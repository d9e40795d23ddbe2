import { describe, expect, it } from 'vitest'
import { isFromOwnPage } from '@/lib/server/origin'

const asks = (headers: Record<string, string>) =>
  isFromOwnPage(new Headers({ host: 'shop.example:3000', ...headers }))

describe('whether a request comes from one of our own pages', () => {
  it('does where the browser says so', () => {
    expect(asks({ origin: 'http://shop.example:3000' })).toBe(true)
    expect(asks({ origin: 'http://shop.example:3000', 'sec-fetch-site': 'same-origin' })).toBe(true)
    expect(asks({ origin: 'https://shop.tld', 'x-forwarded-host': 'Shop.TLD' })).toBe(true)
  })

  it('does not from elsewhere, from another port, from nowhere, or where the origin is nonsense', () => {
    expect(asks({ origin: 'https://elsewhere.example' })).toBe(false)
    expect(asks({ origin: 'http://shop.example:3001' })).toBe(false)
    expect(asks({ origin: 'http://sub.shop.example:3000' })).toBe(false)
    expect(asks({ origin: 'null' })).toBe(false)
    expect(asks({ origin: 'not an origin' })).toBe(false)
    expect(asks({})).toBe(false)
    expect(asks({ origin: 'http://shop.example:3000', 'sec-fetch-site': 'same-site' })).toBe(false)
    expect(asks({ origin: 'http://shop.example:3000', 'sec-fetch-site': 'cross-site' })).toBe(false)
  })
})
