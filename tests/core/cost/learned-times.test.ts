import { describe, expect, it } from 'vitest'
import { learnedTimes, machinePaced, plannedMinutes, timesBehind } from '@/lib/core/cost/learned-times'
import type { OperationKey } from '@/lib/core/cost/operation'
import { operationsByKey } from '@/lib/core/cost/operation-drivers'
import { defaultOperationTimes } from '@/lib/core/cost/operation-times'

const part = {
  family: 'aluminium' as const,
  sectionAreaMm2: 440,
  wallMm: 3.2,
  perimeterMm: 150,
  boreAreaMm2: 1000,
  cutLengthMm: 1500,
  massKg: 1.8,
  bendAnglesDeg: [32, 18],
  planeChangeCount: 1,
  angleToleranceDeg: 1,
  startCut: 'square' as const,
  endCut: 'square' as const,
  holeCount: 1,
  featureCount: 6,
  fillerKg: 5,
  weldedEndCount: 1,
  dyePenetrant: true,
}
const context = { part, support: 'lowMelt' as const, strap: true, way: 'lowMeltStrap' as const }
const keys = Object.keys(timesBehind) as OperationKey[]

describe('What a clock teaches the shop’s times', () => {
  // Two prior times at the plan and one at 8 times it: the median moves by the third root, 2.
  it('moves a third of the way on a logarithmic scale: 8 times the plan doubles the times', () => {
    const learned = learnedTimes(defaultOperationTimes, {
      key: 'bend',
      family: 'aluminium',
      plannedMinutes: 10,
      loggedMinutes: 80,
    })
    expect(learned?.factor).toBeCloseTo(2, 9)
    expect(learned?.times.bendMinutes).toEqual({ low: 8, likely: 12, high: 24 })
    expect(learned?.times.packMinutes).toEqual(defaultOperationTimes.packMinutes)
  })

  it('scales the whole operation alike, set-up and run, for every operation with times of its own', () => {
    // The end cuts go through the wall at the saw's own speed, which the saw's clock teaches.
    const sawSpeedToo = ['trimEnds', 'mitreEnds']
    for (const key of keys.filter((one) => timesBehind[one].length > 0 && !sawSpeedToo.includes(one))) {
      const before = operationsByKey[key]({ ...context, times: defaultOperationTimes })
      const learned = learnedTimes(defaultOperationTimes, {
        key,
        family: 'aluminium',
        plannedMinutes: 10,
        loggedMinutes: 80,
      })
      const after = operationsByKey[key]({ ...context, times: learned?.times ?? defaultOperationTimes })
      const sum = (one: typeof before) => one.setUpMinutes.likely + one.runMinutesPerPiece.likely
      expect([key, sum(after) / sum(before)]).toEqual([key, expect.closeTo(2, 1)])
    }
  })

  it('teaches nothing where an operation has no times of its own', () => {
    const job = { key: 'trial' as const, family: 'aluminium' as const, plannedMinutes: 10, loggedMinutes: 20 }
    expect(learnedTimes(defaultOperationTimes, job)).toBeNull()
  })

  it('knows the operations that the machine paces as the drivers do', () => {
    for (const key of keys) {
      const { hand } = operationsByKey[key]({ ...context, times: defaultOperationTimes })
      expect([key, machinePaced.has(key)]).toEqual([key, !hand])
    }
  })

  // Crawford's unit model at 0.8, five pieces: 3.738 (NASA and RAND manuals); 20 + 10 x 3.738 = 57.38.
  it('plans a run by the learning curve, and a machine’s without it', () => {
    const learning = { model: 'unit' as const, rateFraction: 0.8 }
    const operation = { setUpMinutes: 20, runMinutesPerPiece: 10 }
    expect(plannedMinutes({ ...operation, key: 'bend' }, 5, learning)).toBeCloseTo(57.38, 2)
    expect(plannedMinutes({ ...operation, key: 'saw' }, 5, learning)).toBe(70)
  })
})
