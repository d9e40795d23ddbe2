import { describe, expect, it } from 'vitest'
import type { SpecInput } from '@/lib/core/spec/contract'
import { answerWay } from '@/lib/core/ways/compare-ways'
import { cutLengthOf, drawnLengthMm, outsidePerimeterMm, pieceOf } from '@/lib/core/ways/costed-piece'

const finish = {
  startCut: 'square',
  endCut: 'mitre',
  holeCount: 3,
  weldedEndCount: 1,
  dyePenetrant: true,
} as const
const rail = (rotationsDeg: readonly number[]): SpecInput => ({
  tube: { shape: 'square', widthMm: 38.1, heightMm: 38.1, wallMm: 3.175 },
  material: { id: '6061-T6' },
  bends: rotationsDeg.map((rotationDeg, index) => ({
    straightBeforeMm: 300,
    angleDeg: 20 + 10 * index,
    centrelineRadiusMm: 400,
    rotationDeg,
  })),
  straightAfterMm: 250,
  method: { support: 'hollow' },
  press: { capacityKn: 300, supportSpanMm: 520, supportNoseRadiusMm: 25 },
})
const pieceOfRail = (rotationsDeg: readonly number[]) =>
  pieceOf({ spec: rail(rotationsDeg), angleToleranceDeg: 1, cutLengthMm: 2000, fillerKg: 4 }, finish)

describe('a piece as its hours are counted', () => {
  it('changes planes at each bend that is turned, the first one never: it lies as it is laid', () => {
    expect(pieceOfRail([0, 0, 0]).planeChangeCount).toBe(0)
    expect(pieceOfRail([0, 90, 0]).planeChangeCount).toBe(1)
    expect(pieceOfRail([0, -45, 180]).planeChangeCount).toBe(2)
    expect(pieceOfRail([30, 0, 0]).planeChangeCount).toBe(0)
    // What a file rounds to nothing is no turn.
    expect(pieceOfRail([0, 1e-9, 1e-3]).planeChangeCount).toBe(1)
  })

  it('has its bends’ angles in order, and what the finish asks', () => {
    const piece = pieceOfRail([0, 90, 0])
    expect(piece.bendAnglesDeg).toEqual([20, 30, 40])
    expect(piece).toMatchObject({
      ...finish,
      fillerKg: 4,
      angleToleranceDeg: 1,
      cutLengthMm: 2000,
      wallMm: 3.175,
    })
  })

  it('is checked at each bend three times, each straight, both ends and each hole', () => {
    // Three bends: 9; four straights: 4; two ends; three holes.
    expect(pieceOfRail([0, 0, 0]).featureCount).toBe(18)
  })

  it('weighs its section times its length', () => {
    // Sharp corners: 4 t (h - t) = 443.55 mm²; 2 m of it at 2700 kg/m³.
    expect(pieceOfRail([0]).sectionAreaMm2).toBeCloseTo(443.55, 1)
    expect(pieceOfRail([0]).massKg).toBeCloseTo(2.395, 3)
  })
})

describe('lengths of a piece', () => {
  it('along the drawing are straights and arcs', () => {
    // 300 + 400 * 20° + 300 + 400 * 30° + 250 = 850 + 400 * 0.8727
    expect(drawnLengthMm(rail([0, 0]))).toBeCloseTo(1199.07, 2)
  })

  it('sawn for mitres are the long lengths with a kerf a joint', () => {
    const question = { spec: { ...rail([0, 0]), kerfMm: 2.5 }, angleToleranceDeg: 1 }
    const answer = answerWay(question, 'mitredWelded')
    const joints = answer.mitred?.joints.length ?? 0
    expect(joints).toBeGreaterThan(0)
    expect(cutLengthOf(question, answer) - (answer.mitred?.totalLongMm ?? 0)).toBeCloseTo(2.5 * joints, 9)
  })

  it('sawn for an outside bender are the drawing’s', () => {
    const question = { spec: rail([0, 0]), angleToleranceDeg: 1 }
    expect(cutLengthOf(question, answerWay(question, 'outside'))).toBeCloseTo(1199.07, 2)
  })

  it('round the outside lose 8 - 2 pi of a corner radius', () => {
    const tube = { shape: 'rectangular', widthMm: 50, heightMm: 30, wallMm: 3, cornerRadiusMm: 6 } as const
    // 160 - 1.7168 * 6, by hand.
    expect(outsidePerimeterMm(tube)).toBeCloseTo(149.7, 2)
    expect(outsidePerimeterMm({ ...tube, shape: 'round', heightMm: 40, widthMm: 40 })).toBeCloseTo(125.664, 3)
  })
})
