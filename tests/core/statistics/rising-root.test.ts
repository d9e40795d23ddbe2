import fc from 'fast-check'
import { expect, it } from 'vitest'
import { risingRoot } from '@/lib/core/statistics/rising-root'

it('is the least number at which a rising share reaches what is asked', () => {
  // A step at 5: below it nothing, from it on all.
  expect(risingRoot((x) => (x >= 5 ? 1 : 0), 0.5)).toBe(5)
  expect(risingRoot((x) => (x >= 5 ? 1 : 0), 1)).toBe(5)
  // Uniform from 0 to 8: the share x / 8; a quarter at 2, which is exact in binary.
  expect(risingRoot((x) => x / 8, 0.25)).toBe(2)
})

it('finds places far out and close to zero', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-12, max: 1e12, noNaN: true }), (place) => {
      expect(risingRoot((x) => (x >= place ? 1 : 0), 0.5)).toBe(place)
    }),
  )
})
