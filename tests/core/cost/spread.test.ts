import { describe, expect, it } from 'vitest'
import {
  added,
  drawOf,
  percentileOfSorted,
  type Spread,
  sampleSpread,
  scaled,
  spreadMean,
  spreadQuantile,
  spreadVariance,
  summariseDraws,
  textbookPertVariance,
} from '@/lib/core/cost/spread'

const points = [
  { low: 3, likely: 5, high: 7 },
  { low: 2, likely: 6, high: 7 },
  { low: 2, likely: 5, high: 11 },
] as const

describe('three-point quantities', () => {
  // (3, 5, 7) and (2, 6, 7): project-management texts give PERT means 5 and 5.5, sd .67; the rest by the formulas
  it.each([
    [0, 5, 0.4444, 0.5714, 5, 0.66667, [3.8944, 5, 6.1056]],
    [1, 5.5, 0.6944, 0.75, 5, 1.16667, [3.4142, 5.1623, 6.2929]],
    [2, 5.5, 2.25, 2.75, 6, 3.5, [3.6432, 5.8038, 8.6762]],
  ] as const)(
    'case %i has the means, variances and percentiles worked out by hand',
    (i, pertMean, textbook, pertVar, triMean, triVar, tenths) => {
      const point = points[i]
      expect(spreadMean({ shape: 'pert', ...point })).toBeCloseTo(pertMean, 4)
      expect(textbookPertVariance(point)).toBeCloseTo(textbook, 4)
      expect(spreadVariance({ shape: 'pert', ...point })).toBeCloseTo(pertVar, 4)
      const triangular: Spread = { shape: 'triangular', ...point }
      expect(spreadMean(triangular)).toBeCloseTo(triMean, 4)
      expect(spreadVariance(triangular)).toBeCloseTo(triVar, 4)
      expect([0.1, 0.5, 0.9].map((p) => Number(spreadQuantile(triangular, p).toFixed(4)))).toEqual([
        ...tenths,
      ])
    },
  )

  it('add by means and variances', () => {
    // Sum of the three: PERT mean 16, textbook variance 3.38889; triangular variance 5.33333, sd 2.30940
    const sum = (of: (point: (typeof points)[number]) => number): number =>
      points.reduce((total, point) => total + of(point), 0)
    expect(sum((point) => spreadMean({ shape: 'pert', ...point }))).toBeCloseTo(16, 12)
    expect(sum(textbookPertVariance)).toBeCloseTo(3.38889, 5)
    expect(Math.sqrt(sum((point) => spreadVariance({ shape: 'triangular', ...point })))).toBeCloseTo(
      2.3094,
      4,
    )
  })

  it('have the log-normal\u2019s mean and variance', () => {
    // Median 10, log sd .5: mean 10 exp(.125) = 11.33148, variance mean^2 (exp(.25) - 1) = 36.4696
    const spread: Spread = { shape: 'logNormal', median: 10, logSd: 0.5 }
    expect(spreadMean(spread)).toBeCloseTo(11.33148, 4)
    expect(spreadVariance(spread)).toBeCloseTo(11.33148 ** 2 * (Math.exp(0.25) - 1), 2)
    expect(spreadQuantile(spread, 0.5)).toBeCloseTo(10, 9)
    expect(spreadQuantile(spread, 0.975)).toBeCloseTo(10 * Math.exp(0.5 * 1.959964), 5)
  })

  it('are their own value where there is no spread', () => {
    const spread: Spread = { shape: 'pert', low: 4, likely: 4, high: 4 }
    expect([
      spreadMean(spread),
      spreadVariance(spread),
      spreadQuantile(spread, 0.3),
      drawOf(spread)(0.7),
    ]).toEqual([4, 0, 4, 4])
  })

  it('turn over by a negative factor and add end to end', () => {
    expect(scaled(points[0], -2)).toEqual({ low: -14, likely: -10, high: -6 })
    expect(added(points[0], points[1])).toEqual({ low: 5, likely: 11, high: 14 })
  })

  it('are refused out of order', () => {
    expect(() => spreadMean({ shape: 'pert', low: 3, likely: 2, high: 4 })).toThrow(RangeError)
    expect(() => spreadMean({ shape: 'logNormal', median: 0, logSd: 1 })).toThrow(RangeError)
    expect(() => spreadQuantile({ shape: 'pert', low: 1, likely: 2, high: 4 }, 1)).toThrow(RangeError)
  })
})

describe('sampling', () => {
  const spreads: Spread[] = [
    ...points.flatMap((point): Spread[] => [
      { shape: 'triangular', ...point },
      { shape: 'pert', ...point },
    ]),
    { shape: 'pert', low: 0, likely: 0, high: 9 },
    { shape: 'pert', low: 0, likely: 9, high: 9 },
    { shape: 'logNormal', median: 10, logSd: 0.5 },
  ]

  it.each(spreads)(
    'of $shape $low $likely $high agrees with its closed form within four standard errors',
    (spread) => {
      const drawCount = 100_000
      const { mean, sd } = summariseDraws(sampleSpread(spread, { seed: 12_345, drawCount }))
      const variance = spreadVariance(spread)
      expect(Math.abs(mean - spreadMean(spread))).toBeLessThan(4 * Math.sqrt(variance / drawCount))
      // the error of a variance is about variance sqrt((kurtosis - 1) / n); kurtosis here is below 9
      expect(Math.abs(sd ** 2 / variance - 1)).toBeLessThan(4 * Math.sqrt(8 / drawCount))
    },
  )

  it('of a sum of three triangular times has mean 16 within four errors of .0073', () => {
    const draws = points.map((point, i) =>
      sampleSpread({ shape: 'triangular', ...point }, { seed: 100 + i, drawCount: 100_000 }),
    )
    const sum =
      draws[0]?.map((value, i) => value + (draws[1]?.[i] ?? 0) + (draws[2]?.[i] ?? 0)) ?? new Float64Array(2)
    expect(summariseDraws(sum).standardError).toBeCloseTo(0.0073, 4)
    expect(Math.abs(summariseDraws(sum).mean - 16)).toBeLessThan(4 * 0.0073)
  })

  it('gives a tenth below the tenth percentile, within four standard errors', () => {
    // sqrt(.1 * .9 / 10 000) = .0030
    const spread: Spread = { shape: 'pert', low: 2, likely: 5, high: 11 }
    const tenth = spreadQuantile(spread, 0.1)
    const share =
      sampleSpread(spread, { seed: 5, drawCount: 10_000 }).filter((value) => value <= tenth).length / 10_000
    expect(Math.abs(share - 0.1)).toBeLessThan(4 * 0.003)
  })

  it('draws a PERT quantity at the exact quantile of its uniform number', () => {
    for (const spread of spreads.filter(({ shape }) => shape === 'pert')) {
      const draw = drawOf(spread)
      for (const p of [0.01, 0.1, 0.37, 0.5, 0.8, 0.97])
        expect(Math.abs(draw(p) - spreadQuantile(spread, p))).toBeLessThan(0.004)
    }
  })

  it('is the same for the same seed', () => {
    const run = { seed: 3, drawCount: 10 }
    expect(sampleSpread(spreads[1] as Spread, run)).toEqual(sampleSpread(spreads[1] as Spread, run))
  })

  it('finds percentiles between neighbours', () => {
    // Hyndman & Fan definition 7: 1, 2, 3, 4 -> quarter 1.75, half 2.5
    expect(percentileOfSorted([1, 2, 3, 4], 0.25)).toBe(1.75)
    expect(percentileOfSorted([1, 2, 3, 4], 0.5)).toBe(2.5)
    expect(percentileOfSorted([1, 2, 3, 4], 1)).toBe(4)
    expect(() => percentileOfSorted([], 0.5)).toThrow(RangeError)
    expect(() => percentileOfSorted([1], 2)).toThrow(RangeError)
    expect(() => summariseDraws(new Float64Array(1))).toThrow(RangeError)
    // Of 2, 4, 4, 4, 5, 5, 7, 9: mean 5, squares 32 over 7, by hand.
    const few = summariseDraws(Float64Array.of(9, 2, 4, 5, 4, 7, 4, 5))
    expect(few).toMatchObject({ drawCount: 8, mean: 5, p50: 4.5 })
    expect(few.sd).toBeCloseTo(Math.sqrt(32 / 7), 12)
    expect(few.standardError).toBeCloseTo(Math.sqrt(32 / 7 / 8), 12)
  })
})
