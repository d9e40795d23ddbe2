import { describe, expect, it } from 'vitest'
import type { CostedPart } from '@/lib/core/cost/costed-part'
import type { OperationKey } from '@/lib/core/cost/operation'
import { operationsByKey, type RoutingContext } from '@/lib/core/cost/operation-drivers'
import { defaultOperationTimes, type OperationTimes } from '@/lib/core/cost/operation-times'
import { fixed, type ThreePoint } from '@/lib/core/cost/spread'

/** Every time of its own size, so that no two can be taken for each other; low and high a tenth either side. */
const spread = (likely: number): ThreePoint => ({ low: 0.9 * likely, likely, high: 1.1 * likely })
const times: OperationTimes = {
  ...defaultOperationTimes,
  readJobMinutes: spread(10),
  readPerBendMinutes: spread(2),
  sawSetUpMinutes: spread(8),
  sawHandlingMinutes: spread(1),
  sawRateMm2PerMin: { ...defaultOperationTimes.sawRateMm2PerMin, aluminium: 500 },
  mitreSetUpMinutes: spread(15),
  mitrePerEndMinutes: spread(3),
  deburrSetUpMinutes: spread(2),
  deburrPerMetreMinutes: spread(6),
  markPerPieceMinutes: spread(1.5),
  markPerBendMinutes: spread(0.7),
  cleanPerMetreMinutes: spread(2.5),
  fillPerPieceMinutes: spread(6),
  fillPerKgMinutes: spread(0.5),
  sandPerPieceMinutes: spread(8),
  sandPerLitreMinutes: spread(5),
  emptySandMinutes: spread(4),
  pressSetUpMinutes: spread(40),
  strapSetUpMinutes: spread(9),
  trialPieces: { low: 1, likely: 2, high: 3 },
  bendMinutes: spread(6),
  bendPer90DegMinutes: spread(3),
  planeChangeMinutes: spread(4.5),
  tightAngleToleranceDeg: 0.5,
  tightAngleMinutes: spread(5.5),
  strapPerBendMinutes: spread(2.2),
  meltOutPerPieceMinutes: spread(11),
  meltOutPerKgMinutes: spread(0.6),
  meltOutPerBendMinutes: spread(1.2),
  checkPerBendMinutes: spread(2.4),
  trimPerEndMinutes: spread(2.6),
  saddlePerEndMinutes: spread(5.2),
  holeMinutes: spread(2.1),
  fitUpPerJointMinutes: spread(5.1),
  dressPerJointMinutes: spread(1.9),
  weldSpeedMmPerMin: 100,
  weldOperatingFactor: { low: 0.2, likely: 0.25, high: 0.5 },
  inspectPerPieceMinutes: spread(2),
  inspectPerFeatureMinutes: spread(0.6),
  dyePenetrantPerBendMinutes: spread(3.3),
  piecesPerFilling: 3,
}
const part: CostedPart = {
  family: 'aluminium',
  sectionAreaMm2: 400,
  wallMm: 3,
  perimeterMm: 150,
  boreAreaMm2: 1000,
  cutLengthMm: 1500,
  massKg: 1.62,
  bendAnglesDeg: [90, 60, 60],
  planeChangeCount: 1,
  angleToleranceDeg: 1,
  startCut: 'mitre',
  endCut: 'square',
  holeCount: 4,
  featureCount: 7,
  fillerKg: 12,
  weldedEndCount: 2,
  dyePenetrant: true,
}
const context = (more: Partial<RoutingContext> = {}, change: Partial<CostedPart> = {}): RoutingContext => ({
  part: { ...part, ...change },
  times,
  support: 'hollow',
  strap: false,
  way: 'hollow',
  ...more,
})
const of = (key: OperationKey, more: Partial<RoutingContext> = {}, change: Partial<CostedPart> = {}) =>
  operationsByKey[key](context(more, change))

/** Set-up and run of the first piece, likely minutes, worked by hand from the times above. */
const rows: readonly (readonly [key: OperationKey, setUp: number, run: number])[] = [
  ['readJob', 10 + 3 * 2, 0],
  // One cut: handling 1 and 400 / 500 through the wall.
  ['saw', 8, 1.8],
  // 4 straights, 8 cuts; slant 1 / cos 45, 1 / cos 30 twice: mean (1.414214 + 2 · 1.154701) / 3 = 1.241205; two mitre angles.
  ['sawMitres', 8 + 2 * 15, 8 * (1 + 0.8 * 1.241205)],
  // Two ends, inside and outside: 0.6 m of edge.
  ['deburr', 2, 6 * 0.6],
  ['mark', 0, 1.5 + 3 * 0.7],
  ['cleanBore', 6, 2.5 * 1.5],
  ['fill', 30, 6 + 12 * 0.5],
  // 1.5 litres of bore.
  ['packSand', 15, 8 + 1.5 * 5],
  ['setUpPress', 40, 0],
  // Two trials of a 70 degree bend.
  ['trial', 2 * (6 + (3 * 70) / 90), 0],
  ['bend', 0, 3 * 6 + (3 * 210) / 90 + 4.5],
  ['meltOut', 15, 11 + 12 * 0.6 + 3 * 1.2],
  ['emptySand', 0, 4],
  ['checkAngles', 3, 3 * 2.4],
  ['dyePenetrant', 8, 3 * 3.3],
  ['trimEnds', 7, 2.6 + 0.8],
  ['mitreEnds', 15, 3 + 0.8],
  ['saddleEnds', 18, 0],
  // Three joints of 150 mm on the slant, at 100 mm/min a quarter of the time.
  ['fitWeldMitres', 15, 3 * 7 + (150 * (1.414214 + 2 * 1.154701)) / 100 / 0.25],
  ['fitWeld', 15, 2 * 7 + 300 / 100 / 0.25],
  ['drill', 8, 4 * 2.1],
  ['inspect', 7, 2 + 7 * 0.6],
  ['pack', 0, 2],
]

describe('the minutes of each operation', () => {
  it.each(rows)('%s: %f to set up, %f a piece', (key, setUp, run) => {
    const found = of(key)
    expect(found.key).toBe(key)
    expect(found.setUpMinutes.likely).toBeCloseTo(setUp, 4)
    expect(found.runMinutesPerPiece.likely).toBeCloseTo(run, 4)
    expect(found.setUpMinutes.low).toBeLessThanOrEqual(found.setUpMinutes.likely)
    expect(found.runMinutesPerPiece.high).toBeGreaterThanOrEqual(found.runMinutesPerPiece.likely)
    expect(found.source.length).toBeGreaterThan(5)
    expect(found.driver.length).toBeGreaterThan(3)
  })

  it('weld longest where the arc burns least of the time', () => {
    const { low, likely, high } = of('fitWeld').runMinutesPerPiece
    // 3 minutes of arc over 0.5, 0.25 and 0.2; fit-up and dressing 0.9, 1 and 1.1 times 14.
    expect([low, likely, high]).toEqual(
      [12.6 + 6, 14 + 12, 15.4 + 15].map((value) => expect.closeTo(value, 9)),
    )
  })

  it('of trials are pieces times minutes, low with low and high with high', () => {
    const each = 6 + 7 / 3
    const { low, high } = of('trial').setUpMinutes
    expect(low).toBeCloseTo(1 * 0.9 * each, 9)
    expect(high).toBeCloseTo(3 * 1.1 * each, 9)
    expect(of('trial', {}, { bendAnglesDeg: [] }).setUpMinutes.likely).toBeCloseTo(2 * 6, 9)
  })

  it('of trials fill and empty as the part is, filler for one bend’s share of it', () => {
    const more = (support: 'sand' | 'lowMelt') =>
      of('trial', { support }).setUpMinutes.likely - of('trial').setUpMinutes.likely
    expect(more('sand')).toBeCloseTo(2 * (8 + 4), 9)
    expect(more('lowMelt')).toBeCloseTo(2 * (6 + 11 + (12 / 3) * 1.1), 9)
  })

  it('grow with a strap and a tight angle', () => {
    expect(of('setUpPress', { strap: true }).setUpMinutes.likely).toBeCloseTo(49, 9)
    expect(
      of('bend', { strap: true }).runMinutesPerPiece.likely - of('bend').runMinutesPerPiece.likely,
    ).toBeCloseTo(3 * 2.2, 9)
    const tight = (angleToleranceDeg: number) =>
      of('bend', {}, { angleToleranceDeg }).runMinutesPerPiece.likely
    expect(tight(0.5) - tight(0.51)).toBeCloseTo(3 * 5.5, 9)
    expect(of('bend', { strap: true }, { angleToleranceDeg: 0.5 }).driver).toMatch(/tight angle.*strap/)
  })

  it('deburr every end of a mitred part', () => {
    // 8 ends of 150 mm, both sides: 2.4 m.
    expect(of('deburr', { way: 'mitredWelded' }).runMinutesPerPiece.likely).toBeCloseTo(6 * 2.4, 9)
  })

  it('count ends by their cut', () => {
    const both = { startCut: 'saddle', endCut: 'saddle' } as const
    expect(of('saddleEnds', {}, both).runMinutesPerPiece.likely).toBeCloseTo(2 * 5.2, 9)
    expect(of('saddleEnds', {}, both).driver).toBe('2 saddled ends')
    expect(of('trimEnds', {}, both).runMinutesPerPiece.likely).toBe(0)
    expect(of('trimEnds').driver).toMatch(/^1 square end,/)
  })

  it('know what the machine paces, what only good pieces see, and what waits by the batch', () => {
    const hands = (Object.keys(operationsByKey) as OperationKey[]).filter((key) => !of(key).hand)
    expect(hands.sort()).toEqual(['age', 'anneal', 'saw', 'sawMitres', 'setUpPress', 'solutionAge', 'trial'])
    const good = (Object.keys(operationsByKey) as OperationKey[]).filter((key) => of(key).runsPer === 'good')
    expect(good.sort()).toEqual([
      'age',
      'drill',
      'fitWeld',
      'inspect',
      'mitreEnds',
      'pack',
      'receive',
      'saddleEnds',
      'solutionAge',
      'trimEnds',
    ])
    expect([of('fill'), of('meltOut'), of('dyePenetrant')].map((one) => one.piecesPerBatch)).toEqual([
      3, 3, 10,
    ])
    expect(of('fill').elapsedMinutes).toEqual(times.fillCoolingElapsedMinutes)
    expect(of('meltOut').elapsedMinutes).toEqual(times.meltOutElapsedMinutes)
    expect(of('bend').elapsedMinutes).toEqual(fixed(0))
    expect(of('bend').piecesPerBatch).toBe(1)
  })
})
