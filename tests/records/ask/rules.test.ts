import { describe, expect, it } from 'vitest'
import type { ReceivingRates } from '@/lib/core/cost/landed'
import { fixed } from '@/lib/core/cost/spread'
import {
  beyondSource,
  changedRadiiMm,
  isExpired,
  landedAt,
  lateWords,
  minimumOrderBites,
} from '@/lib/records/ask/rules'
import { workingDaysText } from '@/lib/records/ask/schema'
import { lateDaysOf } from '@/lib/records/source/rules'

const receiving: ReceivingRates = {
  orderMinutes: fixed(30),
  perDeliveryMinutes: fixed(30),
  perPieceMinutes: fixed(6),
  officeCentsPerH: 5000,
  inspectionCentsPerH: 6000,
  overheadFactor: 0,
  contingencyFraction: 0,
  hoursPerDay: 8,
}
const answer = {
  prices: [
    { quantity: 1, unitCents: 31_000 },
    { quantity: 5, unitCents: 14_800 },
    { quantity: 20, unitCents: 9_250 },
  ],
  toolingCents: 42_000,
  setUpCents: 6_000,
  minimumOrderCents: 35_000,
  freightCents: 5_500,
  suppliedCentsPerPiece: 0,
  leadTimeDays: 20,
  expectedRejectFraction: 0.05,
  replacesRejects: false,
}

describe('a lead time', () => {
  // By hand: a week works five days; 28 days of the calendar are four weeks; 10 of them are 7.14 worked, so 8.
  it.each([
    ['20', 20],
    ['20 working days', 20],
    ['4 weeks', 20],
    ['1 wk', 5],
    ['28 calendar days', 20],
    ['10 cal', 8],
    ['0', 0],
  ])('typed as “%s” is %i working days', (text, days) => {
    expect(workingDaysText.parse(text)).toBe(days)
  })

  it.each(['', 'soon', '4 months', '-3', '2.5 weeks', '300 weeks'])('typed as “%s” is refused', (text) => {
    expect(workingDaysText.safeParse(text).success).toBe(false)
  })

  it('says how late a bender runs in plain words', () => {
    expect(lateWords({ low: 0, likely: 1.5, high: 3 })).toBe(
      '1.5 working days late as a rule, 3 working days at most',
    )
    expect(lateWords({ low: 0, likely: 6, high: 6 })).toBe('6 working days late as a rule')
    expect(lateWords({ low: 0, likely: 0, high: 1 })).toBe('late at times, up to 1 working day')
  })
})

describe('an outside answer', () => {
  it('is landed over the good pieces, with what is turned away and looked at', () => {
    // By hand, 20 good at 5 %: 20 / 0.95 = 21.05, so 22 are ordered at 92.50 = 2035.00; tooling 420, set-up 60, freight 55;
    // ordering 30 min at 50/h = 25, a delivery 30 min at 60/h = 30, 22 pieces at 6 min and 60/h = 132. Sum 2757.00.
    const landed = landedAt(answer, 20, receiving)
    expect(landed?.orderedPieceCount).toBe(22)
    expect(landed?.totalCents).toBe(275_700)
    expect(landed?.perGoodPieceCents).toBe(13_785)
  })

  it('counts the tube we give them for every piece ordered, those turned away too', () => {
    // By hand: 22 ordered for 20 good at 34.00 of tube each is 748.00 on top of 2757.00.
    const landed = landedAt({ ...answer, suppliedCentsPerPiece: 3_400 }, 20, receiving)
    expect(landed?.totalCents).toBe(275_700 + 74_800)
    expect(landed?.lines.find(({ key }) => key === 'outside:supplied')?.cents).toBe(74_800)
  })

  it('is raised to the least order in money where the pieces come to less', () => {
    // By hand: one piece that they replace where bad is 310.00, below the least order of 350.00.
    const one = { ...answer, replacesRejects: true }
    const landed = landedAt(one, 1, receiving)
    if (!landed) throw new Error('a price was quoted')
    expect(minimumOrderBites(one, landed)).toBe(true)
    expect(landed.lines.find(({ key }) => key === 'outside:pieces')?.cents).toBe(35_000)
    expect(minimumOrderBites({ ...one, minimumOrderCents: 31_000 }, landed)).toBe(false)
  })

  it('waits as long as its bender has run past promises before', () => {
    const day = (text: string) => new Date(`${text}T00:00:00Z`)
    // By hand: Friday 3 April promised, Wednesday 8 delivered: Monday, Tuesday, Wednesday are 3 working days. The other came a day early.
    const late = { promisedOn: day('2026-04-03'), deliveredOn: day('2026-04-08') }
    const early = { promisedOn: day('2026-05-12'), deliveredOn: day('2026-05-11') }
    expect(lateDaysOf([late])).toEqual({ low: 0, likely: 3, high: 3 })
    expect(lateDaysOf([late, early])).toEqual({ low: 0, likely: 1.5, high: 3 })
    expect(lateDaysOf([early])).toBeNull()
    const waits = landedAt({ ...answer, lateDays: lateDaysOf([late]) }, 5, receiving)?.model.items.filter(
      ({ group }) => group === 'waiting',
    )
    expect(waits?.map(({ quantity }) => quantity.high)).toEqual([20, 3])
    expect(landedAt({ ...answer, lateDays: null }, 5, receiving)?.totalCents).toBe(
      landedAt({ ...answer, lateDays: lateDaysOf([late]) }, 5, receiving)?.totalCents,
    )
  })

  it('without a price has no landed cost', () => {
    expect(landedAt({ ...answer, prices: [] }, 5, receiving)).toBeNull()
  })

  it('holds through its last day', () => {
    const validUntil = new Date('2026-04-05T00:00:00Z')
    expect(isExpired({ validUntil }, validUntil)).toBe(false)
    expect(isExpired({ validUntil }, new Date('2026-04-06T00:00:00Z'))).toBe(true)
  })

  it('of another radius than drawn is told, one that differs by rounding is not', () => {
    const bends = [{ centrelineRadiusMm: 304.8 }, { centrelineRadiusMm: 304.8 }]
    expect(changedRadiiMm(355.6, bends)).toEqual([304.8])
    expect(changedRadiiMm(304.8001, bends)).toEqual([])
    expect(changedRadiiMm(null, bends)).toEqual([])
  })

  it('a part tighter or larger than a bender takes is told before asking', () => {
    // By hand: 60 / 38.1 = 1.57 times the tube, tighter than 2; 38.1 mm is more than 25.4 mm.
    const part = { widthMm: 38.1, heightMm: 38.1, bends: [{ centrelineRadiusMm: 60 }] }
    expect(beyondSource({ minimumRadiusRatio: 2, maximumSizeMm: 25.4 }, part)).toHaveLength(2)
    expect(beyondSource({ minimumRadiusRatio: 1.5, maximumSizeMm: 50 }, part)).toEqual([])
  })
})
