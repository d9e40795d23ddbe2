import jStat from 'jstat'
import { describe, expect, it } from 'vitest'
import { capability, cpInterval, cpkInterval, cpkLowerBound } from '@/lib/core/statistics/capability'
import { chartConstants, individualsChart } from '@/lib/core/statistics/control-chart'
import { crossedGaugeComponents, gaugeStudy } from '@/lib/core/statistics/gauge-study'
import {
  approximateOneSidedFactor,
  noncentralTCdf,
  oneSidedToleranceFactor,
  twoSidedToleranceFactor,
} from '@/lib/core/statistics/tolerance-interval'

describe('control charts', () => {
  // Walpole et al., Probability and Statistics for Engineers, table A.22; D4(5) is 2.114 or 2.115 by table, exact 2.11447
  it.each([
    [2, 1.88, 1.128, 0.853, 0.7979, 0, 3.267, 2.659, 0, 3.267],
    [3, 1.023, 1.693, 0.888, 0.8862, 0, 2.575, 1.954, 0, 2.568],
    [4, 0.729, 2.059, 0.88, 0.9213, 0, 2.282, 1.628, 0, 2.266],
    [5, 0.577, 2.326, 0.864, 0.94, 0, 2.114, 1.427, 0, 2.089],
    [6, 0.483, 2.534, 0.848, 0.9515, 0, 2.004, 1.287, 0.03, 1.97],
    [7, 0.419, 2.704, 0.833, 0.9594, 0.076, 1.924, 1.182, 0.118, 1.882],
    [8, 0.373, 2.847, 0.82, 0.965, 0.136, 1.864, 1.099, 0.185, 1.815],
    [9, 0.337, 2.97, 0.808, 0.9693, 0.184, 1.816, 1.032, 0.239, 1.761],
    [10, 0.308, 3.078, 0.797, 0.9727, 0.223, 1.777, 0.975, 0.284, 1.716],
  ])(
    'the factors of subgroups of %i are those of the table to 0.001',
    (n, a2, d2, d3, c4, lowR, upR, a3, lowS, upS) => {
      const factors = chartConstants(n)
      const pairs: [number, number][] = [
        [factors.a2, a2],
        [factors.d2, d2],
        [factors.d3, d3],
        [factors.c4, c4],
        [factors.lowerRange, lowR],
        [factors.upperRange, upR],
        [factors.a3, a3],
        [factors.lowerSd, lowS],
        [factors.upperSd, upS],
        [factors.e2 * factors.d2, 3],
      ]
      for (const [value, printed] of pairs) expect(Math.abs(value - printed)).toBeLessThan(0.00101)
    },
  )

  it('has exact factors for pairs: d2 = 2 / sqrt(pi), c4 = sqrt(2 / pi)', () => {
    expect(chartConstants(2).d2).toBeCloseTo(2 / Math.sqrt(Math.PI), 6)
    expect(chartConstants(2).d3).toBeCloseTo(Math.sqrt(2 - 4 / Math.PI), 6)
    expect(chartConstants(2).c4).toBeCloseTo(Math.sqrt(2 / Math.PI), 12)
    expect(() => chartConstants(1)).toThrow(RangeError)
  })

  it('agrees with the individuals chart of the NIST/SEMATECH e-Handbook 6.3.2.2', () => {
    const chart = individualsChart([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1])
    expect(chart.mean).toBeCloseTo(50.81, 4)
    expect(chart.meanMovingRange).toBeCloseTo(1.8778, 4)
    expect(chart.upperLimit).toBeCloseTo(55.8041, 4)
    expect(chart.lowerLimit).toBeCloseTo(45.8159, 4)
    expect(chart.movingRangeUpperLimit).toBeCloseTo(6.1347, 4)
    expect(chart.outside).toEqual([])
  })

  it('points at a reading outside its limits and at the eighth in a row on one side', () => {
    const steady = Array.from({ length: 20 }, (_, i) => (i % 2 ? 10.1 : 9.9))
    expect(individualsChart([...steady, 14]).outside).toEqual([20])
    // ten below then ten above: the eighth, ninth and tenth of each
    expect(individualsChart([...Array(10).fill(1), ...Array(10).fill(2)]).runs).toEqual([7, 8, 9, 17, 18, 19])
    expect(() => individualsChart([1])).toThrow(RangeError)
  })
})

describe('capability', () => {
  it('agrees with the NIST/SEMATECH e-Handbook 6.1.6 example', () => {
    // U 20, L 8, mean 16, s 2; Cpm for target 14: 12 / (6 sqrt 8) = .7071; out of spec 22 782 ppm
    const found = capability({ lower: 8, upper: 20, mean: 16, sd: 2, target: 14 })
    expect(found.cp).toBeCloseTo(1, 12)
    expect(found.cpk).toBeCloseTo(2 / 3, 12)
    expect(found.cpUpper).toBeCloseTo(0.6667, 4)
    expect(found.cpLower).toBeCloseTo(1.3333, 4)
    expect(found.offCentre).toBeCloseTo(0.3333, 4)
    expect(found.cpm).toBeCloseTo(0.7071, 4)
    expect(found.outOfSpecFraction * 1e6).toBeCloseTo(22_782, 0)
    expect(found.cpk).toBeCloseTo(found.cp * (1 - found.offCentre), 12)
  })

  it('bounds Cp by chi-square', () => {
    // U 62, L 38, s 1.75, n 20: Cp 2.2857, chi-square 8.907 and 32.852: 1.565 to 3.006
    const cp = 24 / (6 * 1.75)
    expect(cpInterval(cp, 20).low).toBeCloseTo(1.565, 3)
    expect(cpInterval(cp, 20).high).toBeCloseTo(3.006, 3)
  })

  it('bounds Cpk by Bissell\u2019s formula', () => {
    // By hand: 1.33 -+ 1.96 sqrt(1/180 + 1.7689/38) = .883, 1.777; .625 at n 30: .425, .825
    expect(cpkInterval(1.33, 20).low).toBeCloseTo(0.883, 3)
    expect(cpkInterval(1.33, 20).high).toBeCloseTo(1.777, 3)
    expect(cpkInterval(0.625, 30).low).toBeCloseTo(0.425, 3)
    expect(cpkInterval(0.625, 30).high).toBeCloseTo(0.825, 3)
  })

  it.each([
    [10, 0.786],
    [20, 0.955],
    [30, 1.026],
    [50, 1.096],
    [100, 1.165],
  ])('of %i pieces with an observed Cpk of 1.33 surely reaches %f', (count, bound) => {
    // By hand from Bissell's formula with z = 1.645
    expect(cpkLowerBound(1.33, count)).toBeCloseTo(bound, 3)
  })

  it('refuses limits the wrong way round, no spread and one piece', () => {
    expect(() => capability({ lower: 2, upper: 1, mean: 1, sd: 1 })).toThrow(RangeError)
    expect(() => capability({ lower: 1, upper: 2, mean: 1, sd: 0 })).toThrow(RangeError)
    expect(() => cpInterval(1, 1)).toThrow(RangeError)
  })
})

describe('tolerance intervals', () => {
  const ninetyFive = { share: 0.95, confidence: 0.95 }
  const sizes = [3, 4, 5, 6, 7, 8, 9, 10, 15, 20, 30]
  // 95 percent confidence, computed with scipy's noncentral t and chi-square; the one-sided row is that of published tables
  const oneSided95 = [7.656, 5.144, 4.203, 3.708, 3.399, 3.187, 3.031, 2.911, 2.566, 2.396, 2.22]
  const howe95 = [9.993, 6.399, 5.094, 4.423, 4.013, 3.736, 3.535, 3.382, 2.955, 2.752, 2.55]
  const oneSided90 = [6.155, 4.162, 3.407, 3.006, 2.755, 2.582, 2.454, 2.355, 2.068, 1.926, 1.777]

  it.each(sizes.map((size, i) => [size, i] as const))(
    'the factors for %i pieces are those of the table',
    (size, i) => {
      expect(Math.abs(oneSidedToleranceFactor(size, ninetyFive) - (oneSided95[i] ?? 0))).toBeLessThan(0.001)
      expect(Math.abs(twoSidedToleranceFactor(size, ninetyFive) - (howe95[i] ?? 0))).toBeLessThan(0.001)
      expect(
        Math.abs(oneSidedToleranceFactor(size, { share: 0.9, confidence: 0.95 }) - (oneSided90[i] ?? 0)),
      ).toBeLessThan(0.001)
    },
  )

  it('agrees with the NIST/SEMATECH e-Handbook 7.2.6.3 case of 43 wafers', () => {
    const coverage = { share: 0.9, confidence: 0.99 }
    expect(twoSidedToleranceFactor(43, coverage)).toBeCloseTo(2.2173, 4)
    expect(approximateOneSidedFactor(43, coverage)).toBeCloseTo(1.8752, 4)
    expect(oneSidedToleranceFactor(43, coverage)).toBeCloseTo(1.87395, 4)
    expect(97.07 + twoSidedToleranceFactor(43, coverage) * 0.0268).toBeCloseTo(97.12942, 4)
  })

  it('agrees with jstat on the noncentral t distribution', () => {
    for (const [t, df, shift] of [
      [2, 5, 1],
      [4.5, 9, 3],
      [0.7, 20, 0.4],
      [12, 42, 8],
    ] as const) {
      expect(noncentralTCdf(t, df, shift)).toBeCloseTo(jStat.noncentralt.cdf(t, df, shift), 8)
    }
  })

  it('is Student\u2019s t where there is no shift', () => {
    // t(0.975, 5) = 2.570582
    expect(noncentralTCdf(2.570582, 5, 0)).toBeCloseTo(0.975, 7)
    expect(noncentralTCdf(0, 5, 1)).toBeCloseTo(0.1586553, 7)
    expect(() => noncentralTCdf(-1, 5, 1)).toThrow(RangeError)
    expect(() => noncentralTCdf(1, 5, 40)).toThrow(RangeError)
  })

  it('refuses one piece, a share of one and too few pieces for the formula', () => {
    expect(() => twoSidedToleranceFactor(1, ninetyFive)).toThrow(RangeError)
    expect(() => oneSidedToleranceFactor(5, { share: 1, confidence: 0.9 })).toThrow(RangeError)
    expect(() => approximateOneSidedFactor(2, { share: 0.9, confidence: 0.99 })).toThrow(RangeError)
  })
})

describe('gauge study', () => {
  it('agrees with a published crossed study', () => {
    // Components .03997, .05146, part 1.08645, tolerance 8: 7.762 percent contribution, 27.861 study, 22.678 tolerance, 4 categories (AIAG MSA rules)
    const study = gaugeStudy({ repeatability: 0.03997, reproducibility: 0.05146, part: 1.08645 }, 8)
    expect(study.contributionPct).toBeCloseTo(7.762, 2)
    expect(study.studyPct).toBeCloseTo(27.861, 2)
    expect(study.tolerancePct).toBeCloseTo(22.678, 2)
    expect(study.distinctCategories).toBe(4)
    expect(study.word).toBe('conditional')
  })

  it('finds the components of a study worked by hand', () => {
    // Parts A, B; operators 1, 2; twice each: A1 1,3; A2 2,4; B1 5,7; B2 8,10. Cell means 2, 3, 6, 9; parts 2.5, 7.5; operators 4, 6; grand 5.
    // MS part 4 * 2 * 6.25 = 50; operator 4 * 2 * 1 = 8; interaction 2 * (4 * .25) = 2; error 8 / 4 = 2.
    // repeatability 2; operator (8 - 2) / 4 = 1.5, interaction 0; part (50 - 2) / 4 = 12
    const found = crossedGaugeComponents([
      [
        [1, 3],
        [2, 4],
      ],
      [
        [5, 7],
        [8, 10],
      ],
    ])
    expect(found).toEqual({ repeatability: 2, reproducibility: 1.5, part: 12 })
  })

  it('refuses a gauge without spread and an uneven study', () => {
    expect(() => gaugeStudy({ repeatability: 0, reproducibility: 0, part: 1 })).toThrow(RangeError)
    expect(() => gaugeStudy({ repeatability: 1, reproducibility: 0, part: -0.1 })).toThrow(RangeError)
    // Parts all alike: everything that varies is the gauge.
    expect(gaugeStudy({ repeatability: 1, reproducibility: 0, part: 0 })).toMatchObject({
      studyPct: 100,
      distinctCategories: 0,
      word: 'reject',
    })
    expect(() =>
      crossedGaugeComponents([
        [[1, 2], [1]],
        [
          [1, 2],
          [1, 2],
        ],
      ]),
    ).toThrow(RangeError)
  })
})
