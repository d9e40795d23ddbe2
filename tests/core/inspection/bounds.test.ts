import { describe, expect, it } from 'vitest'
import { angleCapability } from '@/lib/core/inspection/angle-capability'
import {
  acceptanceZone,
  conformanceProbability,
  decisionRuleText,
  fullGuard,
  gaugeStandardUncertainty,
  judge,
} from '@/lib/core/inspection/decision'
import {
  generalLinearMm,
  iso2768AngleDeg,
  iso2768EdgeRadiusMm,
  iso2768LinearMm,
  iso13920AngleDeg,
  iso13920FormMm,
  iso13920LinearMm,
  type TableTolerance,
} from '@/lib/core/inspection/general-tolerances'
import { missProbability, samplePlan, sampleToCatch, successRunCount } from '@/lib/core/inspection/sampling'

describe('the capability of a run of bends', () => {
  const swing = (count: number) => Array.from({ length: count }, (_, i) => 0.2 + (i % 2 === 0 ? 0.1 : -0.1))

  it('is said from five on, in full from twenty', () => {
    expect(angleCapability(swing(4), 1)).toEqual({ said: 'too-few', count: 4, lacking: 1 })
    expect(angleCapability([], 1)).toEqual({ said: 'too-few', count: 0, lacking: 5 })
    expect([5, 19, 20].map((count) => angleCapability(swing(count), 1).said)).toEqual([
      'bound',
      'bound',
      'full',
    ])
  })

  it('has a spread from a billionth of a degree on, and none at the last digit of a float', () => {
    const of = (step: number) => angleCapability([1, 1, 1, 1, 1 + step], 5)
    // By hand: one of five away by e spreads by e / sqrt 5.
    expect(of(2e-9)).toEqual({ said: 'no-spread', count: 5, meanDeg: expect.closeTo(1, 6) })
    expect(of(3e-9).said).toBe('bound')
    expect(of(0).said).toBe('no-spread')
  })

  it('is that of the errors between minus and plus the tolerance', () => {
    // By hand: errors .3 and .1 ten times each: mean .2, s = .1 sqrt(20/19) = .1025978; Cp 1 / .3077935 = 3.248931,
    // Cpk (1 - .2) / .3077935 = 2.599145; the lower side (1 + .2) / .3077935 = 3.898717.
    const found = angleCapability(swing(20), 1)
    if (found.said !== 'full') throw new Error(found.said)
    expect(found.count).toBe(20)
    expect(found.meanDeg).toBeCloseTo(0.2, 12)
    expect(found.sdDeg).toBeCloseTo(0.1025978, 7)
    expect(found.index.cp).toBeCloseTo(3.248931, 5)
    expect(found.index.cpk).toBeCloseTo(2.599145, 5)
    expect(found.index.cpLower).toBeCloseTo(3.898717, 5)
    // Chi-square of 19: 8.907 and 32.852; Bissell: sqrt(1/180 + 2.599145^2 / 38) = .428196, times 1.959964 and 1.644854.
    expect(found.cp.low).toBeCloseTo(3.248931 * Math.sqrt(8.907 / 19), 3)
    expect(found.cp.high).toBeCloseTo(3.248931 * Math.sqrt(32.852 / 19), 3)
    expect(found.cpk.low).toBeCloseTo(2.599145 - 1.959964 * 0.428196, 4)
    expect(found.cpk.high).toBeCloseTo(2.599145 + 1.959964 * 0.428196, 4)
    expect(found.cpkAtLeast).toBeCloseTo(2.599145 - 1.644854 * 0.428196, 4)
    expect([found.outside, found.runs]).toEqual([[], []])
  })

  it('points at a bend outside the natural limits and at eight on one side', () => {
    const odd = angleCapability([...swing(19), 3], 1)
    const drift = angleCapability([...Array(8).fill(0.1), ...Array(8).fill(-0.1)], 1)
    if (!('outside' in odd) || !('runs' in drift)) throw new Error('too few')
    expect(odd.outside).toEqual([19])
    expect(drift.runs).toEqual([7, 15])
  })
})

describe('a decision', () => {
  it('is not turned by the last digit of a decimal', () => {
    // 0.1 + 0.2 is a little over 0.3 as a float; a billionth of the value is no error, two are.
    const simple = { kind: 'simple' } as const
    const of = (value: number, lower: number, upper: number) =>
      judge({ value, lower, upper, expandedUncertainty: 0.1, rule: simple })
    expect(of(0.1 + 0.2, 0, 0.3)).toBe('pass')
    expect(of(100 + 9e-8, 0, 100)).toBe('pass')
    expect(of(100 + 2e-7, 0, 100)).toBe('fail')
    expect(of(100 - 9e-8, 100, 200)).toBe('pass')
    expect(of(100 - 2e-7, 100, 200)).toBe('fail')
    // Below one the slack stays a billionth.
    expect(of(0.01 + 9e-10, 0, 0.01)).toBe('pass')
    expect(of(0.01 + 2e-9, 0, 0.01)).toBe('fail')
    expect(of(-100 - 9e-8, -100, 0)).toBe('pass')
  })

  it('under a guard says pass and fail up to the guard itself', () => {
    // 0 to 10 with a guard of 1: pass from 1 to 9, cannot say to 1 outside.
    const of = (value: number) =>
      judge({ value, lower: 0, upper: 10, expandedUncertainty: 1, rule: fullGuard })
    expect([-1.1, -1, 0, 0.9, 1, 9, 9.1, 10, 11, 11.1].map(of)).toEqual([
      'fail',
      'cannotSay',
      'cannotSay',
      'cannotSay',
      'pass',
      'pass',
      'cannotSay',
      'cannotSay',
      'cannotSay',
      'fail',
    ])
    expect(acceptanceZone({ lower: 0, upper: 10, expandedUncertainty: 1, rule: fullGuard })).toEqual({
      lower: 1,
      upper: 9,
    })
    // A guard of half the tolerance leaves one value.
    expect(acceptanceZone({ lower: 0, upper: 10, expandedUncertainty: 5, rule: fullGuard })).toEqual({
      lower: 5,
      upper: 5,
    })
    expect(acceptanceZone({ lower: 0, upper: 10, expandedUncertainty: 5.1, rule: fullGuard })).toBeNull()
    expect(acceptanceZone({ lower: 2, expandedUncertainty: 1, rule: fullGuard })).toEqual({
      lower: 3,
      upper: Number.POSITIVE_INFINITY,
    })
  })

  it('may have both limits at one value and a gauge without doubt', () => {
    const exact = { lower: 5, upper: 5, expandedUncertainty: 0 }
    expect(judge({ ...exact, value: 5, rule: fullGuard })).toBe('pass')
    expect([4.9, 5, 5.1].map((value) => conformanceProbability({ ...exact, value }))).toEqual([0, 1, 0])
  })

  it('has a chance to conform from both sides', () => {
    // By hand, u = 1: at 0 between -1 and 2: Phi(2) - Phi(-1) = .977250 - .158655; with one limit Phi(1) and Phi(2).
    const at = { value: 0, expandedUncertainty: 2 }
    expect(conformanceProbability({ ...at, lower: -1, upper: 2 })).toBeCloseTo(0.818595, 6)
    expect(conformanceProbability({ ...at, lower: -1 })).toBeCloseTo(0.841345, 6)
    expect(conformanceProbability({ ...at, upper: 2 })).toBeCloseTo(0.97725, 6)
  })

  it('is refused without a limit, with limits crossed, no number or doubt below nothing, by whoever asks', () => {
    const refusals: [object, string][] = [
      [{ lower: undefined, upper: undefined }, 'A value is judged against one limit at least.'],
      [{ lower: 2, upper: 1 }, 'The lower limit 2 is above the upper limit 1.'],
      [{ expandedUncertainty: -1 }, 'A gauge’s uncertainty is zero or more, not -1.'],
      [{ expandedUncertainty: Number.NaN }, 'A gauge’s uncertainty is zero or more, not NaN.'],
    ]
    const fine = { value: 1, lower: 0, upper: 2, expandedUncertainty: 0, rule: fullGuard }
    for (const [change, message] of refusals) {
      for (const ask of [judge, conformanceProbability, acceptanceZone]) {
        expect(() => ask({ ...fine, ...change })).toThrow(new RangeError(message))
      }
    }
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => judge({ ...fine, value })).toThrow(new RangeError('A measured value is a number.'))
    }
  })

  it('is printed with its guard to four figures', () => {
    expect(decisionRuleText({ kind: 'guarded', guardFactor: 2 / 3 })).toContain('keep 0.6667 of the gauge')
    expect(decisionRuleText(fullGuard)).toContain('keep 1 of the gauge')
  })

  it('counts a gauge of no resolution or no error, not one below nothing', () => {
    // By hand: .6 / sqrt 3 = .346410.
    expect(gaugeStandardUncertainty({ resolution: 0, limitOfError: 0.6 })).toBeCloseTo(0.34641, 5)
    expect(gaugeStandardUncertainty({ resolution: 0, limitOfError: 0 })).toBe(0)
    for (const gauge of [
      { resolution: -0.1, limitOfError: 0 },
      { resolution: 0, limitOfError: -0.1 },
    ]) {
      expect(() => gaugeStandardUncertainty(gauge)).toThrow(
        new RangeError('A gauge’s resolution and limit of error are zero or more.'),
      )
    }
  })
})

describe('tables of general tolerances', () => {
  const value = (found: TableTolerance): number | string => (found.found ? found.plusMinus : found.because)

  it('begin and end where the standards do', () => {
    // ISO 2768-1: lengths and radii from 0.5; lengths to 4000. ISO 13920: lengths from 2; form over 30 to 2000.
    expect([0.49, 0.5, 3, 3.1].map((size) => value(iso2768LinearMm(size, 'm')))).toEqual([
      'below-table',
      0.1,
      0.1,
      0.1,
    ])
    expect([4000, 4000.1].map((size) => value(iso2768LinearMm(size, 'c')))).toEqual([4, 'above-table'])
    expect([0.49, 0.5, 3, 3.1, 6, 6.1, 9999].map((size) => value(iso2768EdgeRadiusMm(size, 'c')))).toEqual([
      'below-table',
      0.4,
      0.4,
      1,
      1,
      2,
      2,
    ])
    expect([1.9, 2, 30, 30.1].map((size) => value(iso13920LinearMm(size, 'D')))).toEqual([
      'below-table',
      1,
      1,
      4,
    ])
    expect([30, 30.1, 120, 120.1].map((size) => value(iso13920FormMm(size, 'F')))).toEqual([
      'below-table',
      1,
      1,
      1.5,
    ])
    expect([-1, 0, 0.1].map((side) => value(iso2768AngleDeg(side, 'm')))).toEqual([
      'below-table',
      'below-table',
      1,
    ])
    expect([400, 400.1, 1000, 1000.1].map((leg) => value(iso13920AngleDeg(leg, 'D')))).toEqual([
      1.5, 1.25, 1.25, 1,
    ])
  })

  it('are found by the class as a drawing says it', () => {
    // Table 1 of each: 100 mm is 0.3 in class m, 2 in class B.
    expect(generalLinearMm(100, 'ISO 2768-m')).toBe(0.3)
    expect(generalLinearMm(100, 'ISO 13920-B')).toBe(2)
    expect(generalLinearMm(5000, 'ISO 2768-m')).toBeNull()
    expect(generalLinearMm(2, 'ISO 2768-v')).toBeNull()
    for (const text of [
      '',
      'ISO 2768-B',
      'ISO 13920-m',
      'ISO 2768-x',
      'iso 2768-m',
      'ISO 2768-mK',
      'the ISO 2768-m',
      'ISO 1302-m',
    ])
      expect(generalLinearMm(100, text)).toBeNull()
  })
})

describe('sampling', () => {
  it('changes its plan just past each lot of the table', () => {
    // ISO 2859-1, level II: 9 to 15, 16 to 25, 26 to 50 .. 281 to 500.
    expect([3, 9, 16, 26, 51, 91, 151, 281].map((lot) => samplePlan(lot).sampleCount)).toEqual([
      2, 3, 5, 8, 13, 20, 32, 50,
    ])
    expect([5, 20, 60].map((lot) => samplePlan(lot, 'S-1').sampleCount)).toEqual([2, 2, 3])
  })

  it('looks at all where the sample is the lot', () => {
    // Level III: a lot of 3 wants three, a lot of 4 three of four.
    expect(samplePlan(3, 'III')).toEqual({ kind: 'all', sampleCount: 3, letter: 'B' })
    expect(samplePlan(4, 'III')).toEqual({ kind: 'sample', sampleCount: 3, letter: 'B' })
    expect(samplePlan(1)).toEqual({ kind: 'all', sampleCount: 1, letter: null })
    for (const lot of [0, -3, 2.5]) {
      expect(() => samplePlan(lot)).toThrow(new RangeError(`A lot is counted from one piece, not ${lot}.`))
    }
    expect(() => samplePlan(501)).toThrow(
      'The table here ends at lots of 500; 501 needs the standard itself.',
    )
  })

  it('in a row is a whole number where the logarithms meet', () => {
    // By hand: a half to the third is an eighth: 87.5 percent at a reliability of a half takes exactly three.
    expect(successRunCount(0.875, 0.5)).toBe(3)
    expect(successRunCount(0.876, 0.5)).toBe(4)
    for (const share of [0, 1, -0.1, 1.1]) {
      expect(() => successRunCount(share, 0.9)).toThrow(
        new RangeError(`A confidence lies between 0 and 1, not ${share}.`),
      )
      expect(() => successRunCount(0.9, share)).toThrow(
        new RangeError(`A reliability lies between 0 and 1, not ${share}.`),
      )
      expect(() => sampleToCatch(9, 1, share)).toThrow(
        new RangeError(`A confidence lies between 0 and 1, not ${share}.`),
      )
    }
  })

  it('misses surely where nothing is bad or nothing is looked at, and never past the good ones', () => {
    expect(missProbability(8, 0, 3)).toBeCloseTo(1, 12)
    expect(missProbability(8, 3, 0)).toBeCloseTo(1, 12)
    // 5 good of 8: a sample of 5 misses in one of C(8, 5) = 56, of 6 never; of all bad ones never.
    expect(missProbability(8, 3, 5)).toBeCloseTo(1 / 56, 10)
    expect(missProbability(8, 3, 6)).toBe(0)
    expect(missProbability(8, 8, 1)).toBe(0)
    expect(missProbability(8, 3, 8)).toBe(0)
    for (const [lot, bad, sample] of [
      [8, 9, 1],
      [8, 1, 9],
      [8, -1, 1],
      [8, 1, -1],
    ] as const) {
      expect(() => missProbability(lot, bad, sample)).toThrow(
        new RangeError('Bad pieces and sample are both part of the lot.'),
      )
    }
  })

  it('catches with the least sample, also where the chance is met exactly', () => {
    // One bad of ten is in a sample of n with a chance of n / 10.
    expect([0.1, 0.11, 0.5, 0.51, 0.9, 0.99].map((chance) => sampleToCatch(10, 1, chance))).toEqual([
      1, 2, 5, 6, 9, 10,
    ])
    expect(sampleToCatch(4, 4, 0.99)).toBe(1)
    for (const bad of [0, -1]) {
      expect(() => sampleToCatch(10, bad, 0.9)).toThrow(
        new RangeError('There is nothing to catch in a lot without bad pieces.'),
      )
    }
  })
})
