import { describe, expect, it } from 'vitest'
import { fitThroughOrigin } from '@/lib/core/statistics/regression'
import { lagOneCorrelation, mean, standardDeviation, summary } from '@/lib/core/statistics/summary'

/** NIST StRD, univariate summary statistics: data and certified values. */
const mavro =
  `180 170 180 190 180 170 150 140 150 150 170 180 180 190 190 210 200 160 140 130 130 150 150 160 150
  140 130 140 150 140 150 160 150 160 190 200 200 210 220 230 240 250 270 260 260 260 270 260 250 240`
    .split(/\s+/)
    .map((digits) => Number(`2.00${digits}`))

const michelso =
  `85 74 90 307 93 85 95 98 98 88 300 98 93 65 76 81 300 300 96 96 96 94 96 94 88 80 85 88 90 84 83 79 81 88 88
  83 80 79 76 80 88 88 88 86 72 72 62 86 97 95 88 91 85 87 84 84 85 84 84 84 89 81 81 82 80 77 76 74 75 76 91 92 89 86 88 72 84 85 85 78
  89 84 78 81 76 81 79 81 82 85 87 87 81 74 81 94 95 80 81 87`
    .split(/\s+/)
    .map((digits) => (digits.length === 3 ? Number(`300.${digits.slice(1)}`) : Number(`299.${digits}`)))

const alternating = (first: number, low: number, high: number): number[] => [
  first,
  ...Array.from({ length: 1000 }, (_, i) => (i % 2 === 0 ? low : high)),
]

const relative = (value: number, certified: number): number => Math.abs(value / certified - 1)

describe('NIST StRD univariate summary statistics', () => {
  it.each([
    { set: 'NumAcc1', data: [10000001, 10000003, 10000002], m: 10000002, s: 1, r: -0.5, tol: 1e-12 },
    { set: 'NumAcc2', data: alternating(1.2, 1.1, 1.3), m: 1.2, s: 0.1, r: -0.999, tol: 1e-12 },
    {
      set: 'NumAcc3',
      data: alternating(1000000.2, 1000000.1, 1000000.3),
      m: 1000000.2,
      s: 0.1,
      r: -0.999,
      tol: 1e-9,
    },
    // the readings themselves are rounded to about 2e-9, so double precision holds s to 1e-7 only
    {
      set: 'NumAcc4',
      data: alternating(10000000.2, 10000000.1, 10000000.3),
      m: 10000000.2,
      s: 0.1,
      r: -0.999,
      tol: 1e-7,
    },
    { set: 'Mavro', data: mavro, m: 2.001856, s: 0.000429123454003053, r: 0.937989183438248, tol: 1e-10 },
    { set: 'Michelso', data: michelso, m: 299.8524, s: 0.0790105478190518, r: 0.535199668621283, tol: 1e-10 },
  ])('$set: mean, standard deviation and lag-one correlation', ({ data, m, s, r, tol }) => {
    expect(relative(mean(data), m)).toBeLessThan(1e-14)
    expect(relative(standardDeviation(data), s)).toBeLessThan(tol)
    expect(relative(lagOneCorrelation(data), r)).toBeLessThan(tol)
  })

  it('has the number of readings of the published sets', () => {
    expect([mavro.length, michelso.length, alternating(0, 0, 1).length]).toEqual([50, 100, 1001])
  })

  it('tells the ends, and no spread of a single reading', () => {
    expect(summary([3, 1, 2])).toEqual({ count: 3, mean: 2, sd: 1, least: 1, most: 3 })
    expect(summary([4]).sd).toBeNull()
    expect(() => mean([])).toThrow(RangeError)
    expect(() => standardDeviation([1])).toThrow(RangeError)
    expect(() => lagOneCorrelation([2, 2])).toThrow(RangeError)
  })
})

describe('NIST StRD regression through the origin', () => {
  it('NoInt1: all certified values to twelve digits', () => {
    const points = Array.from({ length: 11 }, (_, i) => ({ x: 60 + i, y: 130 + i }))
    const fit = fitThroughOrigin(points)
    expect(relative(fit.slope, 2.07438016528926)).toBeLessThan(1e-12)
    expect(relative(fit.slopeStandardError, 0.0165289256198347)).toBeLessThan(1e-12)
    expect(relative(fit.residualSd, 3.56753034006338)).toBeLessThan(1e-12)
    expect(relative(fit.rSquared, 0.999365492298663)).toBeLessThan(1e-12)
    expect(relative(fit.regressionSumOfSquares, 200457.727272727)).toBeLessThan(1e-12)
    expect(relative(fit.residualSumOfSquares, 127.272727272727)).toBeLessThan(1e-12)
    expect(relative(fit.fStatistic, 15750.25)).toBeLessThan(1e-12)
  })

  it('NoInt2: all certified values to twelve digits', () => {
    const fit = fitThroughOrigin([
      { x: 4, y: 3 },
      { x: 5, y: 4 },
      { x: 6, y: 4 },
    ])
    expect(relative(fit.slope, 0.727272727272727)).toBeLessThan(1e-12)
    expect(relative(fit.slopeStandardError, 0.0420827318078432)).toBeLessThan(1e-12)
    expect(relative(fit.residualSd, 0.369274472937998)).toBeLessThan(1e-12)
    expect(relative(fit.rSquared, 0.993348115299335)).toBeLessThan(1e-12)
    expect(relative(fit.regressionSumOfSquares, 40.7272727272727)).toBeLessThan(1e-12)
    expect(relative(fit.residualSumOfSquares, 0.272727272727273)).toBeLessThan(1e-12)
    expect(relative(fit.fStatistic, 298.666666666667)).toBeLessThan(1e-12)
  })

  it('refuses points that carry no slope', () => {
    expect(() => fitThroughOrigin([{ x: 1, y: 1 }])).toThrow(RangeError)
    expect(() =>
      fitThroughOrigin([
        { x: 0, y: 1 },
        { x: 0, y: 2 },
      ]),
    ).toThrow(RangeError)
  })
})
