import { NextRequest } from 'next/server'
import { describe, expect, it } from 'vitest'
import { proxy } from '@/proxy'

const statusOf = async (address: string) =>
  (await proxy(new NextRequest(`http://shop.test${address}`))).status

describe('an address', () => {
  it.each(['/faults?q=%00', '/faults?q=%00&q=a', '/jobs?page=1&q=a%00b', '/parts/%00', '/files/%00'])(
    'with a NUL in it is refused, which no database could look for: %s',
    async (address) => {
      expect(await statusOf(address)).toBe(400)
    },
  )
  it('that only looks like it goes on', async () => {
    for (const address of ['/jobs?q=%2500', '/jobs?q=100%25', '/jobs?q=00'])
      expect(await statusOf(address)).toBe(200)
  })
})
