import jStat from 'jstat'
import { describe, expect, it } from 'vitest'
import {
  approximateRunFactor,
  lotMinutes,
  pieceFactor,
  pieceMinutes,
  rateFromTwoPieces,
  runFactor,
  runFactors,
} from '@/lib/core/cost/learning'
import {
  costPerGoodPieceCents,
  expectedStarts,
  rejectAllowance,
  rolledYield,
  startsForConfidence,
  startsVariance,
  yieldFromDefectsPerUnit,
} from '@/lib/core/cost/yield'
import { startsCdf } from '@/lib/core/statistics/counting'

describe('learning curve', () => {
  // Unit factor, Crawford total and Wright total over the first piece's time at 80, 85 and 90 percent: the values of learning-curve tables
  it.each([
    [2, [0.8, 1.8, 1.6], [0.85, 1.85, 1.7], [0.9, 1.9, 1.8]],
    [3, [0.7021, 2.5021, 2.1063], [0.7729, 2.6229, 2.3187], [0.8462, 2.7462, 2.5386]],
    [4, [0.64, 3.1421, 2.56], [0.7225, 3.3454, 2.89], [0.81, 3.5562, 3.24]],
    [5, [0.5956, 3.7377, 2.9782], [0.6857, 4.0311, 3.4284], [0.783, 4.3392, 3.9149]],
    [6, [0.5617, 4.2994, 3.3701], [0.657, 4.6881, 3.9419], [0.7616, 5.1008, 4.5695]],
    [8, [0.512, 5.3459, 4.096], [0.6141, 5.9358, 4.913], [0.729, 6.5737, 5.832]],
    [10, [0.4765, 6.3154, 4.7651], [0.5828, 7.1161, 5.8282], [0.7047, 7.9945, 7.0469]],
    [15, [0.4182, 8.5105, 6.273], [0.53, 9.8611, 7.9495], [0.6626, 11.3837, 9.9385]],
    [20, [0.3812, 10.4849, 7.6242], [0.4954, 12.4023, 9.9079], [0.6342, 14.6078, 12.6844]],
    [25, [0.3548, 12.3086, 8.8696], [0.4701, 14.8007, 11.7536], [0.6131, 17.7132, 15.3267]],
    [50, [0.2838, 20.1217, 14.1914], [0.3996, 25.5131, 19.9812], [0.5518, 32.142, 27.5881]],
    [100, [0.2271, 32.6508, 22.7062], [0.3397, 43.7539, 33.968], [0.4966, 58.141, 49.6585]],
  ] as const)('has the table\u2019s factors for %i pieces', (count, at80, at85, at90) => {
    ;[at80, at85, at90].forEach(([unit, crawford, wright], i) => {
      const rateFraction = 0.8 + 0.05 * i
      expect(Math.abs(pieceFactor(count, { model: 'unit', rateFraction }) - unit)).toBeLessThan(5.1e-5)
      expect(Math.abs(runFactor(count, { model: 'unit', rateFraction }) - crawford)).toBeLessThan(5.1e-5)
      expect(Math.abs(runFactor(count, { model: 'cumulativeAverage', rateFraction }) - wright)).toBeLessThan(
        5.1e-5,
      )
    })
  })

  it('agrees with the solved problem of 300 hours at 80 percent', () => {
    // Operations-management text, learning-curve chapter: fifth boat 178.7 h, five 1121.4, eighteen 2914.8 (to 0.1 percent, from a rounded table)
    const curve = { model: 'unit', rateFraction: 0.8 } as const
    expect(pieceMinutes(300, 5, curve) / 178.7).toBeCloseTo(1, 3)
    expect((300 * runFactor(5, curve)) / 1121.4).toBeCloseTo(1, 3)
    expect((300 * runFactor(18, curve)) / 2914.8).toBeCloseTo(1, 3)
    expect((9 * pieceFactor(3, { model: 'unit', rateFraction: 0.7 })) / 5.114).toBeCloseTo(1, 3)
    expect((15 * runFactor(3, { model: 'unit', rateFraction: 0.7 })) / 34.023).toBeCloseTo(1, 3)
  })

  it('agrees with Wright\u2019s averages of 100 hours at 80 percent', () => {
    // Averages 100, 80, 64, 51.2, 40.96; totals 100, 160, 256, 409.6, 655.36 at 1, 2, 4, 8, 16
    const totals = [100, 160, 256, 409.6, 655.36]
    totals.forEach((total, i) => {
      expect(100 * runFactor(2 ** i, { model: 'cumulativeAverage', rateFraction: 0.8 })).toBeCloseTo(total, 9)
    })
  })

  it('is 0.258 percent high by the midpoint formula at 20 pieces and 80 percent', () => {
    // Groover, Work Systems, chapter 19
    const exact = runFactor(20, { model: 'unit', rateFraction: 0.8 })
    expect(100 * (approximateRunFactor(20, 0.8) / exact - 1)).toBeCloseTo(0.258, 3)
  })

  it('adds lots up to the run, and piece factors up to the total, in both models', () => {
    for (const model of ['unit', 'cumulativeAverage'] as const) {
      const curve = { model, rateFraction: 0.87 }
      const lots =
        lotMinutes(7, { firstPiece: 1, lastPiece: 6 }, curve) +
        lotMinutes(7, { firstPiece: 7, lastPiece: 15 }, curve)
      expect(lots).toBeCloseTo(7 * runFactor(15, curve), 9)
      expect(
        Array.from({ length: 9 }, (_, i) => pieceFactor(i + 1, curve)).reduce((a, b) => a + b),
      ).toBeCloseTo(runFactor(9, curve), 9)
      expect(runFactors(9, curve)[9]).toBeCloseTo(runFactor(9, curve), 9)
    }
  })

  it('finds the rate that two timed pieces show', () => {
    // Doubling from 60 to 51 minutes is 85 percent
    expect(rateFromTwoPieces({ piece: 4, minutes: 60 }, { piece: 8, minutes: 51 })).toBeCloseTo(0.85, 12)
    expect(() => rateFromTwoPieces({ piece: 4, minutes: 60 }, { piece: 4, minutes: 51 })).toThrow(RangeError)
    expect(() => rateFromTwoPieces({ piece: 4, minutes: 0 }, { piece: 8, minutes: 51 })).toThrow(RangeError)
  })

  it('is nothing for no pieces, even at rate 1, and refused elsewhere', () => {
    expect(runFactor(0, { model: 'unit', rateFraction: 0.9 })).toBe(0)
    expect(runFactor(7, { model: 'unit', rateFraction: 1 })).toBe(7)
    expect(() => runFactor(3, { model: 'unit', rateFraction: 1.1 })).toThrow(RangeError)
    expect(() => pieceFactor(0, { model: 'unit', rateFraction: 0.9 })).toThrow(RangeError)
  })
})

describe('starts for good pieces', () => {
  // Negative binomial by hand and by binomial tails
  it.each([
    { good: 1, p: 0.5, mean: 2, sd: 1.414, starts: [1, 4, 5, 7] },
    { good: 5, p: 0.8, mean: 6.25, sd: 1.25, starts: [6, 8, 9, 10] },
    { good: 10, p: 0.9, mean: 11.11, sd: 1.111, starts: [11, 13, 13, 14] },
  ])(
    '$good good at yield $p: mean $mean, and $starts for 50, 90, 95 and 99 percent',
    ({ good, p, mean, sd, starts }) => {
      expect(expectedStarts(good, p)).toBeCloseTo(mean, 2)
      expect(Math.sqrt(startsVariance(good, p))).toBeCloseTo(sd, 3)
      expect([0.5, 0.9, 0.95, 0.99].map((confidence) => startsForConfidence(good, p, confidence))).toEqual(
        starts,
      )
    },
  )

  it('has the chance that 12 or 13 starts give ten good ones at 0.9', () => {
    expect(startsCdf(12, 10, 0.9)).toBeCloseTo(0.88913, 5)
    expect(startsCdf(13, 10, 0.9)).toBeCloseTo(0.96584, 5)
  })

  it('is the least count that jstat\u2019s negative binomial gives the chance asked for, over a grid', () => {
    // jstat counts failures before the Q-th good piece: starts = failures + Q.
    for (const goodPieces of [1, 6, 20, 75]) {
      for (const yieldFraction of [0.5, 0.85, 0.97]) {
        for (const confidence of [0.6, 0.9, 0.99]) {
          let failures = 0
          while (jStat.negbin.cdf(failures, goodPieces, yieldFraction) < confidence) failures += 1
          expect(startsForConfidence(goodPieces, yieldFraction, confidence)).toBe(failures + goodPieces)
        }
      }
    }
  })

  it('is the count itself where nothing goes wrong, and refused where nothing goes right', () => {
    expect(startsForConfidence(4, 1, 0.99)).toBe(4)
    expect(() => expectedStarts(4, 0)).toThrow(RangeError)
    expect(() => startsForConfidence(0, 0.9, 0.9)).toThrow(RangeError)
    expect(() => startsForConfidence(1, 0.9, 1)).toThrow(RangeError)
  })
})

describe('yield through steps', () => {
  it('multiplies', () => {
    // Throughput yield help texts: .95 * .84 * .88 = .70224; Harry (2004): dpu .10, .05, .008 -> .9048, .9512, .9920, together .853850 = exp(-.158)
    expect(rolledYield([0.95, 0.84, 0.88])).toBeCloseTo(0.70224, 5)
    const yields = [0.1, 0.05, 0.008].map(yieldFromDefectsPerUnit)
    expect(yields.map((one) => Number(one.toFixed(4)))).toEqual([0.9048, 0.9512, 0.992])
    expect(rolledYield(yields)).toBeCloseTo(Math.exp(-0.158), 12)
    expect(() => rolledYield([1.1])).toThrow(RangeError)
    expect(() => yieldFromDefectsPerUnit(-1)).toThrow(RangeError)
  })

  it('makes a good piece dearer by what is scrapped after the money is spent', () => {
    // By hand: 10.00 at .8 then 5.00 at .5: 1000 / .4 + 500 / .5 = 3500
    expect(
      costPerGoodPieceCents([
        { costCents: 1000, yieldFraction: 0.8 },
        { costCents: 500, yieldFraction: 0.5 },
      ]),
    ).toBeCloseTo(3500, 9)
  })
})

describe('reject allowance', () => {
  it('starts two, expecting 675, in the problem of Hillier & Lieberman', () => {
    // One good wanted, p 1/2, 100 each, 300 a set-up, three runs, 1600 penalty: f3 = 800, f2 = 700, f1 = 675 starting 2
    const plan = rejectAllowance({
      yieldFraction: 0.5,
      setUpCents: 300,
      eachCents: 100,
      penaltyCents: 1600,
      runCount: 3,
    })
    expect(plan.map(({ expectedCostCents }) => expectedCostCents)).toEqual([675, 700, 800])
    expect(plan[0]?.startCount).toBe(2)
  })

  it('starts two then three at two in three', () => {
    // Variant p 2/3, two runs: f2 = 659.26 (x = 3), f1 = 573.25 (x = 2)
    const plan = rejectAllowance({
      yieldFraction: 2 / 3,
      setUpCents: 300,
      eachCents: 100,
      penaltyCents: 1600,
      runCount: 2,
    })
    expect(plan[1]?.expectedCostCents).toBeCloseTo(659.26, 2)
    expect(plan[0]?.expectedCostCents).toBeCloseTo(573.25, 2)
    expect(plan.map(({ startCount }) => startCount)).toEqual([2, 3])
  })
})
