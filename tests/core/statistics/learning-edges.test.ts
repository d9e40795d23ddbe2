import { describe, expect, it } from 'vitest'
import { loggedTime } from '@/lib/core/statistics/logged-time'
import { predictiveSd, updateNormal } from '@/lib/core/statistics/normal-update'
import { type AimLine, reAim } from '@/lib/core/statistics/re-aim'
import { learnFactor, materialBelief, observedFactor } from '@/lib/core/statistics/springback-factor'
import { yieldBelief } from '@/lib/core/statistics/yield-belief'

describe('a normal belief', () => {
  it('without observations is what it was, all prior', () => {
    const after = updateNormal({ mean: 3, sd: 0.5 }, [])
    expect(after).toEqual({ mean: 3, sd: 0.5, dataWeight: 0, observationCount: 0 })
  })

  it('meets an observation as sure as itself half-way', () => {
    // By hand: precisions 4 and 4, mean (3 x 4 + 5 x 4) / 8 = 4, sd sqrt(1/8), half of it data; the next one sqrt(1/8 + 1/4).
    const after = updateNormal({ mean: 3, sd: 0.5 }, [{ value: 5, sd: 0.5 }])
    expect(after).toMatchObject({ mean: 4, dataWeight: 0.5, observationCount: 1 })
    expect(after.sd).toBeCloseTo(Math.sqrt(1 / 8), 14)
    expect(predictiveSd(after, 0.5)).toBeCloseTo(Math.sqrt(3 / 8), 14)
  })

  it('refuses spreads of nothing, below it and without end, and names them', () => {
    for (const sd of [0, -1, Number.POSITIVE_INFINITY, Number.NaN]) {
      const refusal = new RangeError(`A spread is above zero, not ${sd}.`)
      expect(() => updateNormal({ mean: 1, sd }, [])).toThrow(refusal)
      expect(() => updateNormal({ mean: 1, sd: 1 }, [{ value: 1, sd }])).toThrow(refusal)
    }
  })
})

describe('a springback factor', () => {
  const reading = {
    loadedAngleDeg: 34,
    measuredFinalAngleDeg: 31.6,
    modelFinalAngleDeg: 32,
    gaugeSdDeg: 0.08,
  }

  it('is as doubtful as the gauge and the scatter of bends together', () => {
    // By hand: model springback 2, so the gauge's 0.08 is 0.04; with a scatter of 0.03 sqrt(.0016 + .0009) = 0.05.
    expect(observedFactor(reading).sd).toBeCloseTo(0.04, 14)
    expect(observedFactor({ ...reading, scatterSd: 0.03 }).sd).toBeCloseTo(0.05, 14)
  })

  it('is not read where the model does not spring back or the gauge is beyond doubt', () => {
    for (const modelFinalAngleDeg of [34, 35]) {
      expect(() => observedFactor({ ...reading, modelFinalAngleDeg })).toThrow(
        `The model springs back by more than zero degrees, not ${34 - modelFinalAngleDeg}.`,
      )
    }
    for (const gaugeSdDeg of [0, -0.1]) {
      expect(() => observedFactor({ ...reading, gaugeSdDeg, scatterSd: 0.03 })).toThrow(
        `An angle gauge is uncertain by more than zero degrees, not ${gaugeSdDeg}.`,
      )
    }
  })

  it('of a material weighs its bends by how sure they are', () => {
    // By hand: 1.2 +- .05 and 1.1 +- .1 have precisions 400 and 100: 1.18, variance .002, with the group's .05 in squares .0045, precision 222.22;
    // with 1 +- .15, precision 44.44: (44.44 + 1.18 x 222.22) / 266.67 = 1.15, sd sqrt(1 / 266.67) = .0612372.
    const groups = [
      {
        key: 'round',
        observations: [
          { value: 1.2, sd: 0.05 },
          { value: 1.1, sd: 0.1 },
        ],
      },
    ]
    expect(materialBelief(groups)?.mean).toBeCloseTo(1.15, 12)
    expect(materialBelief(groups)?.sd).toBeCloseTo(0.0612372, 7)
    expect(materialBelief(groups)?.observationCount).toBe(1)
  })

  it('takes nothing from sections that were never bent', () => {
    const never = [
      { key: 'a', observations: [] },
      { key: 'b', observations: [] },
    ]
    expect(materialBelief(never)).toBeNull()
    expect(materialBelief([])).toBeNull()
    expect(learnFactor(never, 'a')).toMatchObject({
      mean: 1,
      sd: 0.15,
      prior: { mean: 1, sd: 0.15 },
      priorFrom: 'model',
      bendCount: 0,
      materialBendCount: 0,
      text: 'the model alone, no bend yet',
    })
    // One section bent and one not: the material is as the bent one alone shows it.
    const bent = { key: 'c', observations: [{ value: 1.2, sd: 0.05 }] }
    expect(materialBelief([...never, bent])).toEqual(materialBelief([bent]))
  })

  it('counts bends of its own section and of others apart', () => {
    const bends = (count: number) => Array.from({ length: count }, () => ({ value: 1.1, sd: 0.05 }))
    const groups = [
      { key: 'a', observations: bends(3) },
      { key: 'b', observations: bends(1) },
      { key: 'c', observations: bends(4) },
    ]
    expect(learnFactor(groups, 'a')).toMatchObject({
      bendCount: 3,
      materialBendCount: 5,
      priorFrom: 'material',
      text: '3 bends of this section and method and 5 other bends of this material',
    })
    expect(learnFactor(groups, 'b').text).toBe(
      '1 bend of this section and method and 7 other bends of this material',
    )
  })

  it('of a section is believed as the others show it before its own bends count', () => {
    // By hand as above: others 1.2 +- .05 give the material 1.163636 +- .0639602, a new section .0811844, precision 151.724; own 1.0 +- .05, 400:
    // (151.724 x 1.163636 + 400) / 551.724 = 1.045000, sd sqrt(1 / 551.724) = .0425735.
    const groups = [
      { key: 'a', observations: [{ value: 1, sd: 0.05 }] },
      { key: 'b', observations: [{ value: 1.2, sd: 0.05 }] },
    ]
    const learned = learnFactor(groups, 'a')
    expect(learned.prior.mean).toBeCloseTo(1.163636, 6)
    expect(learned.prior.sd).toBeCloseTo(0.0811844, 6)
    expect(learned.mean).toBeCloseTo(1.045, 5)
    expect(learned.sd).toBeCloseTo(0.0425735, 6)
  })
})

describe('an aim after tries the shop has not answered', () => {
  const line: AimLine = {
    belief: { mean: 1, sd: 0.1 },
    loadedDeg: 36,
    atPressDeg: 32,
    loadedPerFactorDeg: 4,
    atPressPerFactorDeg: 2.5,
    modelSpringbackDeg: 4,
    modelSpringbackPerDeg: 0.5,
    scatterSd: 0.08,
  }
  // By hand: at 38 the model springs back 4 + 0.5 x 2 = 5; from 38 to 32 are 6: factor 1.2; sd sqrt((0.3 / 5)^2 + 0.08^2) = 0.1, as sure as the belief.
  const reading = { loadedAngleDeg: 38, finalAngleDeg: 32, gaugeSdDeg: 0.3 }

  it('moves with the factor: half-way to a try as sure as the belief', () => {
    const after = reAim(line, [reading])
    expect(after.factor).toBeCloseTo(1.1, 12)
    expect(after.loadedDeg).toBeCloseTo(36.4, 12)
    expect(after.atPressDeg).toBeCloseTo(32.25, 12)
  })

  it('moves less from a belief that is away from one', () => {
    // By hand: 1.1 and 1.2 meet at 1.15; the aim stood for 1.1, so it moves by .05.
    const after = reAim({ ...line, belief: { mean: 1.1, sd: 0.1 } }, [reading])
    expect(after.factor).toBeCloseTo(1.15, 12)
    expect(after.loadedDeg).toBeCloseTo(36.2, 12)
    expect(after.atPressDeg).toBeCloseTo(32.125, 12)
  })

  it('weighs two tries alike: two parts of three come from them', () => {
    expect(reAim(line, [reading, reading]).factor).toBeCloseTo(1 + (2 / 3) * 0.2, 12)
  })

  it('learns nothing where the model does not spring back, nor without a try', () => {
    // At 28 the line is at 4 - 0.5 x 8 = 0, at 26 below it.
    for (const loadedAngleDeg of [28, 26]) {
      expect(reAim(line, [{ ...reading, loadedAngleDeg }])).toEqual(reAim(line, []))
    }
    expect(reAim(line, [])).toEqual({ factor: 1, loadedDeg: 36, atPressDeg: 32 })
  })
})

describe('a first-pass yield', () => {
  it('has deciles of the beta distribution in closed form', () => {
    // One good, none bad: Beta(2, 1), share x^2 below x: sqrt(.1) = .316228, sqrt(.9) = .948683; mean 2/3, sd sqrt(2 / (9 x 4)) = .235702.
    const belief = yieldBelief(1, 0)
    expect(belief.meanFraction).toBeCloseTo(2 / 3, 14)
    expect(belief.sdFraction).toBeCloseTo(0.235702, 6)
    expect(belief.p10Fraction).toBeCloseTo(0.316228, 6)
    expect(belief.p90Fraction).toBeCloseTo(0.948683, 6)
    // None good, one bad is its mirror image.
    expect(yieldBelief(0, 1).p10Fraction).toBeCloseTo(1 - 0.948683, 6)
    expect(yieldBelief(0, 1).meanFraction).toBeCloseTo(1 / 3, 14)
  })

  it('says of how many tries it is', () => {
    expect(yieldBelief(0, 0)).toMatchObject({ goodCount: 0, badCount: 0, text: 'no first try yet' })
    expect(yieldBelief(1, 0).text).toBe('1 good of 1 first try')
    expect(yieldBelief(0, 1).text).toBe('0 good of 1 first try')
    expect(yieldBelief(3, 2)).toMatchObject({ goodCount: 3, badCount: 2, text: '3 good of 5 first tries' })
    // As many bad as good is not the same as none.
    expect(yieldBelief(1, 1).text).toBe('1 good of 2 first tries')
  })

  it('refuses tries below zero and parts of one, good or bad', () => {
    for (const count of [-1, 0.5]) {
      const refusal = new RangeError(`Tries are counted from 0, not ${count}.`)
      expect(() => yieldBelief(count, 0)).toThrow(refusal)
      expect(() => yieldBelief(0, count)).toThrow(refusal)
    }
  })
})

describe('an operation’s time', () => {
  it('has the mean and the deciles of a log-normal time', () => {
    // By hand: s = ln(20 / 5) / (2 x 1.2815516) = .540866; mean 10 exp(.540866^2 / 2) = 10 exp(.146268) = 11.5751.
    const time = loggedTime({ low: 5, likely: 10, high: 20 }, [])
    expect(time.logSd).toBeCloseTo(0.540866, 6)
    expect(time.meanMinutes).toBeCloseTo(11.5751, 3)
    expect(time.loggedCount).toBe(0)
    expect(time.text).toBe('the shop’s setting, nothing logged yet')
  })

  it('logged twice apart is spread by what lies between', () => {
    // By hand: all three settings 10, so no spread of their own; ln 5 and ln 20 lie ln 2 from ln 10, whose mean they keep:
    // s^2 = 2 (ln 2)^2 / 4 = .240227; deciles 10 exp(-+1.281552 x .490130) = 5.3359 and 18.7409.
    const time = loggedTime({ low: 10, likely: 10, high: 10 }, [5, 20])
    expect(time.medianMinutes).toBeCloseTo(10, 12)
    expect(time.logSd ** 2).toBeCloseTo(0.240227, 6)
    expect(time.p10Minutes).toBeCloseTo(5.3359, 3)
    expect(time.p90Minutes).toBeCloseTo(18.7409, 3)
  })

  it('counts what was logged', () => {
    const text = (minutes: number[]) => loggedTime({ low: 1, likely: 2, high: 3 }, minutes).text
    expect(text([2])).toBe('1 logged time')
    expect(text([2, 2, 2])).toBe('3 logged times')
    // One logged time: s^2 = (2 s0^2 + 2 x 1 / 3 (ln 2)^2) / 3 with s0 = 0: .106767; median exp((2 ln 1 + ln 2) / 3) = 1.259921.
    const one = loggedTime({ low: 1, likely: 1, high: 1 }, [2])
    expect(one.logSd ** 2).toBeCloseTo(0.106767, 6)
    expect(one.medianMinutes).toBeCloseTo(1.259921, 6)
  })

  it('wants settings above zero that go upwards, equal ones too, and minutes above zero', () => {
    const refusal = 'A time to learn from has low, likely and high above zero and going upwards.'
    for (const prior of [
      { low: 0, likely: 1, high: 2 },
      { low: -1, likely: 1, high: 2 },
      { low: 3, likely: 2, high: 4 },
      { low: 1, likely: 3, high: 2 },
    ])
      expect(() => loggedTime(prior, [])).toThrow(refusal)
    expect(loggedTime({ low: 2, likely: 2, high: 2 }, []).medianMinutes).toBeCloseTo(2, 14)
    for (const minutes of [0, -1]) {
      expect(() => loggedTime({ low: 1, likely: 2, high: 3 }, [4, minutes])).toThrow(
        'Logged minutes are above zero.',
      )
    }
  })
})
