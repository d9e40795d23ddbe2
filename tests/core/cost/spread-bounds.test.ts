import { describe, expect, it } from 'vitest'
import {
  drawOf,
  fixed,
  percentileOfSorted,
  type Spread,
  sampleSpread,
  scaled,
  spreadMean,
  spreadQuantile,
  spreadVariance,
  summariseDraws,
} from '@/lib/core/cost/spread'

describe('a PERT draw', () => {
  // With the likely value at an end the inverse is a root: 1 - (1 - u)^(1/5), and u^(1/5).
  it.each([0.001, 0.01, 0.1, 0.3, 0.5, 0.77, 0.9, 0.99])(
    'at %f is the fifth root where it leans to an end',
    (u) => {
      const low = drawOf({ shape: 'pert', low: 0, likely: 0, high: 1 })(u)
      const high = drawOf({ shape: 'pert', low: 0, likely: 1, high: 1 })(1 - u)
      expect(Math.abs(low - (1 - (1 - u) ** 0.2))).toBeLessThan(4e-4)
      expect(Math.abs(high - (1 - u) ** 0.2)).toBeLessThan(4e-4)
    },
  )

  it('in the middle is that of ten cubed x less fifteen to the fourth and six to the fifth', () => {
    // Beta(3, 3): 10 x^3 - 15 x^4 + 6 x^5, from 20 to 28.
    const draw = drawOf({ shape: 'pert', low: 20, likely: 24, high: 28 })
    for (const x of [0.1, 0.25, 0.4, 0.5, 0.65, 0.9]) {
      expect(draw(10 * x ** 3 - 15 * x ** 4 + 6 * x ** 5)).toBeCloseTo(20 + 8 * x, 3)
    }
  })

  it('grows with its uniform number and stays between the ends', () => {
    for (const likely of [2, 2.5, 4, 7]) {
      const draw = drawOf({ shape: 'pert', low: 2, likely, high: 7 })
      const values = Array.from({ length: 501 }, (_, i) => draw((i + 0.5) / 501))
      expect(
        values.every((value, i) => value > 2 && value < 7 && (i === 0 || value > (values[i - 1] ?? 0))),
      ).toBe(true)
    }
  })
})

describe('a spread', () => {
  const triangle: Spread = { shape: 'triangular', low: 0, likely: 1, high: 5 }

  it('of a triangle has its shares by the squares on either side of the likely value', () => {
    // Below 1 lies 1/5; below 1/2 lies (1/2)^2 / 5 = 1/20, above 3 lies 2^2 / 20 = 1/5.
    for (const [share, value] of [
      [1 / 20, 0.5],
      [1 / 5, 1],
      [4 / 5, 3],
      [19 / 20, 4],
    ] as const) {
      expect(spreadQuantile(triangle, share)).toBeCloseTo(value, 12)
      expect(drawOf(triangle)(share)).toBeCloseTo(value, 12)
    }
    // Mean 2, variance (1 + 25 - 5) / 18.
    expect(spreadMean(triangle)).toBe(2)
    expect(spreadVariance(triangle)).toBeCloseTo(21 / 18, 12)
  })

  it('of a PERT quantity has its exact shares', () => {
    expect(spreadQuantile({ shape: 'pert', low: 0, likely: 0, high: 2 }, 0.3)).toBeCloseTo(
      2 * (1 - 0.7 ** 0.2),
      12,
    )
    expect(spreadQuantile({ shape: 'pert', low: 3, likely: 5, high: 5 }, 0.3)).toBeCloseTo(
      3 + 2 * 0.3 ** 0.2,
      12,
    )
  })

  it('may be nothing, also of a logarithm', () => {
    const still: Spread = { shape: 'logNormal', median: 4, logSd: 0 }
    expect([spreadMean(still), spreadVariance(still), drawOf(still)(0.9)]).toEqual([4, 0, 4])
    expect(drawOf({ shape: 'triangular', ...fixed(4) })(0.9)).toBe(4)
    expect(spreadQuantile({ shape: 'triangular', ...fixed(4) }, 0.9)).toBe(4)
    expect(scaled({ low: 1, likely: 2, high: 3 }, 0)).toEqual({ low: 0, likely: 0, high: 0 })
  })

  it('is refused out of order or below what a logarithm has', () => {
    for (const [low, likely, high] of [
      [3, 2, 4],
      [1, 5, 4],
    ] as const) {
      const refusal = new RangeError(`Low, likely and high go upwards, not ${low}, ${likely}, ${high}.`)
      for (const shape of ['pert', 'triangular'] as const) {
        expect(() => spreadMean({ shape, low, likely, high })).toThrow(refusal)
        expect(() => spreadQuantile({ shape, low, likely, high }, 0.5)).toThrow(refusal)
        expect(() => drawOf({ shape, low, likely, high })).toThrow(refusal)
      }
    }
    for (const [median, logSd] of [
      [0, 1],
      [-1, 1],
      [1, -0.1],
    ] as const) {
      const spread: Spread = { shape: 'logNormal', median, logSd }
      for (const ask of [spreadMean, drawOf, (one: Spread) => spreadQuantile(one, 0.5)]) {
        expect(() => ask(spread)).toThrow(
          'A log-normal spread has a median above zero and a spread of zero or more.',
        )
      }
    }
    for (const p of [0, 1, -0.1, 1.1]) {
      expect(() => spreadQuantile(triangle, p)).toThrow(
        new RangeError(`A share of draws lies between 0 and 1, not ${p}.`),
      )
    }
  })
})

describe('draws', () => {
  it('are told from two on, with percentiles from end to end', () => {
    // By hand of 1 and 3: mean 2, sd sqrt 2, error 1; tenths 1.2 and 2.8.
    const found = summariseDraws(Float64Array.of(3, 1))
    expect(found).toMatchObject({ drawCount: 2, mean: 2, p50: 2 })
    expect([found.sd, found.standardError, found.p10, found.p90]).toEqual(
      [Math.SQRT2, 1, 1.2, 2.8].map((value) => expect.closeTo(value, 12)),
    )
    expect([0, 0.5, 1].map((p) => percentileOfSorted([4, 8], p))).toEqual([4, 6, 8])
    expect(percentileOfSorted([4], 0.7)).toBe(4)
    for (const p of [-0.1, 1.1]) {
      expect(() => percentileOfSorted([4, 8], p)).toThrow(
        new RangeError(`A percentile lies between 0 and 1, not ${p}.`),
      )
    }
    expect(() => percentileOfSorted([], 0)).toThrow('A percentile needs at least one draw.')
    expect(() => summariseDraws(Float64Array.of(1))).toThrow('A spread is told from two draws or more.')
  })

  it('are as many as asked for', () => {
    expect(
      sampleSpread({ shape: 'pert', low: 1, likely: 2, high: 3 }, { seed: 1, drawCount: 5 }),
    ).toHaveLength(5)
  })
})
