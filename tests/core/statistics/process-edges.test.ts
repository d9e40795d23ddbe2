import { describe, expect, it } from 'vitest'
import { capability, cpInterval, cpkInterval, cpkLowerBound } from '@/lib/core/statistics/capability'
import { chartConstants, individualsChart } from '@/lib/core/statistics/control-chart'
import { crossedGaugeComponents, gaugeStudy } from '@/lib/core/statistics/gauge-study'
import { fitThroughOrigin } from '@/lib/core/statistics/regression'
import { lagOneCorrelation, mean, standardDeviation, summary } from '@/lib/core/statistics/summary'
import {
  approximateOneSidedFactor,
  noncentralTCdf,
  oneSidedToleranceFactor,
  twoSidedToleranceFactor,
} from '@/lib/core/statistics/tolerance-interval'

describe('the factors of subgroups', () => {
  it('are those of order statistics in closed form, for three to five readings', () => {
    // E of the greatest of n: 3 / (2 sqrt pi); 3 / (2 sqrt pi) (1 + 2/pi asin 1/3); 5 / (4 sqrt pi) (1 + 6/pi asin 1/3); the range is twice it.
    const root = Math.sqrt(Math.PI)
    const turn = Math.asin(1 / 3) / Math.PI
    expect(chartConstants(3).d2).toBeCloseTo(3 / root, 6)
    expect(chartConstants(4).d2).toBeCloseTo((3 / root) * (1 + 2 * turn), 6)
    expect(chartConstants(5).d2).toBeCloseTo((5 / (2 * root)) * (1 + 6 * turn), 6)
    // E of the range squared of three is 2 + 3 sqrt 3 / pi.
    expect(chartConstants(3).d3).toBeCloseTo(Math.sqrt(2 + (3 * Math.sqrt(3)) / Math.PI - 9 / Math.PI), 6)
  })

  // ASTM MNL 7, table of factors for 15, 20 and 25 (from memory): d2, d3, c4, A2, A3, D3, D4, B3, B4.
  it.each([
    [15, 3.472, 0.756, 0.9823, 0.223, 0.789, 0.347, 1.653, 0.428, 1.572],
    [20, 3.735, 0.729, 0.9869, 0.18, 0.68, 0.415, 1.585, 0.51, 1.49],
    [25, 3.931, 0.708, 0.9896, 0.153, 0.606, 0.459, 1.541, 0.565, 1.435],
  ])('of %i are printed in the table', (n, d2, d3, c4, a2, a3, lowerRange, upperRange, lowerSd, upperSd) => {
    const found = chartConstants(n)
    const printed = { d2, d3, c4, a2, a3, lowerRange, upperRange, lowerSd, upperSd }
    for (const [name, value] of Object.entries(printed)) {
      expect(Math.abs(found[name as keyof typeof printed] - value), name).toBeLessThan(0.00101)
    }
  })

  it('are not there for one reading, for more than 25 and for a part of one', () => {
    for (const n of [1, 26, 2.5]) {
      expect(() => chartConstants(n)).toThrow(
        new RangeError(`Subgroups of 2 to 25 have chart factors, not ${n}.`),
      )
    }
  })
})

describe('a chart of single readings', () => {
  it('of two has its mean between them and one moving range', () => {
    // By hand: mean 2, range 2, reach 3 x 2 / 1.128 = 5.319149; range limit 3.267 x 2 = 6.534.
    const chart = individualsChart([1, 3])
    expect(chart).toMatchObject({ mean: 2, meanMovingRange: 2, outside: [], runs: [] })
    expect([chart.lowerLimit, chart.upperLimit]).toEqual([
      expect.closeTo(-3.319149, 6),
      expect.closeTo(7.319149, 6),
    ])
    expect(chart.movingRangeUpperLimit).toBeCloseTo(6.534, 12)
    expect(() => individualsChart([1])).toThrow('A chart of single readings needs two or more.')
  })

  it('points at readings outside on either side, not at one on the limit', () => {
    const steady = Array.from({ length: 20 }, (_, i) => (i % 2 ? 10.1 : 9.9))
    expect(individualsChart([14, ...steady]).outside).toEqual([0])
    expect(individualsChart([...steady, 6]).outside).toEqual([20])
    // All alike: both limits are the reading itself.
    expect(individualsChart([4, 4, 4]).outside).toEqual([])
  })

  it('points at the eighth in a row on one side, above or below, and at none before it', () => {
    // Mean 0: eight above, then eight below.
    expect(individualsChart([...Array(8).fill(1), ...Array(8).fill(-1)]).runs).toEqual([7, 15])
    expect(individualsChart([...Array(7).fill(1), ...Array(7).fill(-1)]).runs).toEqual([])
  })

  it('lets a reading on the mean end a row', () => {
    expect(individualsChart([...Array(7).fill(1), 0, ...Array(7).fill(-1)]).runs).toEqual([])
    expect(individualsChart([0, ...Array(7).fill(1), ...Array(7).fill(-1), 0]).runs).toEqual([])
  })
})

describe('capability', () => {
  it('below the middle is that of the mirror image above it', () => {
    // By hand: limits 8 and 20, mean 12, s 2: (12 - 8) / 6 = 2/3, (20 - 12) / 6 = 4/3; middle 14: 12 / (6 sqrt(4 + 4)) = .70711;
    // outside Phi(-2) + Phi(-4) = .0227501 + .0000317.
    const found = capability({ lower: 8, upper: 20, mean: 12, sd: 2 })
    expect(found.cpLower).toBeCloseTo(2 / 3, 12)
    expect(found.cpUpper).toBeCloseTo(4 / 3, 12)
    expect(found.cpk).toBeCloseTo(2 / 3, 12)
    expect(found.offCentre).toBeCloseTo(1 / 3, 12)
    expect(found.cpm).toBeCloseTo(Math.SQRT1_2, 12)
    expect(found.outOfSpecFraction).toBeCloseTo(0.0227818, 7)
  })

  it('refuses limits that leave nothing between them, and no spread', () => {
    expect(() => capability({ lower: 1, upper: 1, mean: 1, sd: 1 })).toThrow(
      new RangeError('The upper limit 1 is above the lower 1.'),
    )
    for (const sd of [0, -1]) {
      expect(() => capability({ lower: 1, upper: 2, mean: 1, sd })).toThrow(
        new RangeError(`A process spreads by more than zero, not ${sd}.`),
      )
    }
  })

  it('has intervals of the confidence asked for', () => {
    // Chi-square, 10 degrees of freedom, from tables: 3.940 at 5, 18.307 at 95 percent: sqrt(.3940) = .6277, sqrt(1.8307) = 1.3530.
    expect(cpInterval(1, 11, 0.9).low).toBeCloseTo(0.6277, 4)
    expect(cpInterval(2, 11, 0.9).high).toBeCloseTo(2 * 1.353, 3)
    // Bissell, by hand: Cpk 1 of 10: sqrt(1/90 + 1/18) = .258199; times 1.644854 = .424700; 2.326348 for 99 percent one-sided gives .600661.
    expect(cpkInterval(1, 10, 0.9)).toEqual({
      low: expect.closeTo(0.5753, 5),
      high: expect.closeTo(1.4247, 5),
    })
    expect(cpkLowerBound(1, 10)).toBeCloseTo(0.5753, 5)
    expect(cpkLowerBound(1, 10, 0.99)).toBeCloseTo(0.399339, 5)
  })

  it('can be bounded from two pieces on', () => {
    // Chi-square, 1 degree of freedom: .000982 at 2.5, 5.0239 at 97.5 percent: sqrt gives .03134 and 2.2414.
    expect(cpInterval(1, 2).low).toBeCloseTo(0.03134, 5)
    expect(cpInterval(1, 2).high).toBeCloseTo(2.2414, 4)
    for (const count of [1, 2.5, 0]) {
      const refusal = new RangeError(`Capability needs two pieces or more, not ${count}.`)
      expect(() => cpInterval(1, count)).toThrow(refusal)
      expect(() => cpkInterval(1, count)).toThrow(refusal)
      expect(() => cpkLowerBound(1, count)).toThrow(refusal)
    }
  })
})

describe('tolerance factors', () => {
  it('of two pieces, 95 percent at 95 percent', () => {
    // Published one-sided tables: 26.260, and 20.581 for a share of 90 percent. Howe by hand: 1.959964 sqrt(1.5 / .00393214) = 38.281.
    const half = { share: 0.95, confidence: 0.95 }
    expect(Math.abs(oneSidedToleranceFactor(2, half) - 26.26)).toBeLessThan(0.001)
    expect(Math.abs(oneSidedToleranceFactor(2, { share: 0.9, confidence: 0.95 }) - 20.581)).toBeLessThan(
      0.001,
    )
    expect(twoSidedToleranceFactor(2, half)).toBeCloseTo(38.281, 2)
  })

  it('are refused for fewer than two pieces and shares or confidences of nothing or all', () => {
    const factors = [twoSidedToleranceFactor, oneSidedToleranceFactor, approximateOneSidedFactor]
    for (const factor of factors) {
      for (const count of [1, 0, 4.5]) {
        expect(() => factor(count, { share: 0.9, confidence: 0.9 })).toThrow(
          new RangeError(`A tolerance interval needs two pieces or more, not ${count}.`),
        )
      }
      for (const [share, confidence] of [
        [0, 0.9],
        [1, 0.9],
        [0.9, 0],
        [0.9, 1],
      ] as const) {
        expect(() => factor(9, { share, confidence })).toThrow(
          'The share held and the confidence lie between 0 and 1.',
        )
      }
    }
  })

  it('by formula need pieces enough: at 99 percent four, not three', () => {
    // z = 2.326348, z^2 = 5.411895: 1 - 5.411895 / 6 = .098018 at four, 1 - 5.411895 / 4 is below zero at three.
    // By hand at four, share 90 percent, z = 1.281552: b = 1.642375 - 1.352974 = .289401; (1.281552 + sqrt(1.642375 - .028366)) / .098018 = 26.0358.
    const coverage = { share: 0.9, confidence: 0.99 }
    expect(approximateOneSidedFactor(4, coverage)).toBeCloseTo(26.036, 2)
    expect(() => approximateOneSidedFactor(3, coverage)).toThrow('needs more than 3 pieces')
  })
})

describe('the noncentral t distribution at two degrees of freedom', () => {
  // Closed form, from S^2 exponential: F = Phi(-d) + r exp(-d^2 / (t^2 + 2)) Phi(d r), r = t / sqrt(t^2 + 2); at t^2 = 2/3 is r = 1/2.
  // Phi(1/2) = .691462461, Phi(1) = .841344746, Phi(2) = .977249868; exp(-.375) = .687289279, exp(-1.5) = .223130160.
  it.each([
    [1, 0.158655254 + 0.5 * 0.687289279 * 0.691462461],
    [-1, 0.841344746 + 0.5 * 0.687289279 * 0.308537539],
    [2, 0.022750132 + 0.5 * 0.22313016 * 0.841344746],
    [-2, 0.977249868 + 0.5 * 0.22313016 * 0.158655254],
    [0, 0.75],
  ])('shifted by %f', (shift, share) => {
    expect(noncentralTCdf(Math.sqrt(2 / 3), 2, shift)).toBeCloseTo(share, 8)
  })

  it('reaches to shifts of 37 on both sides and to t of 0', () => {
    // At d = t = 37: r = 37 / sqrt 1371 = .99927034, exp(-1369 / 1371) = .36841651; the far tail adds nothing: .36814769.
    expect(noncentralTCdf(37, 2, 37)).toBeCloseTo(0.368148, 6)
    expect(noncentralTCdf(37, 2, -37)).toBeCloseTo(1, 12)
    expect(noncentralTCdf(0, 2, 0)).toBeCloseTo(0.5, 12)
    expect(noncentralTCdf(0, 2, -1)).toBeCloseTo(0.841344746, 9)
    for (const shift of [37.1, -37.1]) {
      expect(() => noncentralTCdf(1, 2, shift)).toThrow(
        new RangeError(`The distribution is worked out for shifts up to 37, not ${shift}.`),
      )
    }
    expect(() => noncentralTCdf(-0.1, 2, 1)).toThrow(
      new RangeError('The distribution is worked out for t from 0 up, not -0.1.'),
    )
  })
})

describe('a gauge study', () => {
  it('accepts below 10 percent of the spread and rejects above 30', () => {
    // Variance 1 of 100 is 10 percent of the spread, 9 of 100 are 30.
    const word = (gauge: number, part: number) =>
      gaugeStudy({ repeatability: gauge, reproducibility: 0, part }).word
    expect(word(1, 99)).toBe('conditional')
    expect(word(1, 99.5)).toBe('accept')
    expect(word(9, 91)).toBe('conditional')
    expect(word(9, 90.5)).toBe('reject')
  })

  it('adds both parts of the gauge and leaves the tolerance out where there is none', () => {
    // By hand: gauge 3 + 6 = 9, total 9 + 216 = 225: 100 x 3 / 15 = 20 percent, 4 percent of the variance; 1.41 sqrt(24) = 6.9 categories.
    const study = gaugeStudy({ repeatability: 3, reproducibility: 6, part: 216 })
    expect(study).toMatchObject({
      gaugeVariance: 9,
      totalVariance: 225,
      tolerancePct: null,
      distinctCategories: 6,
    })
    expect(study.studyPct).toBeCloseTo(20, 12)
    expect(study.contributionPct).toBeCloseTo(4, 12)
    // Six times 3 over 36.
    expect(gaugeStudy({ repeatability: 3, reproducibility: 6, part: 216 }, 36).tolerancePct).toBeCloseTo(
      50,
      12,
    )
  })

  it('refuses a gauge that does not vary and parts that vary below zero', () => {
    const refusal = 'A gauge study needs a gauge that varies and parts that do not vary below zero.'
    expect(() => gaugeStudy({ repeatability: 0, reproducibility: 0, part: 1 })).toThrow(refusal)
    expect(() => gaugeStudy({ repeatability: 1, reproducibility: 0, part: -0.1 })).toThrow(refusal)
  })
})

describe('a crossed study', () => {
  const repeated = (cells: number[][], misses: number[]): number[][][] =>
    cells.map((part) => part.map((middle) => misses.map((miss) => middle + miss)))

  it('of three parts, two operators and four repeats, worked by hand', () => {
    // Grand mean 10; parts -3, 0, 3; operators +2, -2; together +1 -1, -2 +2, +1 -1; each cell read half a unit below twice and above twice.
    // MS part 2 x 4 x 18 / 2 = 72; operator 3 x 4 x 8 / 1 = 96; interaction 4 x 12 / 2 = 24; error 6 x 1 / (6 x 3) = 1/3.
    // Operators (96 - 24) / 12 = 6, interaction (24 - 1/3) / 4 = 5.916667, part (72 - 24) / 8 = 6.
    const cells = [
      [10, 4],
      [10, 10],
      [16, 10],
    ]
    const found = crossedGaugeComponents(repeated(cells, [-0.5, -0.5, 0.5, 0.5]))
    expect(found.repeatability).toBeCloseTo(1 / 3, 12)
    expect(found.reproducibility).toBeCloseTo(6 + 5.916667, 6)
    expect(found.part).toBeCloseTo(6, 12)
  })

  it('of two parts, three operators and two repeats, worked by hand', () => {
    // Grand mean 10; parts -2, +2; operators +3, 0, -3; together +1 -2 +1, -1 +2 -1; each cell read half a unit either side.
    // MS part 3 x 2 x 8 / 1 = 48; operator 2 x 2 x 18 / 2 = 36; interaction 2 x 12 / 2 = 12; error 6 x .5 / 6 = .5.
    // Operators (36 - 12) / 4 = 6, interaction (12 - .5) / 2 = 5.75, part (48 - 12) / 6 = 6.
    const cells = [
      [12, 6, 6],
      [14, 14, 8],
    ]
    expect(crossedGaugeComponents(repeated(cells, [-0.5, 0.5]))).toEqual({
      repeatability: expect.closeTo(0.5, 12),
      reproducibility: expect.closeTo(11.75, 12),
      part: expect.closeTo(6, 12),
    })
  })

  it('finds no component below zero', () => {
    // All cells alike: the whole spread is the gauge's own, 2 by hand ((1 + 1) / 1 in each cell).
    expect(
      crossedGaugeComponents(
        repeated(
          [
            [2, 2],
            [2, 2],
          ],
          [-1, 1],
        ),
      ),
    ).toEqual({ repeatability: 2, reproducibility: 0, part: 0 })
    // Parts and operators that only cross: interaction MS 2 x 4 / 1 = 8, so (8 - 2) / 2 = 3; operators and parts would be below zero.
    expect(
      crossedGaugeComponents(
        repeated(
          [
            [3, 1],
            [1, 3],
          ],
          [-1, 1],
        ),
      ),
    ).toEqual({ repeatability: 2, reproducibility: 3, part: 0 })
  })

  it('is refused with one part, one operator, one repeat, none at all, or uneven', () => {
    const refusal = 'A crossed study has two or more parts, operators and repeats'
    for (const readings of [
      [],
      [[]],
      [
        [
          [1, 2],
          [1, 3],
        ],
      ],
      [[[1, 2]], [[2, 3]]],
      [
        [[1], [2]],
        [[2], [4]],
      ],
      // An operator fewer at the second part; a repeat more in one cell.
      [
        [
          [1, 2],
          [1, 3],
        ],
        [[1, 2]],
      ],
      [
        [
          [1, 2],
          [1, 3],
        ],
        [
          [1, 2],
          [1, 2, 3],
        ],
      ],
    ])
      expect(() => crossedGaugeComponents(readings)).toThrow(refusal)
  })
})

describe('readings', () => {
  it('have a mean from one, a spread from two', () => {
    expect(() => mean([])).toThrow('A mean needs at least one reading.')
    expect(mean([4])).toBe(4)
    for (const few of [[], [1]]) {
      expect(() => standardDeviation(few)).toThrow('A standard deviation needs two readings or more.')
    }
    // By hand: 1 and 3 differ from 2 by 1 each: sqrt(2 / 1).
    expect(standardDeviation([1, 3])).toBeCloseTo(Math.SQRT2, 14)
    expect(summary([1, 3]).sd).toBeCloseTo(Math.SQRT2, 14)
    expect(summary([-2])).toEqual({ count: 1, mean: -2, sd: null, least: -2, most: -2 })
    expect(() => lagOneCorrelation([2, 2])).toThrow('all alike')
  })

  it('have a line through the origin from two points off it', () => {
    // By hand: (1, 2) and (2, 4) lie on y = 2 x, n = 2.
    expect(
      fitThroughOrigin([
        { x: 1, y: 2 },
        { x: 2, y: 4 },
      ]),
    ).toMatchObject({ slope: 2, residualSumOfSquares: 0, rSquared: 1, pointCount: 2 })
    expect(() => fitThroughOrigin([{ x: 1, y: 1 }])).toThrow('A fitted line needs two points or more.')
    expect(() =>
      fitThroughOrigin([
        { x: 0, y: 1 },
        { x: 0, y: 2 },
      ]),
    ).toThrow('needs a point away from x = 0')
  })
})
