import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  acceptanceZone,
  conformanceProbability,
  decisionRuleText,
  fullGuard,
  gaugeStandardUncertainty,
  judge,
  ninetyFiveGuard,
} from '@/lib/core/inspection/decision'
import { type BendTolerances, judgeBend, worst } from '@/lib/core/inspection/judge-bend'

const simple = { kind: 'simple' } as const
const rightAngle = { lower: 89, upper: 91, expandedUncertainty: 0.5 }

describe('ISO 14253-1 decision', () => {
  // 90 +- 1 degree, U .5 (k = 2): g = U gives 89.5 to 90.5; g = 1.645 u = .41121 gives 89.41121 to 90.58879, fail past 91.41121
  it.each([
    [90, fullGuard, 'pass'],
    [89.5, fullGuard, 'pass'],
    [90.5, fullGuard, 'pass'],
    [90.51, fullGuard, 'cannotSay'],
    [91.5, fullGuard, 'cannotSay'],
    [91.51, fullGuard, 'fail'],
    [88.49, fullGuard, 'fail'],
    [88.5, fullGuard, 'cannotSay'],
    [90.588, ninetyFiveGuard, 'pass'],
    [90.589, ninetyFiveGuard, 'cannotSay'],
    [89.412, ninetyFiveGuard, 'pass'],
    [89.411, ninetyFiveGuard, 'cannotSay'],
    [91.41, ninetyFiveGuard, 'cannotSay'],
    [91.42, ninetyFiveGuard, 'fail'],
    [91, simple, 'pass'],
    [91.01, simple, 'fail'],
  ] as const)('at %f: %o says %s', (value, rule, verdict) => {
    expect(judge({ ...rightAngle, value, rule })).toBe(verdict)
  })

  it('leaves 10.03 of 10.00 +- .05 undecided at U .04, and needs more than 10.09 to prove it bad', () => {
    const shaft = { lower: 9.95, upper: 10.05, expandedUncertainty: 0.04, rule: fullGuard }
    const zone = acceptanceZone(shaft)
    expect(zone?.lower).toBeCloseTo(9.99, 12)
    expect(zone?.upper).toBeCloseTo(10.01, 12)
    expect(judge({ ...shaft, value: 10.03 })).toBe('cannotSay')
    expect(judge({ ...shaft, value: 10.09 })).toBe('cannotSay')
    expect(judge({ ...shaft, value: 10.0901 })).toBe('fail')
  })

  it('has no zone to pass in where the gauge is coarser than the tolerance', () => {
    expect(acceptanceZone({ lower: 0, upper: 1, expandedUncertainty: 0.6, rule: fullGuard })).toBeNull()
    expect(judge({ value: 0.5, lower: 0, upper: 1, expandedUncertainty: 0.6, rule: fullGuard })).toBe(
      'cannotSay',
    )
    expect(acceptanceZone({ lower: 0, upper: 1, expandedUncertainty: 0.6, rule: simple })).toEqual({
      lower: 0,
      upper: 1,
    })
  })

  it('judges a limit on one side', () => {
    expect(judge({ value: 3, lower: 2.5, expandedUncertainty: 0.1, rule: fullGuard })).toBe('pass')
    expect(judge({ value: 3, upper: 2.5, expandedUncertainty: 0.1, rule: fullGuard })).toBe('fail')
  })

  it('never says pass and fail of values that a larger uncertainty would turn over', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 85, max: 95, noNaN: true }),
        fc.double({ min: 0, max: 2, noNaN: true }),
        (value, more) => {
          const sharp = judge({ ...rightAngle, value, rule: fullGuard })
          const blunt = judge({ ...rightAngle, value, expandedUncertainty: 0.5 + more, rule: fullGuard })
          expect([sharp, 'cannotSay']).toContain(blunt)
        },
      ),
    )
  })

  it('prints the rule it used', () => {
    expect(decisionRuleText(simple)).toContain('simple acceptance')
    expect(decisionRuleText(fullGuard)).toContain('ISO 14253-1')
    expect(decisionRuleText(ninetyFiveGuard)).toContain('0.8224')
  })

  it('refuses limits the wrong way round, none at all and uncertainty below zero', () => {
    expect(() => judge({ value: 1, lower: 2, upper: 1, expandedUncertainty: 0, rule: simple })).toThrow(
      RangeError,
    )
    expect(() => judge({ value: 1, expandedUncertainty: 0, rule: simple })).toThrow(RangeError)
    expect(() => judge({ ...rightAngle, value: 1, expandedUncertainty: -1, rule: simple })).toThrow(
      RangeError,
    )
    expect(() => judge({ ...rightAngle, value: Number.NaN, rule: simple })).toThrow(RangeError)
  })
})

describe('conformance probability', () => {
  it('is .97725 at the edge of the guard band of two standard uncertainties', () => {
    // JCGM 106: y 90.5, limits 89 and 91, u .25: Phi(2) - Phi(-6) = .97725
    expect(conformanceProbability({ ...rightAngle, value: 90.5 })).toBeCloseTo(0.97725, 5)
    // at 1.645 u inside it is 95 percent
    expect(conformanceProbability({ ...rightAngle, value: 91 - 1.6448536 * 0.25 })).toBeCloseTo(0.95, 6)
    expect(conformanceProbability({ ...rightAngle, value: 91 })).toBeCloseTo(0.5, 9)
  })

  it('is yes or no for a gauge without doubt', () => {
    expect(conformanceProbability({ ...rightAngle, value: 91, expandedUncertainty: 0 })).toBe(1)
    expect(conformanceProbability({ ...rightAngle, value: 91.1, expandedUncertainty: 0 })).toBe(0)
  })
})

describe('gauge uncertainty', () => {
  it('combines resolution and limit of error as the GUM does', () => {
    // Type B: .1 / sqrt 12 = .028868; .2 / sqrt 3 = .115470; together .119024
    expect(gaugeStandardUncertainty({ resolution: 0.1, limitOfError: 0 })).toBeCloseTo(0.028868, 6)
    expect(gaugeStandardUncertainty({ resolution: 0.1, limitOfError: 0.2 })).toBeCloseTo(0.119024, 6)
    expect(
      gaugeStandardUncertainty({ resolution: 0, limitOfError: 0, otherStandardUncertainties: [3, 4] }),
    ).toBe(5)
    expect(() => gaugeStandardUncertainty({ resolution: -1, limitOfError: 0 })).toThrow(RangeError)
  })
})

describe('judging a bend', () => {
  const tolerances: BendTolerances = {
    limits: { angleDeg: { lower: 31.5, upper: 32.5 }, wallOuterMm: { lower: 2.7 }, ovalityPct: { upper: 5 } },
    required: ['angleDeg'],
    allowedLooks: ['marks'],
    penetrantRequired: true,
    rule: fullGuard,
  }
  const good = { angleDeg: 32.1, wallOuterMm: 2.95, look: 'clean', penetrant: 'clear' } as const
  const gauges = { angleDeg: 0.2, wallOuterMm: 0.05 }

  it('passes where every value, the look and the penetrant pass', () => {
    const found = judgeBend(good, tolerances, gauges)
    expect(found.verdict).toBe('pass')
    expect(found.reasons.map(({ quantity }) => quantity)).toEqual([
      'angleDeg',
      'wallOuterMm',
      'look',
      'penetrant',
    ])
    expect(found.ruleText).toContain('ISO 14253-1')
  })

  it('says with the numbers why an angle fails', () => {
    const found = judgeBend({ ...good, angleDeg: 33 }, tolerances, gauges)
    expect(found.verdict).toBe('fail')
    expect(found.reasons[0]?.text).toBe(
      'fail: angle 33\u00b0, allowed 31.5 to 32.5\u00b0, gauge \u00b10.2\u00b0',
    )
  })

  it('cannot say near a limit, with what is required missing, or before the penetrant', () => {
    expect(judgeBend({ ...good, angleDeg: 32.4 }, tolerances, gauges).verdict).toBe('cannotSay')
    expect(judgeBend({ ...good, angleDeg: undefined }, tolerances, gauges).verdict).toBe('cannotSay')
    expect(judgeBend({ ...good, penetrant: 'notDone' }, tolerances, gauges).verdict).toBe('cannotSay')
    expect(judgeBend({ ...good, look: undefined }, tolerances, gauges).verdict).toBe('cannotSay')
  })

  it('fails a crack or an indication whatever the part allows, and a look it does not allow', () => {
    const lenient = {
      ...tolerances,
      allowedLooks: ['marks', 'wrinkle', 'flat', 'crack'] as const,
      penetrantRequired: false,
    }
    expect(judgeBend({ ...good, look: 'crack' }, lenient, gauges).verdict).toBe('fail')
    expect(judgeBend({ ...good, penetrant: 'indication' }, lenient, gauges).verdict).toBe('fail')
    expect(judgeBend({ ...good, look: 'wrinkle' }, lenient, gauges).verdict).toBe('pass')
    expect(judgeBend({ ...good, look: 'marks' }, tolerances, gauges).verdict).toBe('pass')
    const wrinkled = judgeBend({ ...good, look: 'wrinkle' }, tolerances, gauges)
    expect(wrinkled.reasons.find(({ quantity }) => quantity === 'look')?.text).toBe(
      'fail: look wrinkle, the part allows clean or marks',
    )
  })

  it('lets a fail stand over a cannot say', () => {
    expect(worst([{ verdict: 'cannotSay' }, { verdict: 'fail' }])).toBe('fail')
    expect(worst([])).toBe('cannotSay')
    expect(judgeBend({ ...good, angleDeg: undefined, wallOuterMm: 2 }, tolerances, gauges).verdict).toBe(
      'fail',
    )
  })

  it('tells limits on one side as at least and at most', () => {
    const texts = judgeBend({ ...good, ovalityPct: 6 }, tolerances, gauges).reasons.map(({ text }) => text)
    expect(texts).toContain('pass: wall at the outer face 2.95 mm, at least 2.7 mm, gauge \u00b10.05 mm')
    expect(texts).toContain('fail: ovality 6 percent, at most 5 percent')
  })

  it('does not judge a quantity without limits', () => {
    expect(judgeBend({ ...good, radiusMm: 999 }, tolerances, gauges).verdict).toBe('pass')
  })
})
