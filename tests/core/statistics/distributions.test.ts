import jStat from 'jstat'
import * as ss from 'simple-statistics'
import { describe, expect, it } from 'vitest'
import { betaCdf, betaDensity, betaQuantile } from '@/lib/core/statistics/beta'
import {
  binomialCdf,
  binomialProbability,
  logChoose,
  startsCdf,
  startsProbability,
} from '@/lib/core/statistics/counting'
import { chiSquareCdf, chiSquareQuantile, logGamma, lowerGammaFraction } from '@/lib/core/statistics/gamma'
import { normalCdf, normalDensity, normalQuantile } from '@/lib/core/statistics/normal'
import { studentTCdf, studentTQuantile } from '@/lib/core/statistics/student-t'

describe('gamma', () => {
  it('is a factorial at whole numbers and the root of pi at a half', () => {
    // Closed forms: G(n) = (n-1)!, G(1/2) = sqrt(pi), G(1/4) = 3.625609908221908 (Abramowitz & Stegun table 6.1)
    expect(Math.exp(logGamma(7))).toBeCloseTo(720, 9)
    expect(logGamma(171)).toBeCloseTo(
      Array.from({ length: 170 }, (_, i) => Math.log(i + 1)).reduce((a, b) => a + b),
      9,
    )
    expect(Math.exp(logGamma(0.5))).toBeCloseTo(Math.sqrt(Math.PI), 13)
    expect(Math.exp(logGamma(0.25))).toBeCloseTo(3.625609908221908, 12)
  })

  it('gives the exponential distribution at shape one', () => {
    // Closed form: P(1, x) = 1 - exp(-x)
    for (const x of [0.01, 0.5, 1, 2.5, 10, 40])
      expect(lowerGammaFraction(1, x)).toBeCloseTo(-Math.expm1(-x), 14)
  })

  it('agrees with the chi-square table at 19 degrees of freedom', () => {
    // Printed in tables: 8.907 at 2.5 percent, 32.852 at 97.5 percent
    expect(chiSquareQuantile(0.025, 19)).toBeCloseTo(8.907, 3)
    expect(chiSquareQuantile(0.975, 19)).toBeCloseTo(32.852, 3)
  })

  it('agrees with jstat over a grid', () => {
    for (const df of [1, 2, 5, 19, 60]) {
      for (const x of [0.1, 1, 4, 20, 70])
        expect(chiSquareCdf(x, df)).toBeCloseTo(jStat.chisquare.cdf(x, df), 10)
    }
  })

  it('refuses a shape of nothing and a share outside 0 to 1', () => {
    expect(() => logGamma(0)).toThrow(RangeError)
    expect(() => lowerGammaFraction(0, 1)).toThrow(RangeError)
    expect(() => chiSquareQuantile(1, 3)).toThrow(RangeError)
    expect(() => chiSquareQuantile(0, 3)).toThrow(RangeError)
  })
})

describe('normal', () => {
  it('agrees with the table of the normal distribution', () => {
    // Abramowitz & Stegun table 26.1: P(1) = 0.841344746068543, P(2) = 0.977249868051821, P(3) = 0.998650101968370
    expect(normalCdf(0)).toBe(0.5)
    expect(normalCdf(1)).toBeCloseTo(0.841344746068543, 14)
    expect(normalCdf(2)).toBeCloseTo(0.977249868051821, 14)
    expect(normalCdf(3)).toBeCloseTo(0.99865010196837, 14)
    expect(normalDensity(0)).toBeCloseTo(0.3989422804014327, 15)
  })

  it('keeps its digits far out in the tail', () => {
    // Abramowitz & Stegun table 26.2: Q(6) = 9.865876450e-10, Q(10) = 7.619853024e-24
    expect(normalCdf(-6) / 9.86587645e-10).toBeCloseTo(1, 8)
    expect(normalCdf(-10) / 7.619853024e-24).toBeCloseTo(1, 8)
  })

  it('gives back the shares it was asked for', () => {
    // z(0.95) = 1.6448536269514722, z(0.975) = 1.959963984540054
    expect(normalQuantile(0.95)).toBeCloseTo(1.6448536269514722, 12)
    expect(normalQuantile(0.975)).toBeCloseTo(1.959963984540054, 12)
    for (const p of [1e-8, 0.001, 0.02, 0.3, 0.5, 0.8, 0.99, 0.999999]) {
      expect(normalCdf(normalQuantile(p)) / p).toBeCloseTo(1, 10)
    }
    expect(() => normalQuantile(0)).toThrow(RangeError)
  })
})

describe('the density of a beta distribution', () => {
  it('is a polynomial for whole counts and nothing outside 0 to 1', () => {
    // Closed form: the density of Beta(2, 3) is x (1 - x)^2 / B(2, 3) = 12 x (1 - x)^2
    for (const x of [0.1, 0.5, 0.92]) expect(betaDensity(x, 2, 3)).toBeCloseTo(12 * x * (1 - x) ** 2, 12)
    for (const x of [-0.1, 0, 1, 1.1]) expect(betaDensity(x, 2, 3)).toBe(0)
  })
  it('has quantiles from end to end and refuses shares beyond', () => {
    // Closed form: Beta(1, 1) is uniform.
    expect(betaQuantile(0, 1, 1)).toBeCloseTo(0, 12)
    expect(betaQuantile(1, 1, 1)).toBeCloseTo(1, 12)
    expect(betaQuantile(0.37, 1, 1)).toBeCloseTo(0.37, 12)
    expect(() => betaQuantile(-0.01, 1, 1)).toThrow(RangeError)
    expect(() => betaQuantile(1.01, 1, 1)).toThrow(RangeError)
    expect(() => betaCdf(0.5, 1, 0)).toThrow(RangeError)
  })
})

describe('beta and Student', () => {
  it('is a polynomial for whole counts', () => {
    // Closed form: I_x(2, 3) = 6x^2 - 8x^3 + 3x^4
    for (const x of [0.1, 0.37, 0.5, 0.92]) {
      expect(betaCdf(x, 2, 3)).toBeCloseTo(6 * x ** 2 - 8 * x ** 3 + 3 * x ** 4, 14)
    }
    expect(betaCdf(0, 2, 3)).toBe(0)
    expect(betaCdf(1, 2, 3)).toBe(1)
    expect(() => betaCdf(0.5, 0, 1)).toThrow(RangeError)
  })

  it('agrees with jstat over a grid, both ways', () => {
    for (const [a, b] of [
      [0.5, 0.5],
      [1, 5],
      [3.2, 1.7],
      [20, 40],
    ] as const) {
      for (const x of [0.03, 0.4, 0.77]) expect(betaCdf(x, a, b)).toBeCloseTo(jStat.beta.cdf(x, a, b), 8)
      for (const p of [0.05, 0.5, 0.9]) expect(betaCdf(betaQuantile(p, a, b), a, b)).toBeCloseTo(p, 12)
    }
  })

  it('agrees with the t table', () => {
    // t(0.975): 12.706 (1), 2.571 (5), 2.262 (9), 2.093 (19); t(0.95, 10) = 1.812
    expect(studentTQuantile(0.975, 1)).toBeCloseTo(12.706, 3)
    expect(studentTQuantile(0.975, 5)).toBeCloseTo(2.571, 3)
    expect(studentTQuantile(0.975, 9)).toBeCloseTo(2.262, 3)
    expect(studentTQuantile(0.95, 10)).toBeCloseTo(1.812, 3)
    expect(studentTQuantile(0.025, 19)).toBeCloseTo(-2.093, 3)
    // Closed form at one degree of freedom: 1/2 + atan(x) / pi
    for (const x of [-3, -0.2, 0, 1, 8])
      expect(studentTCdf(x, 1)).toBeCloseTo(0.5 + Math.atan(x) / Math.PI, 12)
    expect(() => studentTCdf(1, 0)).toThrow(RangeError)
  })
})

describe('counting', () => {
  it('agrees with simple-statistics on the binomial distribution', () => {
    const table = ss.binomialDistribution(12, 0.3) ?? []
    table.forEach((chance, k) => expect(binomialProbability(k, 12, 0.3)).toBeCloseTo(chance, 12))
    let sum = 0
    for (let k = 0; k <= 12; k += 1) {
      sum += binomialProbability(k, 12, 0.3)
      expect(binomialCdf(k, 12, 0.3)).toBeCloseTo(sum, 12)
    }
  })

  it('agrees with jstat on the negative binomial distribution, counted in starts instead of failures', () => {
    for (let failures = 0; failures < 12; failures += 1) {
      expect(startsProbability(5 + failures, 5, 0.8)).toBeCloseTo(jStat.negbin.pdf(failures, 5, 0.8), 10)
      expect(startsCdf(5 + failures, 5, 0.8)).toBeCloseTo(jStat.negbin.cdf(failures, 5, 0.8), 10)
    }
  })

  it('answers plainly at the ends', () => {
    expect(startsProbability(3, 3, 1)).toBe(1)
    expect(startsProbability(4, 3, 1)).toBe(0)
    expect(startsProbability(2, 3, 0.5)).toBe(0)
    expect(startsCdf(2, 3, 0.5)).toBe(0)
    expect(startsCdf(3, 3, 1)).toBe(1)
    expect(binomialProbability(0, 4, 0)).toBe(1)
    expect(binomialProbability(4, 4, 1)).toBe(1)
    expect(binomialProbability(5, 4, 0.5)).toBe(0)
    expect(binomialCdf(-1, 4, 0.5)).toBe(0)
    expect(binomialCdf(4, 4, 0.5)).toBe(1)
    expect(binomialCdf(0, 4, 0)).toBe(1)
    expect(Math.exp(logChoose(52, 5))).toBeCloseTo(2_598_960, 4)
    expect(() => logChoose(3, 4)).toThrow(RangeError)
    expect(() => binomialProbability(1, 2, 1.2)).toThrow(RangeError)
  })
})
