import { describe, expect, it } from 'vitest'
import type { CostedPart } from '@/lib/core/cost/costed-part'
import { landedCost, type OutsideQuote, type ReceivingRates } from '@/lib/core/cost/landed'
import { learnedTimes } from '@/lib/core/cost/learned-times'
import { defaultOperationTimes } from '@/lib/core/cost/operation-times'
import { outsideAnswerModel } from '@/lib/core/cost/outside-answer'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import { fixed } from '@/lib/core/cost/spread'

const times = defaultOperationTimes
const part: CostedPart = {
  family: 'aluminium',
  sectionAreaMm2: 400,
  wallMm: 3,
  perimeterMm: 150,
  boreAreaMm2: 1000,
  cutLengthMm: 1500,
  massKg: 1.62,
  bendAnglesDeg: [90, 60],
  planeChangeCount: 1,
  angleToleranceDeg: 1,
  startCut: 'mitre',
  endCut: 'saddle',
  holeCount: 2,
  featureCount: 7,
  fillerKg: 12,
  weldedEndCount: 1,
  dyePenetrant: true,
}
describe('what one job’s clock teaches', () => {
  const job = { family: 'aluminium', plannedMinutes: 80, loggedMinutes: 10 } as const

  it('quickens too: an eighth of the plan halves the times and doubles the speeds', () => {
    const sawn = learnedTimes(times, { ...job, key: 'saw' })
    expect(sawn?.factor).toBeCloseTo(0.5, 9)
    expect(sawn?.times.sawSetUpMinutes.likely).toBeCloseTo(times.sawSetUpMinutes.likely / 2, 9)
    expect(sawn?.times.sawRateMm2PerMin.aluminium).toBeCloseTo(2 * times.sawRateMm2PerMin.aluminium, 6)
    expect(sawn?.times.sawRateMm2PerMin.stainless).toBe(times.sawRateMm2PerMin.stainless)
    expect(sawn?.times.weldSpeedMmPerMin).toBe(times.weldSpeedMmPerMin)
    const welded = learnedTimes(times, { ...job, key: 'fitWeld' })
    // 101.6 mm a minute doubled, to three figures.
    expect(welded?.times.weldSpeedMmPerMin).toBe(203)
    expect(welded?.times.sawRateMm2PerMin).toEqual(times.sawRateMm2PerMin)
  })

  it('teaches nothing where nothing was planned or the times are nothing', () => {
    for (const plannedMinutes of [0, -1]) {
      expect(learnedTimes(times, { ...job, key: 'bend', plannedMinutes })).toBeNull()
    }
    expect(learnedTimes({ ...times, packMinutes: fixed(0) }, { ...job, key: 'pack' })).toBeNull()
  })

  it('takes a time that may be nothing', () => {
    // Likely times without a low end of their own: the median still halves.
    const own = { ...times, packMinutes: { low: 0, likely: 4, high: 8 } }
    const learned = learnedTimes(own, { ...job, key: 'pack' })
    expect(learned?.factor).toBeCloseTo(0.5, 9)
    expect(learned?.times.packMinutes).toEqual({ low: 0, likely: 2, high: 4 })
  })
})

describe('an outside order', () => {
  const quote: OutsideQuote = {
    breaks: [
      { fromPieceCount: 1, unitPriceCents: 1000 },
      { fromPieceCount: 10, unitPriceCents: 800 },
    ],
    toolingCents: 0,
    setUpCents: 0,
    freightCents: 0,
    leadDays: fixed(5),
    rejectFraction: 0,
    replacesRejects: true,
  }
  const receiving: ReceivingRates = {
    orderMinutes: fixed(0),
    perDeliveryMinutes: fixed(0),
    perPieceMinutes: fixed(0),
    officeCentsPerH: 6000,
    inspectionCentsPerH: 6000,
    overheadFactor: 0,
    contingencyFraction: 0,
    hoursPerDay: 8,
  }

  it('tells of a larger one that costs less, and what each good piece comes to', () => {
    // By hand: 9 at 10.00 are 90.00, 10 at 8.00 are 80.00.
    const landed = landedCost(quote, 9, receiving)
    expect(landed).toMatchObject({
      goodPieceCount: 9,
      totalCents: 9000,
      perGoodPieceCents: 1000,
      cheaperLargerOrder: { pieceCount: 10, totalCents: 8000 },
    })
    expect(landed.model).toMatchObject({ goodPieces: 9, yieldFraction: 1, hoursPerDay: 8 })
  })

  it('orders exactly what 9 good ones at a tenth of rejects need: 10', () => {
    const landed = landedCost({ ...quote, rejectFraction: 0.1, replacesRejects: false }, 9, receiving)
    expect(landed).toMatchObject({ orderedPieceCount: 10, unitPriceCents: 800, perGoodPieceCents: 8000 / 9 })
  })

  it('adds the material it is given for each piece ordered, and keeps the larger of price and least order', () => {
    // By hand: 5 x 10.00 = 50.00 raised to 60.00; 5 x 2.00 of ours.
    const landed = landedCost({ ...quote, minimumOrderCents: 6000, suppliedCentsPerPiece: 200 }, 5, receiving)
    expect(landed.lines.map(({ key, cents }) => [key, cents])).toEqual([
      ['outside:pieces', 6000],
      ['outside:supplied', 1000],
    ])
    expect(landedCost({ ...quote, minimumOrderCents: 4000 }, 5, receiving).totalCents).toBe(5000)
  })

  it('keeps work that may take time and most likely takes none', () => {
    const may = { ...receiving, orderMinutes: { low: 0, likely: 0, high: 9 } }
    expect(landedCost(quote, 5, may).model.items.map(({ key }) => key)).toContain('orderOutside:setUp')
    expect(landedCost(quote, 5, receiving).model.items.map(({ key }) => key)).toEqual([
      'outside:pieces',
      'outside:lead',
    ])
  })

  it('is set beside the shop’s own ways with its learning and finishing', () => {
    const landed = landedCost(quote, 9, receiving)
    const model = outsideAnswerModel(landed, { part, rates: defaultShopRates })
    expect(model.learning).toEqual(defaultShopRates.learning)
    const own = model.items.slice(landed.model.items.length).map(({ key }) => key.split(':')[0])
    expect([...new Set(own)]).toEqual(['readJob', 'mitreEnds', 'saddleEnds', 'fitWeld', 'inspect', 'pack'])
  })
})
