import { expect, it } from 'vitest'
import { cutLeft } from '@/lib/core/stock/cut-left'

const cut = { barMm: 6000, lengthMm: 1800, pieceCount: 3, kerfMm: 2 }

// By hand: 6000 - 3 x 1802 = 594.
it('leaves the bar less each piece and each kerf', () => {
  expect(cutLeft(cut)).toEqual({ fits: true, leftMm: 594 })
})

// 3 x 2000 + 2 kerfs of 2 = 6004: the bar's end needs no third kerf.
it('needs no kerf after the last piece where it is the bar’s end', () => {
  expect(cutLeft({ ...cut, barMm: 6004, lengthMm: 2000 })).toEqual({ fits: true, leftMm: 0 })
  expect(cutLeft({ ...cut, barMm: 6000, lengthMm: 2000 })).toEqual({ fits: false, lackMm: 4 })
})

it('refuses lengths of nothing and part of a piece', () => {
  expect(() => cutLeft({ ...cut, barMm: 0 })).toThrow(RangeError)
  expect(() => cutLeft({ ...cut, pieceCount: 1.5 })).toThrow(RangeError)
})
