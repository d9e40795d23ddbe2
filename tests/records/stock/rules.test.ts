import { describe, expect, it } from 'vitest'
import { barSpans } from '@/app/stock/nest/nest-bar'
import { nestInput, nestTexts } from '@/app/stock/nest/nest-question'
import { nestPieces } from '@/lib/core/stock/nest'
import { priceByUnit, rackWords, searchTerms, sizeWords } from '@/lib/records/stock/rules'
import { nestForm } from '@/lib/records/stock/schema'

describe('the words of a search for stock', () => {
  it('are sizes, texts, or both where a number is an alloy as well as a length', () => {
    expect(searchTerms('6061 1-1/2 x .125 H2291', 'in')).toEqual([
      { text: '6061', lengthMm: 6061 * 25.4 },
      { text: null, lengthMm: expect.closeTo(38.1, 9) },
      { text: null, lengthMm: 3.175 },
      { text: 'H2291', lengthMm: null },
    ])
    expect(searchTerms('  40x3 ', 'mm').map(({ lengthMm }) => lengthMm)).toEqual([40, 3])
    expect(searchTerms('', 'mm')).toEqual([])
  })
})

describe('a tube in words', () => {
  it('has its sides in the shop’s unit, one for a square and a round, two for a rectangle', () => {
    const square = { shape: 'square', widthMm: 38.1, heightMm: 38.1, wallMm: 3.175 } as const
    expect(sizeWords(square, 'in')).toBe('square 1.5 × 0.125\u202fin')
    expect(sizeWords({ shape: 'rectangular', widthMm: 60, heightMm: 40, wallMm: 3 }, 'mm')).toBe(
      'rectangular 60 × 40 × 3\u202fmm',
    )
  })

  it('is counted by length, offcuts by themselves', () => {
    const bars = [
      { lengthMm: 640, isOffcut: true },
      { lengthMm: 6000, isOffcut: false },
      { lengthMm: 6000, isOffcut: false },
    ]
    expect(rackWords(bars, 'mm')).toBe('2 of 6000\u202fmm, offcuts of 640\u202fmm')
    expect(rackWords([], 'mm')).toBe('none left')
  })

  it('is priced by the foot where the shop works in inches', () => {
    // 1500 cents a metre times 0.3048 m = 457.2 cents a foot.
    expect(priceByUnit(1500, 'in')).toEqual({ cents: 457, by: 'ft' })
    expect(priceByUnit(1500, 'mm')).toEqual({ cents: 1500, by: 'm' })
  })
})

describe('a cutting plan asked for by an address', () => {
  const standard = { kerfMm: '2', endTrimMm: '0', keepFromMm: '300', offcutWorthPct: '50' }
  const texts = nestTexts({ tube: '1', length: ['1000', '', '500'], count: ['2', '', '1'] }, standard)

  it('leaves empty rows out and takes the shop’s settings where it says nothing', () => {
    expect(texts.pieces).toEqual([
      { lengthMm: '1000', pieceCount: '2' },
      { lengthMm: '500', pieceCount: '1' },
    ])
    expect(texts.kerfMm).toBe('2')
  })

  it('uses an offcut up before it starts a bar, and accounts for every millimetre of the bar', async () => {
    const asked = nestForm({ lengthUnit: 'mm', currency: 'USD' }).parse(texts)
    const free = [
      { id: 7, lengthMm: 6000, isOffcut: false, lot: { priceCentsPerM: 1000 } },
      { id: 8, lengthMm: 2600, isOffcut: true, lot: { priceCentsPerM: 1000 } },
    ]
    const input = nestInput(asked, free, 1000)
    const result = await nestPieces(input)
    const bars = result.found ? result.plan.bars : []
    // By hand: the offcut costs half of 26.00 = 13.00 and leaves 2600 - 2500 - 3 kerfs of 2 = 94 mm, scrap. The bar costs
    // 60.00 and leaves 3494 mm worth half of 34.94 = 17.47: 42.53.
    expect(bars.map(({ barKey, leftoverMm }) => [barKey, leftoverMm])).toEqual([['rack-8', 94]])
    const [bar] = bars
    const spans = bar ? barSpans(bar, input) : []
    expect(spans.map(({ kind, fromMm, toMm }) => [kind, fromMm, toMm])).toEqual([
      ['piece', 0, 1000],
      ['piece', 1002, 2002],
      ['piece', 2004, 2504],
      ['left', 2506, 2600],
    ])
  })
})
