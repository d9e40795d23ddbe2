import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { loggedTime } from '@/lib/core/statistics/logged-time'
import { predictiveSd, updateNormal } from '@/lib/core/statistics/normal-update'
import { learnFactor, materialBelief, observedFactor } from '@/lib/core/statistics/springback-factor'
import { yieldBelief } from '@/lib/core/statistics/yield-belief'

describe('normal belief', () => {
  it('agrees with the trout example of Bolstad, Introduction to Bayesian Statistics, chapter 11', () => {
    // Prior N(30, 4), 12 readings of mean 32, sigma 2: precision 1/16 + 12/4 = 3.0625; mean (30/16 + 96) / 3.0625 = 31.9592; sd 0.571429
    const after = updateNormal(
      { mean: 30, sd: 4 },
      Array.from({ length: 12 }, () => ({ value: 32, sd: 2 })),
    )
    expect(after.mean).toBeCloseTo(31.9592, 4)
    expect(after.sd).toBeCloseTo(0.571429, 6)
    expect(after.dataWeight).toBeCloseTo(0.9796, 4)
  })

  it('moves one observation at a time to where all at once lead', () => {
    // By hand: prior .970 +- .010, sigma .006: .961176, .961525, .959583; together sd .003273, weight .8929, next bend .006835
    const values = [0.958, 0.962, 0.955]
    let belief = { mean: 0.97, sd: 0.01 }
    const steps = values.map((value) => {
      belief = updateNormal(belief, [{ value, sd: 0.006 }])
      return belief.mean
    })
    expect(steps[0]).toBeCloseTo(0.961176, 6)
    expect(steps[1]).toBeCloseTo(0.961525, 6)
    expect(steps[2]).toBeCloseTo(0.959583, 6)
    const together = updateNormal(
      { mean: 0.97, sd: 0.01 },
      values.map((value) => ({ value, sd: 0.006 })),
    )
    expect(together.mean).toBeCloseTo(belief.mean, 12)
    expect(together.sd).toBeCloseTo(0.003273, 6)
    expect(together.dataWeight).toBeCloseTo(0.8929, 4)
    expect(predictiveSd(together, 0.006)).toBeCloseTo(0.006835, 6)
  })

  it('does not depend on the order of the observations, and never grows less sure', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            value: fc.double({ min: -5, max: 5, noNaN: true }),
            sd: fc.double({ min: 0.01, max: 2, noNaN: true }),
          }),
          {
            minLength: 1,
            maxLength: 8,
          },
        ),
        (observations) => {
          const forward = updateNormal({ mean: 1, sd: 0.15 }, observations)
          const backward = updateNormal({ mean: 1, sd: 0.15 }, [...observations].reverse())
          expect(forward.mean).toBeCloseTo(backward.mean, 9)
          expect(forward.sd).toBeLessThan(0.15)
        },
      ),
    )
  })

  it('refuses a spread of nothing', () => {
    expect(() => updateNormal({ mean: 1, sd: 0 }, [])).toThrow(RangeError)
    expect(() => updateNormal({ mean: 1, sd: 1 }, [{ value: 1, sd: 0 }])).toThrow(RangeError)
  })
})

describe('springback factor', () => {
  it('is measured springback over computed springback', () => {
    // By hand: loaded 34, measured 31.6, model 32: (34 - 31.6) / (34 - 32) = 1.2; gauge 0.1 over 2 = 0.05
    const one = observedFactor({
      loadedAngleDeg: 34,
      measuredFinalAngleDeg: 31.6,
      modelFinalAngleDeg: 32,
      gaugeSdDeg: 0.1,
    })
    expect(one.value).toBeCloseTo(1.2, 12)
    expect(one.sd).toBeCloseTo(0.05, 12)
  })

  it('starts from 1 with 0.15 where nothing was bent, and shrinks toward what was measured', () => {
    expect(learnFactor([], 'a')).toMatchObject({ mean: 1, sd: 0.15, priorFrom: 'model', bendCount: 0 })
    // By hand: prior precision 1/.15^2 = 44.444, data 1/.05^2 = 400: mean (44.444 + 480) / 444.444 = 1.18, sd 0.047434
    const after = learnFactor([{ key: 'a', observations: [{ value: 1.2, sd: 0.05 }] }], 'a')
    expect(after.mean).toBeCloseTo(1.18, 10)
    expect(after.sd).toBeCloseTo(0.047434, 6)
  })

  it('takes the material\u2019s mean as prior for a section not bent yet', () => {
    // By hand: other group 1.2 +- .05 seen through the group spread .05: sd .0707107, precision 200; mean (44.444 + 240) / 244.444 = 1.163636,
    // sd .0639602; for a new section sqrt(.0639602^2 + .05^2) = .0811844
    const groups = [{ key: 'round', observations: [{ value: 1.2, sd: 0.05 }] }]
    expect(materialBelief(groups)?.mean).toBeCloseTo(1.163636, 6)
    const fresh = learnFactor(groups, 'square')
    expect(fresh).toMatchObject({ priorFrom: 'material', bendCount: 0, materialBendCount: 1 })
    expect(fresh.mean).toBeCloseTo(1.163636, 6)
    expect(fresh.sd).toBeCloseTo(0.0811844, 6)
    expect(fresh.text).toBe('1 other bend of this material')
  })

  it('agrees with the joint two-level model solved as linear equations', () => {
    // Unknowns (mu, a, b): mu ~ N(1, .15), a|mu, b|mu ~ N(mu, .05), data on a (1.1 +- .04) and b (0.9 +- .03); the mode solves
    // [1/.0225 + 2/.0025, -1/.0025, -1/.0025; -1/.0025, 1/.0025 + 1/.0016, 0; -1/.0025, 0, 1/.0025 + 1/.0009] x = [1/.0225, 1.1/.0016, .9/.0009]
    const [m11, m12, m22, m33] = [
      1 / 0.0225 + 2 / 0.0025,
      -1 / 0.0025,
      1 / 0.0025 + 1 / 0.0016,
      1 / 0.0025 + 1 / 0.0009,
    ]
    const [r1, r2, r3] = [1 / 0.0225, 1.1 / 0.0016, 0.9 / 0.0009]
    const mu = (r1 - (m12 * r2) / m22 - (m12 * r3) / m33) / (m11 - m12 ** 2 / m22 - m12 ** 2 / m33)
    const a = (r2 - m12 * mu) / m22
    const groups = [
      { key: 'a', observations: [{ value: 1.1, sd: 0.04 }] },
      { key: 'b', observations: [{ value: 0.9, sd: 0.03 }] },
    ]
    expect(learnFactor(groups, 'a').mean).toBeCloseTo(a, 10)
    expect(materialBelief(groups)?.mean).toBeCloseTo(mu, 10)
  })

  it('says how many bends stand behind it, of this section and of others', () => {
    const readings = (count: number) => Array.from({ length: count }, () => ({ value: 1.1, sd: 0.05 }))
    const text = (own: number, other: number) =>
      learnFactor(
        [
          { key: 'a', observations: readings(own) },
          { key: 'b', observations: readings(other) },
        ].filter(({ observations }) => observations.length > 0),
        'a',
      ).text
    expect(text(0, 0)).toBe('the model alone, no bend yet')
    expect(text(1, 0)).toBe('1 bend of this section and method')
    expect(text(3, 0)).toBe('3 bends of this section and method')
    expect(text(0, 1)).toBe('1 other bend of this material')
    expect(text(0, 4)).toBe('4 other bends of this material')
    expect(text(2, 1)).toBe('2 bends of this section and method and 1 other bend of this material')
  })

  it('refuses a bend whose model does not spring back, and a gauge without doubt', () => {
    const reading = { loadedAngleDeg: 34, measuredFinalAngleDeg: 32, modelFinalAngleDeg: 34, gaugeSdDeg: 0.1 }
    expect(() => observedFactor(reading)).toThrow(RangeError)
    expect(() => observedFactor({ ...reading, modelFinalAngleDeg: 32, gaugeSdDeg: 0 })).toThrow(RangeError)
  })
})

describe('first-pass yield', () => {
  it('is the rule of succession', () => {
    // Laplace: (good + 1) / (tries + 2); Beta(9, 3): mean .75, sd sqrt(27 / (144 * 13)) = .120096
    expect(yieldBelief(8, 2).meanFraction).toBeCloseTo(0.75, 12)
    expect(yieldBelief(8, 2).sdFraction).toBeCloseTo(0.120096, 6)
    expect(yieldBelief(0, 0)).toMatchObject({ meanFraction: 0.5, text: 'no first try yet' })
    // Beta(1, 1) is uniform
    expect(yieldBelief(0, 0).p10Fraction).toBeCloseTo(0.1, 12)
    expect(() => yieldBelief(-1, 0)).toThrow(RangeError)
  })
})

describe('operation time', () => {
  it('is the shop\u2019s setting before anything is logged', () => {
    const time = loggedTime({ low: 5, likely: 10, high: 20 }, [])
    expect(time.medianMinutes).toBeCloseTo(10, 12)
    // low and high are taken as 10th and 90th percentile; here likely is their geometric mean
    expect(time.p10Minutes).toBeCloseTo(5, 9)
    expect(time.p90Minutes).toBeCloseTo(20, 9)
  })

  it('goes toward logged minutes as they come in', () => {
    // By hand: ln median = (2 ln 10 + 2 ln 40) / 4 = ln 20
    const time = loggedTime({ low: 5, likely: 10, high: 20 }, [40, 40])
    expect(time.medianMinutes).toBeCloseTo(20, 9)
    // s0^2 = (ln 4 / 2.5631)^2 = .29253; shift 2*2/4 (ln 4)^2 = 1.92181; s^2 = (2 * .29253 + 1.92181) / 4 = .62672
    expect(time.logSd ** 2).toBeCloseTo(0.62672, 4)
    expect(time.text).toBe('2 logged times')
  })

  it('refuses minutes of nothing', () => {
    expect(() => loggedTime({ low: 0, likely: 1, high: 2 }, [])).toThrow(RangeError)
    expect(() => loggedTime({ low: 1, likely: 2, high: 3 }, [0])).toThrow(RangeError)
  })
})
