import { describe, expect, it } from 'vitest'
import { type CostedPart, requireCostedPart } from '@/lib/core/cost/costed-part'
import {
  approximateRunFactor,
  learningExponent,
  lotMinutes,
  pieceFactor,
  pieceMinutes,
  rateFromTwoPieces,
  runFactor,
  runFactors,
} from '@/lib/core/cost/learning'
import { nestedMaterialCost, perLengthMaterialCost } from '@/lib/core/cost/material-cost'
import {
  costPerGoodPieceCents,
  expectedStarts,
  rejectAllowance,
  rolledYield,
  startsForConfidence,
  startsVariance,
  yieldFromDefectsPerUnit,
} from '@/lib/core/cost/yield'
import type { NestPlan } from '@/lib/core/stock/nest-plan'

describe('a first-pass yield', () => {
  const asks = [
    (yieldFraction: number) => expectedStarts(4, yieldFraction),
    (yieldFraction: number) => startsVariance(4, yieldFraction),
    (yieldFraction: number) => startsForConfidence(4, yieldFraction, 0.9),
    (yieldFraction: number) => costPerGoodPieceCents([{ costCents: 100, yieldFraction }]),
    (yieldFraction: number) =>
      rejectAllowance({ yieldFraction, setUpCents: 1, eachCents: 1, penaltyCents: 9, runCount: 1 })[0]
        ?.startCount,
  ]

  it('is refused at nothing, below it and above one by whoever asks', () => {
    for (const yieldFraction of [0, -0.1, 1.01, Number.NaN]) {
      for (const ask of asks) {
        expect(() => ask(yieldFraction)).toThrow(
          new RangeError(`A first-pass yield lies above 0 and up to 1, not ${yieldFraction}.`),
        )
      }
    }
  })

  it('of one needs each start once, without a spread', () => {
    // One start at 1 and 1 for it is 2, less than the penalty of 9.
    expect(asks.map((ask) => ask(1))).toEqual([4, 0, 4, 100, 1])
  })

  it('of a half needs, for one good piece, starts until the chance is reached', () => {
    // By hand: 1/2, 3/4, 7/8 after one, two, three starts; a chance met exactly is enough.
    expect([0.4, 0.5, 0.51, 0.75, 0.76, 0.875].map((chance) => startsForConfidence(1, 0.5, chance))).toEqual([
      1, 1, 2, 2, 3, 3,
    ])
  })

  it('tells starts of whole good pieces from one, at chances between none and all', () => {
    for (const good of [0, -1, 1.5]) {
      expect(() => startsForConfidence(good, 0.9, 0.9)).toThrow(
        new RangeError(`Good pieces are counted from 1, not ${good}.`),
      )
    }
    for (const chance of [0, 1, -0.1, 1.1]) {
      expect(() => startsForConfidence(1, 0.9, chance)).toThrow(
        new RangeError(`A confidence lies between 0 and 1, not ${chance}.`),
      )
    }
  })

  it('of no step is one, of steps from nothing to all their product', () => {
    expect(rolledYield([])).toBe(1)
    expect(rolledYield([1, 0.5])).toBe(0.5)
    expect(rolledYield([0.5, 0])).toBe(0)
    for (const bad of [-0.1, 1.1]) {
      expect(() => rolledYield([0.5, bad])).toThrow(
        new RangeError(`A yield lies between 0 and 1, not ${bad}.`),
      )
    }
    expect(yieldFromDefectsPerUnit(0)).toBe(1)
    expect(() => yieldFromDefectsPerUnit(-0.1)).toThrow(
      new RangeError('Defects per unit are zero or more, not -0.1.'),
    )
  })
})

describe('how many to start in a run', () => {
  const run = (more: object) =>
    rejectAllowance({
      yieldFraction: 0.5,
      setUpCents: 0,
      eachCents: 100,
      penaltyCents: 1600,
      runCount: 1,
      ...more,
    })

  it('is as few as cost the least', () => {
    // By hand, 100 each against 1600: one 900, two 600, three 500, four 500, five 550: three.
    expect(run({})).toEqual([{ startCount: 3, expectedCostCents: 500 }])
  })

  it('is none where the penalty is no dearer', () => {
    // By hand: one start 100 and half of 200 is 200, no less than the penalty; of 202 it is 201.
    expect(run({ penaltyCents: 200 })).toEqual([{ startCount: 0, expectedCostCents: 200 }])
    expect(run({ penaltyCents: 202 })).toEqual([{ startCount: 1, expectedCostCents: 201 }])
  })

  it('is no more than may be started', () => {
    expect(run({ mostStartsPerRun: 2 })).toEqual([{ startCount: 2, expectedCostCents: 600 }])
    expect(run({ mostStartsPerRun: 1 })).toEqual([{ startCount: 1, expectedCostCents: 900 }])
    expect(run({ runCount: 0 })).toEqual([])
  })
})

describe('a learning curve', () => {
  const unit = { model: 'unit', rateFraction: 0.5 } as const
  const average = { model: 'cumulativeAverage', rateFraction: 0.5 } as const

  it('at one half is one over the piece: 1, 1/2, 1/3 and their sum', () => {
    // b = -1: the unit model has n^-1; in the average model the total stays that of the first piece.
    expect(learningExponent(0.5)).toBeCloseTo(-1, 14)
    expect([1, 2, 3].map((n) => pieceFactor(n, unit))).toEqual(
      [1, 0.5, 1 / 3].map((x) => expect.closeTo(x, 12)),
    )
    expect(Array.from(runFactors(3, unit))).toEqual([0, 1, 1.5, 11 / 6].map((x) => expect.closeTo(x, 12)))
    expect([0, 1, 3].map((n) => runFactor(n, unit))).toEqual([0, 1, 11 / 6].map((x) => expect.closeTo(x, 12)))
    expect(Array.from(runFactors(3, average))).toEqual([0, 1, 1, 1].map((x) => expect.closeTo(x, 12)))
    expect([0, 1, 3].map((n) => runFactor(n, average))).toEqual([0, 1, 1].map((x) => expect.closeTo(x, 12)))
  })

  it('gives minutes of a piece and of a lot', () => {
    // By hand, 12 minutes the first: the third 4, the second and third 6 + 4.
    expect(pieceMinutes(12, 3, unit)).toBeCloseTo(4, 12)
    expect(lotMinutes(12, { firstPiece: 2, lastPiece: 3 }, unit)).toBeCloseTo(10, 12)
    expect(lotMinutes(12, { firstPiece: 2, lastPiece: 2 }, unit)).toBeCloseTo(6, 12)
  })

  it('is shown by two pieces in either order, slower ones too', () => {
    expect(rateFromTwoPieces({ piece: 8, minutes: 51 }, { piece: 4, minutes: 60 })).toBeCloseTo(0.85, 12)
    expect(rateFromTwoPieces({ piece: 1, minutes: 10 }, { piece: 2, minutes: 12 })).toBeCloseTo(1.2, 12)
    const times = 'Two times above zero are needed.'
    const pieces = 'The times must belong to two different pieces of the run.'
    const rate = (one: [number, number], other: [number, number]) => () =>
      rateFromTwoPieces({ piece: one[0], minutes: one[1] }, { piece: other[0], minutes: other[1] })
    expect(rate([1, 0], [2, 5])).toThrow(times)
    expect(rate([1, 5], [2, 0])).toThrow(times)
    expect(rate([3, 5], [3, 4])).toThrow(pieces)
    expect(rate([0, 5], [3, 4])).toThrow(pieces)
    expect(rate([3, 5], [0, 4])).toThrow(pieces)
  })

  it('refuses rates of nothing or above one, and counts that are none', () => {
    expect(learningExponent(1)).toBeCloseTo(0, 14)
    for (const rateFraction of [0, -1, 1.01]) {
      expect(() => learningExponent(rateFraction)).toThrow(
        new RangeError(`A learning rate lies above 0 and up to 1 (no learning), not ${rateFraction}.`),
      )
    }
    const count = (least: number, not: number) =>
      new RangeError(`A count of pieces here is a whole number of ${least} or more, not ${not}.`)
    expect(() => pieceFactor(0, unit)).toThrow(count(1, 0))
    expect(() => pieceFactor(1.5, unit)).toThrow(count(1, 1.5))
    expect(() => runFactor(-1, unit)).toThrow(count(0, -1))
    expect(() => runFactors(-1, unit)).toThrow(count(0, -1))
    expect(() => runFactors(0.5, unit)).toThrow(count(0, 0.5))
    expect(() => approximateRunFactor(0, 0.9)).toThrow(count(1, 0))
    expect(() => lotMinutes(9, { firstPiece: 0, lastPiece: 3 }, unit)).toThrow(count(1, 0))
    expect(() => lotMinutes(9, { firstPiece: 4, lastPiece: 3 }, unit)).toThrow(count(4, 3))
  })
})

describe('the numbers of a part', () => {
  const part: CostedPart = {
    family: 'aluminium',
    sectionAreaMm2: 400,
    wallMm: 3,
    perimeterMm: 150,
    boreAreaMm2: 0,
    cutLengthMm: 1500,
    massKg: 1.62,
    bendAnglesDeg: [0.1, 179.9],
    planeChangeCount: 0,
    angleToleranceDeg: 1,
    startCut: 'square',
    endCut: 'square',
    holeCount: 0,
    featureCount: 0,
    fillerKg: 0,
    weldedEndCount: 0,
    dyePenetrant: false,
  }

  it('may be nothing where they count', () => {
    expect(() => requireCostedPart(part)).not.toThrow()
  })

  it.each([
    ['sectionAreaMm2', 'The wall cross-section'],
    ['wallMm', 'The wall'],
    ['perimeterMm', 'The perimeter'],
    ['cutLengthMm', 'The cut length'],
    ['massKg', 'The mass of a piece'],
    ['angleToleranceDeg', 'The angle tolerance'],
  ])('are above zero and have an end: %s', (key, what) => {
    for (const value of [0, -1, Number.POSITIVE_INFINITY, Number.NaN]) {
      expect(() => requireCostedPart({ ...part, [key]: value })).toThrow(
        new RangeError(`${what} is above zero, not ${value}.`),
      )
    }
  })

  it.each([
    ['planeChangeCount', 'Plane changes'],
    ['holeCount', 'Holes'],
    ['featureCount', 'Features to check'],
    ['weldedEndCount', 'Welded ends'],
  ])('are whole from zero: %s', (key, what) => {
    for (const value of [-1, 0.5]) {
      expect(() => requireCostedPart({ ...part, [key]: value })).toThrow(
        new RangeError(`${what} are counted from 0, not ${value}.`),
      )
    }
    expect(() => requireCostedPart({ ...part, [key]: 1 })).not.toThrow()
  })

  it('have filler from zero and bends between 0 and 180 degrees', () => {
    expect(() => requireCostedPart({ ...part, fillerKg: -0.1 })).toThrow(
      new RangeError('Filler in a piece is zero or more, not -0.1 kg.'),
    )
    for (const angleDeg of [0, -5, 180, 200]) {
      expect(() => requireCostedPart({ ...part, bendAnglesDeg: [90, angleDeg] })).toThrow(
        new RangeError(`A bend turns by more than 0 and less than 180 degrees, not ${angleDeg}.`),
      )
    }
  })
})

describe('the price of tube', () => {
  it('by the metre is refused below a start, a length and a price, and names all three', () => {
    const job = { plannedStarts: 1, cutLengthMm: 1400, kerfMm: 2, centsPerM: 1000 }
    for (const change of [
      { plannedStarts: 0 },
      { plannedStarts: 0.5 },
      { cutLengthMm: 0 },
      { cutLengthMm: -1 },
      { centsPerM: -1 },
    ]) {
      expect(() => perLengthMaterialCost({ ...job, ...change })).toThrow(
        new RangeError('Tube by the metre has a price, a length and a start at least.'),
      )
    }
    // By hand: 1.402 m at 10.00.
    expect(perLengthMaterialCost(job)).toMatchObject({
      plannedStarts: 1,
      plannedCents: 1402,
      extraStartCents: 1402,
    })
  })

  it('of a plan without a bar says so', () => {
    const plan = {
      toBuy: [],
      bars: [],
      netCents: 0,
      proof: { text: 'nothing to cut' },
    } as unknown as NestPlan
    const job = { plannedStarts: 0, cutLengthMm: 998, kerfMm: 2, centsPerM: 1500 }
    // A start more: a metre at 15.00.
    expect(nestedMaterialCost(plan, job)).toEqual({
      plannedStarts: 0,
      plannedCents: 0,
      extraStartCents: 1500,
      from: 'no tube; nothing to cut',
    })
  })
})
