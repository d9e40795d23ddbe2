import { describe, expect, it } from 'vitest'
import { planTube, type TubeQuestion } from '@/lib/core/stock/tube-plan'

const question: TubeQuestion = {
  sawnPieces: [{ lengthMm: 998, pieceCount: 1 }],
  plannedStarts: 8,
  rack: [],
  buyable: [{ lengthMm: 6000, priceCents: 12_000 }],
  kerfMm: 2,
  endTrimMm: 0,
  keepOffcutFromMm: 300,
  offcutValueFraction: 0.5,
}

describe('The tube of an order', () => {
  it('is bought for the starts to expect: eight metre pieces come out of two six-metre bars', async () => {
    // By hand: six pieces of 998 and a kerf of 2 fill a bar to its end, two are left for the second.
    const { material, result } = await planTube(question)
    expect(result.found && result.plan.toBuy.map(({ barCount }) => barCount)).toEqual([2])
    // The second bar leaves 6000 - 2 * 1000 = 4000 mm, worth half of 20.00 a metre: 240.00 - 40.00.
    expect(material?.plannedCents).toBe(20_000)
    // A start more is a metre at 20.00.
    expect(material?.extraStartCents).toBe(2000)
    expect(material?.plannedStarts).toBe(8)
  })

  it('uses an offcut up before a bar is begun, at half of what its length cost', async () => {
    const rack = [{ key: 'rack-1', lengthMm: 1000, isOffcut: true, centsPerM: 2000 }]
    const { result } = await planTube({ ...question, plannedStarts: 7, rack })
    expect(result.found && result.plan.bars.map(({ source }) => source).sort()).toEqual(['buy', 'rack'])
    expect(result.found && result.plan.rackCents).toBe(1000)
  })

  it('of mitred straights is cut from each straight: two lengths of one piece, three pieces', async () => {
    const sawnPieces = [
      { lengthMm: 500, pieceCount: 2 },
      { lengthMm: 800, pieceCount: 1 },
    ]
    const { result, material } = await planTube({ ...question, sawnPieces, plannedStarts: 3 })
    const cuts = result.found ? result.plan.bars.flatMap((bar) => bar.cuts) : []
    const count = (lengthMm: number) =>
      cuts.filter((cut) => cut.lengthMm === lengthMm).reduce((sum, cut) => sum + cut.pieceCount, 0)
    expect([count(500), count(800)]).toEqual([6, 3])
    // A start more, by hand: 2 · 500 + 800 and three kerfs of 2 are 1.806 m at 20.00.
    expect(material?.extraStartCents).toBe(3612)
  })

  it('has no cost where no bar does for a piece', async () => {
    const { material, result } = await planTube({
      ...question,
      buyable: [{ lengthMm: 900, priceCents: 2000 }],
    })
    expect(result).toMatchObject({ found: false, because: 'piece-longer-than-any-bar' })
    expect(material).toBeNull()
  })

  it('asks for each sawn length by a letter, as often as there are starts', async () => {
    const sawnPieces = [
      { lengthMm: 500, pieceCount: 2 },
      { lengthMm: 800, pieceCount: 1 },
    ]
    const { input } = await planTube({ ...question, sawnPieces, plannedStarts: 3, endTrimMm: 5 })
    expect(input.pieces).toEqual([
      { key: 'A', lengthMm: 500, pieceCount: 6 },
      { key: 'B', lengthMm: 800, pieceCount: 3 },
    ])
    expect(input).toMatchObject({ kerfMm: 2, endTrimMm: 5, trimFarEnd: false, keepOffcutFromMm: 300 })
  })

  it('charges a whole bar what its length cost and an offcut the share it is worth', async () => {
    // By hand: 3 m at 20.00 = 60.00; 1.5 m at 20.00, a quarter of it: 7.50.
    const rack = [
      { key: 'whole', lengthMm: 3000, isOffcut: false, centsPerM: 2000 },
      { key: 'part', lengthMm: 1500, isOffcut: true, centsPerM: 2000 },
    ]
    const { input } = await planTube({ ...question, rack, offcutValueFraction: 0.25 })
    expect(input.rack).toEqual([
      { key: 'whole', lengthMm: 3000, kind: 'bar', costCents: 6000 },
      { key: 'part', lengthMm: 1500, kind: 'offcut', costCents: 750 },
    ])
  })

  it('takes the price of a metre from the cheapest bar to buy, else from the dearest on the rack', async () => {
    const rack = [
      { key: 'old', lengthMm: 3000, isOffcut: false, centsPerM: 1500 },
      { key: 'new', lengthMm: 6000, isOffcut: false, centsPerM: 2500 },
    ]
    // 60.00 of 3 m are 20.00 a metre, 108.00 of 6 m are 18.00.
    const buyable = [
      { lengthMm: 3000, priceCents: 6000 },
      { lengthMm: 6000, priceCents: 10_800 },
    ]
    const both = await planTube({ ...question, plannedStarts: 1, rack, buyable })
    expect(both.input.buyable.map(({ key }) => key)).toEqual(['buy-1', 'buy-2'])
    expect(both.input.offcutValueCentsPerM).toBeCloseTo(900, 9)
    expect(both.material?.extraStartCents).toBe(1800)
    const rackOnly = await planTube({ ...question, plannedStarts: 1, rack, buyable: [] })
    expect(rackOnly.input.offcutValueCentsPerM).toBeCloseTo(1250, 9)
    expect(rackOnly.material?.extraStartCents).toBe(2500)
  })

  it('without any tube has no price and no plan', async () => {
    const { input, material, result } = await planTube({ ...question, buyable: [] })
    expect(input.offcutValueCentsPerM).toBe(0)
    expect(result.found).toBe(false)
    expect(material).toBeNull()
  })
})
