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

// A tape is read to half a millimetre: 3 x 2000 + 2 x 2 = 6004 out of 6003.5 is no lack, out of 6003.4 it is.
it('takes half a millimetre over what is left for the reading of a tape', () => {
  const of = (barMm: number) => cutLeft({ ...cut, barMm, lengthMm: 2000 })
  expect(of(6003.5)).toEqual({ fits: true, leftMm: 0 })
  expect(of(6003.4)).toEqual({ fits: false, lackMm: expect.closeTo(0.6, 9) })
  // 6004 to 6006: the saw takes what is left; past the third kerf something stays.
  expect([6005, 6006, 6007].map((barMm) => of(barMm))).toEqual([
    { fits: true, leftMm: 0 },
    { fits: true, leftMm: 0 },
    { fits: true, leftMm: 1 },
  ])
})

it('cuts one piece, and without a kerf', () => {
  expect(cutLeft({ barMm: 500, lengthMm: 200, pieceCount: 1, kerfMm: 0 })).toEqual({
    fits: true,
    leftMm: 300,
  })
})

it('refuses lengths of nothing, a saw that adds and part of a piece', () => {
  const lengths = 'A bar and a piece are longer than nothing, and a saw takes no less than nothing.'
  for (const change of [{ barMm: 0 }, { barMm: -1 }, { lengthMm: 0 }, { lengthMm: -1 }, { kerfMm: -1 }]) {
    expect(() => cutLeft({ ...cut, ...change })).toThrow(new RangeError(lengths))
  }
  for (const pieceCount of [0, -1, 1.5]) {
    expect(() => cutLeft({ ...cut, pieceCount })).toThrow(
      new RangeError(`At least one piece is sawn, not ${pieceCount}.`),
    )
  }
})
