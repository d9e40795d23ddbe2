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
import { normalCdf, normalQuantile, roughNormalQuantile } from '@/lib/core/statistics/normal'
import { studentTCdf, studentTQuantile } from '@/lib/core/statistics/student-t'

const ratio = (found: number, expected: number): number => Math.abs(found / expected - 1)
const sum = (count: number, of: (k: number) => number): number =>
  Array.from({ length: count }, (_, k) => of(k)).reduce((total, term) => total + term, 0)
/** The ways to choose k of n, by plain multiplication. */
const choose = (n: number, k: number): number =>
  Array.from({ length: k }, (_, i) => i).reduce((ways, i) => (ways * (n - i)) / (i + 1), 1)

describe('the gamma function', () => {
  it('refuses zero and below and names the place', () => {
    for (const x of [0, -1, Number.NaN]) {
      expect(() => logGamma(x)).toThrow(
        new RangeError(`The gamma function is wanted above zero, not at ${x}.`),
      )
    }
  })

  it('keeps its digits near zero, where it is one over its place', () => {
    // ln G(x) = -ln x - C x + pi^2 x^2 / 12 .., C = .5772156649 (Abramowitz & Stegun 6.1.33): at a millionth 13.815509980749.
    expect(logGamma(1e-6)).toBeCloseTo(6 * Math.LN10 - 0.5772156649e-6 + 0.8225e-12, 12)
    expect(logGamma(1e-10)).toBeCloseTo(10 * Math.LN10 - 0.5772156649e-10, 12)
  })

  it('keeps its digits on both sides of a half', () => {
    // G(1.5) = sqrt(pi)/2; G(0.499...) and G(0.5) meet; G(1/3) = 2.678938534707747 (Abramowitz & Stegun, table 6.1).
    expect(ratio(Math.exp(logGamma(1.5)), Math.sqrt(Math.PI) / 2)).toBeLessThan(1e-13)
    expect(ratio(Math.exp(logGamma(1 / 3)), 2.678938534707747)).toBeLessThan(1e-13)
    expect(Math.abs(logGamma(0.5 - 1e-12) - logGamma(0.5))).toBeLessThan(1e-11)
  })
})

describe('the share of a gamma distribution below a value', () => {
  it('is, at whole shapes, what the first terms of the Poisson series leave', () => {
    // P(a, x) = 1 - exp(-x) (1 + x + ... + x^(a-1) / (a-1)!), on both sides of x = a + 1.
    for (const a of [1, 2, 3, 8, 12]) {
      for (const x of [0.7, 2, 3, 4, 9, 12.9, 13, 13.1, 30]) {
        const terms = sum(a, (k) => x ** k / factorial(k))
        expect(Math.abs(lowerGammaFraction(a, x) - (1 - Math.exp(-x) * terms))).toBeLessThan(2e-14)
      }
    }
  })

  it('keeps its digits far below the shape', () => {
    // P(5, x) = x^5 exp(-x) (1/5! + x/6! + x^2/7! + x^3/8! ...): at 0.01 some 8.3e-13.
    const x = 0.01
    const expected = x ** 5 * Math.exp(-x) * sum(5, (k) => x ** k / factorial(5 + k))
    expect(ratio(lowerGammaFraction(5, x), expected)).toBeLessThan(1e-12)
  })

  it('is nothing from zero down and refuses a shape of nothing', () => {
    for (const x of [0, -1]) expect(lowerGammaFraction(2, x)).toBe(0)
    for (const a of [0, -2]) {
      expect(() => lowerGammaFraction(a, 1)).toThrow(
        new RangeError(`The shape of a gamma distribution is above zero, not ${a}.`),
      )
    }
  })
})

describe('chi-square at two degrees of freedom', () => {
  // Closed form: 1 - exp(-x / 2).
  it.each([1e-9, 0.01, 0.4, 0.5, 0.9, 0.999999, 1 - 1e-12])('has its quantile of %d', (p) => {
    expect(ratio(chiSquareQuantile(p, 2), -2 * Math.log1p(-p))).toBeLessThan(1e-4)
    if (p < 0.99) expect(ratio(chiSquareQuantile(p, 2), -2 * Math.log1p(-p))).toBeLessThan(1e-9)
    expect(Math.abs(chiSquareCdf(-2 * Math.log1p(-p), 2) - p)).toBeLessThan(1e-14)
  })

  it('refuses shares outside 0 to 1 and names them', () => {
    for (const p of [0, -0.1, 1, 1.5]) {
      expect(() => chiSquareQuantile(p, 2)).toThrow(
        new RangeError(`A share of draws lies between 0 and 1, not ${p}.`),
      )
    }
  })
})

describe('the normal distribution', () => {
  // erfc(z / sqrt 2) / 2 by an independent mathematics library.
  it.each([
    [-4.9, 4.791832765903198e-7, 1e-8],
    [-5, 2.866515718791939e-7, 1e-12],
    [-5.1, 1.6982674071475937e-7, 1e-12],
    [-6, 9.865876450376946e-10, 1e-12],
  ])('below %f holds %d', (z, share, tolerance) => {
    expect(ratio(normalCdf(z), share)).toBeLessThan(tolerance)
    expect(normalCdf(-z)).toBeCloseTo(1 - share, 15)
  })

  // Percentage points as printed in tables of the normal distribution (Abramowitz & Stegun, table 26.5, and its mirror image).
  it.each([
    [1e-6, -4.753424308822899],
    [0.001, -3.090232306167814],
    [0.01, -2.326347874040841],
    [0.02, -2.0537489106318225],
    [0.03, -1.8807936081512509],
    [0.1, -1.2815515655446004],
    [0.3, -0.5244005127080407],
    [0.75, 0.6744897501960817],
    [0.9, 1.2815515655446004],
    [0.97, 1.8807936081512509],
    [0.98, 2.0537489106318225],
    [0.999, 3.090232306167814],
  ])('has at %f its point, and the quick one is right to nine digits', (p, z) => {
    expect(ratio(normalQuantile(p), z)).toBeLessThan(1e-11)
    expect(ratio(roughNormalQuantile(p), z)).toBeLessThan(1.2e-9)
  })

  it('refuses shares outside 0 to 1 and names them', () => {
    for (const p of [0, -0.1, 1, 1.1, Number.NaN]) {
      expect(() => normalQuantile(p)).toThrow(
        new RangeError(`A share of draws lies between 0 and 1, not ${p}.`),
      )
    }
  })
})

describe('the beta distribution', () => {
  it('keeps its digits near zero', () => {
    // I_x(2, 3) = 6 x^2 - 8 x^3 + 3 x^4: at a millionth some 6e-12.
    const x = 1e-6
    expect(ratio(betaCdf(x, 2, 3), 6 * x ** 2 - 8 * x ** 3 + 3 * x ** 4)).toBeLessThan(1e-12)
  })

  it('is, for whole counts, a sum of binomial terms', () => {
    // I_x(a, n - a + 1) = sum over k from a to n of C(n, k) x^k (1 - x)^(n - k)
    for (const [a, n, x] of [
      [40, 99, 0.3],
      [40, 99, 0.5],
      [3, 10, 0.6],
      [9, 10, 0.95],
    ] as const) {
      const expected = sum(n - a + 1, (k) => choose(n, a + k) * x ** (a + k) * (1 - x) ** (n - a - k))
      expect(ratio(betaCdf(x, a, n - a + 1), expected)).toBeLessThan(1e-11)
    }
  })

  it('is nothing below 0 and all above 1', () => {
    expect([-0.1, 0, 1, 1.1].map((x) => betaCdf(x, 2, 3))).toEqual([0, 0, 1, 1])
    // Of a uniform draw the density is 1 inside and, as defined here, nothing at the ends.
    expect(betaDensity(0.5, 1, 1)).toBeCloseTo(1, 13)
    expect([-0.1, 0, 1, 1.1].map((x) => betaDensity(x, 1, 1))).toEqual([0, 0, 0, 0])
  })

  it('refuses counts of nothing and names both, and shares outside 0 to 1', () => {
    for (const [a, b] of [
      [0, 1],
      [1, 0],
      [-1, 2],
      [2, -1],
    ] as const) {
      expect(() => betaCdf(0.5, a, b)).toThrow(
        new RangeError(`The two counts of a beta distribution are above zero, not ${a} and ${b}.`),
      )
    }
    expect(() => betaQuantile(1.5, 1, 1)).toThrow('between 0 and 1, not 1.5')
  })

  it('has the quantiles of a closed form to the last digits', () => {
    // Beta(2, 1) has the share x^2 below x, Beta(1, 3) the share 1 - (1 - x)^3.
    for (const p of [1e-6, 0.2, 0.81, 0.999]) {
      expect(betaQuantile(p, 2, 1)).toBeCloseTo(Math.sqrt(p), 14)
      expect(betaQuantile(p, 1, 3)).toBeCloseTo(1 - Math.cbrt(1 - p), 14)
    }
  })
})

describe('Student’s t at two degrees of freedom', () => {
  // Closed forms: P = 1/2 + x / (2 sqrt(2 + x^2)), t = (2p - 1) / sqrt(2 p (1 - p)).
  it.each([-30, -1.5, 0, 0.3, 4])('has its share below %f', (x) => {
    expect(studentTCdf(x, 2)).toBeCloseTo(0.5 + x / (2 * Math.sqrt(2 + x * x)), 13)
  })

  it.each([0.0005, 0.1, 0.4, 0.5, 0.6, 0.9, 0.9995])('has its point at %f, and its mirror image', (p) => {
    const t = (2 * p - 1) / Math.sqrt(2 * p * (1 - p))
    expect(Math.abs(studentTQuantile(p, 2) - t)).toBeLessThan(1e-9 * Math.max(1, Math.abs(t)))
  })

  it('refuses no degrees of freedom and shares outside 0 to 1', () => {
    for (const df of [0, -1]) {
      expect(() => studentTCdf(1, df)).toThrow(
        new RangeError(`Degrees of freedom are above zero, not ${df}.`),
      )
    }
    for (const p of [0, -0.2, 1, 1.2]) {
      expect(() => studentTQuantile(p, 5)).toThrow(
        new RangeError(`A share of draws lies between 0 and 1, not ${p}.`),
      )
    }
  })
})

describe('counting good ends', () => {
  it('of five starts at a half is Pascal’s row over 32', () => {
    // 1 5 10 10 5 1, and nothing outside.
    expect([-1, 0, 1, 2, 3, 4, 5, 6].map((k) => Math.round(32e9 * binomialProbability(k, 5, 0.5)))).toEqual(
      [0, 1, 5, 10, 10, 5, 1, 0].map((ways) => ways * 1e9),
    )
    // Running sums: 1 6 16 26 31 32.
    expect([-1, 0, 1, 2, 3, 4, 5, 6].map((k) => Math.round(32e9 * binomialCdf(k, 5, 0.5)))).toEqual(
      [0, 1, 6, 16, 26, 31, 32, 32].map((ways) => ways * 1e9),
    )
  })

  it('is certain where a start cannot fail or cannot do', () => {
    expect([0, 1, 4].map((k) => binomialProbability(k, 4, 0))).toEqual([1, 0, 0])
    expect([0, 3, 4].map((k) => binomialProbability(k, 4, 1))).toEqual([0, 0, 1])
    expect([0, 3].map((k) => binomialCdf(k, 4, 0))).toEqual([1, 1])
    expect([0, 3, 4].map((k) => binomialCdf(k, 4, 1))).toEqual([0, 0, 1])
    expect([2, 3, 4].map((n) => startsProbability(n, 3, 1))).toEqual([0, 1, 0])
    expect([2, 3, 4].map((n) => startsCdf(n, 3, 1))).toEqual([0, 1, 1])
  })

  it('of starts for three good ones at a half', () => {
    // The third good at start n: C(n-1, 2) / 2^n: 1/8, 3/16, 6/32, 10/64; together 8, 20, 32, 42 of 64.
    const starts = [2, 3, 4, 5, 6]
    const at = [0, 8, 12, 12, 10]
    const by = [0, 8, 20, 32, 42]
    starts.forEach((n, i) => {
      expect(64 * startsProbability(n, 3, 0.5)).toBeCloseTo(at[i] ?? -1, 11)
      expect(64 * startsCdf(n, 3, 0.5)).toBeCloseTo(by[i] ?? -1, 11)
    })
  })

  it('takes none and all of a number in one way, and refuses more or fewer', () => {
    expect(logChoose(7, 0)).toBeCloseTo(0, 12)
    expect(logChoose(7, 7)).toBeCloseTo(0, 12)
    expect(Math.exp(logChoose(7, 3))).toBeCloseTo(35, 10)
    expect(() => logChoose(3, 4)).toThrow(new RangeError('4 cannot be chosen out of 3.'))
    expect(() => logChoose(3, -1)).toThrow(new RangeError('-1 cannot be chosen out of 3.'))
  })

  it('refuses what is no probability', () => {
    for (const p of [-0.01, 1.01, Number.NaN]) {
      const refusal = new RangeError(`A probability lies between 0 and 1, not ${p}.`)
      expect(() => binomialProbability(1, 2, p)).toThrow(refusal)
      expect(() => binomialCdf(1, 2, p)).toThrow(refusal)
      expect(() => startsProbability(3, 2, p)).toThrow(refusal)
      expect(() => startsCdf(3, 2, p)).toThrow(refusal)
    }
  })
})

function factorial(n: number): number {
  return Array.from({ length: n }, (_, i) => i + 1).reduce((product, i) => product * i, 1)
}
