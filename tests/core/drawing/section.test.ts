import { describe, expect, it } from 'vitest'
import { cutReach, endOffsetMm } from '@/lib/core/drawing/end-cut'
import type { DrawnTube } from '@/lib/core/drawing/part'
import { sectionOutline } from '@/lib/core/drawing/section-outline'
import { sectionRing } from '@/lib/core/drawing/tube-section'

type Point = readonly [number, number]
const near = (points: readonly Point[]) => points.map((at) => at.map((mm) => expect.closeTo(mm, 6)))
const areaMm2 = (points: readonly Point[]) =>
  points.reduce((sum, [x, y], index) => {
    const [nextX, nextY] = points[(index + 1) % points.length] ?? [x, y]
    return sum + (x * nextY - nextX * y) / 2
  }, 0)
const box: DrawnTube = { shape: 'rectangular', widthMm: 30, heightMm: 40, wallMm: 3, cornerRadiusMm: 5 }
const pipe: DrawnTube = { shape: 'round', widthMm: 50, heightMm: 50, wallMm: 4 }

describe('a section as a ring', () => {
  it('of a sharp rectangle is its four corners, up and to the side first', () => {
    expect(sectionRing(box, 0)).toEqual({
      points: near([
        [20, 15],
        [-20, 15],
        [-20, -15],
        [20, -15],
      ]),
      corner: [true, true, true, true],
    })
    expect(sectionRing({ ...box, cornerRadiusMm: 0 }, 6).points).toHaveLength(4)
    expect(sectionRing({ shape: 'square', widthMm: 30, heightMm: 40 }, 6).points).toHaveLength(4)
  })

  it('with rounded corners has a quarter circle at each, from flat to flat', () => {
    // Corner centres (15, 10) off the middle; two steps: 5 up, 5 sqrt(1/2) = 3.5355339 both ways, 5 to the side.
    const { points, corner } = sectionRing(box, 2)
    const h = 3.5355339
    expect(points).toEqual(
      near([
        [20, 10],
        [15 + h, 10 + h],
        [15, 15],
        [-15, 15],
        [-15 - h, 10 + h],
        [-20, 10],
        [-20, -10],
        [-15 - h, -10 - h],
        [-15, -15],
        [15, -15],
        [15 + h, -10 - h],
        [20, -10],
      ]),
    )
    expect(corner).toEqual(Array(12).fill(false))
  })

  it('of the bore lies a wall further in, with corners a wall tighter, sharp where the wall is thicker', () => {
    expect(sectionRing(box, 1, 3).points.slice(0, 2)).toEqual(
      near([
        [17, 10],
        [15, 12],
      ]),
    )
    // Two points in one place at each corner, so that there is one for each of the outside's.
    const corners = [
      [15, 10],
      [-15, 10],
      [-15, -10],
      [15, -10],
    ] as const
    expect(sectionRing(box, 1, 5).points).toEqual(near(corners.flatMap((corner) => [corner, corner])))
    expect(sectionRing(box, 1, 7).points[0]).toEqual([13, 8])
  })

  it('of a round tube is forty points on its circle, none of them a corner', () => {
    const { points, corner } = sectionRing(pipe, 3, 4)
    expect(points).toHaveLength(40)
    expect(corner).toEqual(Array(40).fill(false))
    for (const at of points) expect(Math.hypot(...at)).toBeCloseTo(21, 9)
    // A tenth of the turn on: 21 cos 9° = 20.7414552, 21 sin 9° = 3.2851238.
    expect(points.slice(0, 2)).toEqual(
      near([
        [21, 0],
        [20.7414552, 3.2851238],
      ]),
    )
  })
})

describe('the section after a bend', () => {
  const at = (points: readonly Point[], wanted: Point) =>
    points.find(([x, y]) => Math.hypot(x - wanted[0], y - wanted[1]) < 1e-6)

  it('that changes nothing is the tube, the bore a wall inside it', () => {
    const { outer, bore } = sectionOutline({ ...box, cornerRadiusMm: 0 })
    expect(Math.abs(areaMm2(outer))).toBeCloseTo(1200, 6)
    // (30 - 6) (40 - 6) = 816.
    expect(Math.abs(areaMm2(bore ?? []))).toBeCloseTo(816, 6)
    // Across first, up second.
    for (const corner of [
      [15, 20],
      [-15, 20],
      [15, -20],
    ] as const)
      expect(at(outer, corner)).toBeDefined()
    expect(sectionOutline({ shape: 'square', widthMm: 30, heightMm: 30 }).bore).toBeNull()
  })

  it('has its four sharp sides set with sixteen points each', () => {
    const { outer } = sectionOutline({ ...box, cornerRadiusMm: 0 })
    expect(outer).toHaveLength(64)
    // The first side runs down from the corner up and to the side: 40 / 16 = 2.5 a step.
    expect(outer.slice(0, 3)).toEqual(
      near([
        [15, 20],
        [15, 17.5],
        [15, 15],
      ]),
    )
    expect(outer.slice(15, 18)).toEqual(
      near([
        [15, -17.5],
        [15, -20],
        [13.125, -20],
      ]),
    )
  })

  it('is as wide half way as the mean of its faces, all down a sharp side', () => {
    const { outer } = sectionOutline({ ...box, cornerRadiusMm: 0 }, { widthOutsideMm: 28, widthInsideMm: 34 })
    // From 14 at the top to 17 at the foot; a quarter of the way down 14.75, half way 15.5.
    for (const [across, up] of [
      [14, 20],
      [14.75, 10],
      [15.5, 0],
      [17, -20],
    ] as const) {
      expect(at(outer, [across, up])).toBeDefined()
      expect(at(outer, [-across, up])).toBeDefined()
    }
    const only = sectionOutline({ ...box, cornerRadiusMm: 0 }, { widthOutsideMm: 28 }).outer
    expect(at(only, [15, -20])).toBeDefined()
    expect(at(only, [14.5, 0])).toBeDefined()
  })

  it('sags at both faces toward the middle, as a parabola, its edges staying', () => {
    const { outer } = sectionOutline({ ...box, cornerRadiusMm: 0 }, { sagMm: 2 })
    // Sag 2 in the middle; half way to the edge 2 (1 - 1/4) = 1.5.
    for (const [across, up] of [
      [0, 18],
      [7.5, 18.5],
      [15, 20],
      [0, -18],
      [-7.5, -18.5],
      [-15, -20],
      // The sides stay as they were.
      [15, 0],
      [-15, 10],
    ] as const)
      expect(at(outer, [across, up])).toBeDefined()
  })

  it('lets the bore sag with its face as far as it is close to it', () => {
    const { bore } = sectionOutline({ ...box, cornerRadiusMm: 0 }, { sagMm: 2 })
    // Bore face at 17 of 20: (0.85 - 0.6) / 0.4 = 0.625 of the sag: 17 - 1.25 = 15.75.
    expect(at(bore ?? [], [0, 15.75])).toBeDefined()
    expect(at(bore ?? [], [0, -15.75])).toBeDefined()
  })

  it('of a round tube 8 percent oval is 4 percent wider and 4 percent lower', () => {
    const { outer, bore } = sectionOutline(pipe, { ovalityPct: 8 })
    for (const wanted of [
      [26, 0],
      [-26, 0],
      [0, 24],
      [0, -24],
    ] as const)
      expect(at(outer, wanted)).toBeDefined()
    // The bore alike: 21 · 1.04 and 21 · 0.96.
    expect(at(bore ?? [], [21.84, 0])).toBeDefined()
    expect(at(bore ?? [], [0, 20.16])).toBeDefined()
  })

  it('has the wall that was measured at the outside and at the inside, and what is not known as it was', () => {
    const faces = (after: Parameters<typeof sectionOutline>[1]) => {
      const ups = (sectionOutline(pipe, after).bore ?? []).map(([, up]) => up)
      return [Math.max(...ups), Math.min(...ups)]
    }
    // Outer face 25: a wall of 3.4 leaves the bore's top at 21.6; inside 4.5 leaves its foot at -20.5.
    expect(faces({ wallOutsideMm: 3.4, wallInsideMm: 4.5 })).toEqual([
      expect.closeTo(21.6, 9),
      expect.closeTo(-20.5, 9),
    ])
    expect(faces({ wallOutsideMm: 3.4 })).toEqual([expect.closeTo(21.6, 9), expect.closeTo(-21, 9)])
    expect(faces({ wallInsideMm: 4.5 })).toEqual([expect.closeTo(21, 9), expect.closeTo(-20.5, 9)])
    // Half way up both count half: 0.6 / 2 up, 0.5 / 2 up.
    const bore = sectionOutline(pipe, { wallOutsideMm: 3.4, wallInsideMm: 4.5 }).bore ?? []
    expect(at(bore, [21, 0.55])).toBeDefined()
  })
})

describe('how far a cut reaches past the centreline', () => {
  const rect = { shape: 'rectangular', widthMm: 30, heightMm: 40 } as const
  const round = { shape: 'round', widthMm: 50, heightMm: 50 } as const
  const reach = (outMm: number, inMm: number, places = 6) => ({
    outMm: expect.closeTo(outMm, places),
    inMm: expect.closeTo(inMm, places),
  })

  it('is nothing for a square cut', () => {
    expect(cutReach(rect, { kind: 'square' })).toEqual({ outMm: 0, inMm: 0 })
    expect(endOffsetMm(undefined, [20, 15])).toBe(0)
  })

  it('is half the height or half the width at 45 degrees, by the way the mitre leans', () => {
    expect(cutReach(rect, { kind: 'mitre', angleDeg: 45 })).toEqual(reach(20, 20))
    expect(cutReach(rect, { kind: 'mitre', angleDeg: -45 })).toEqual(reach(20, 20))
    expect(cutReach(rect, { kind: 'mitre', angleDeg: 45, rotationDeg: 90 })).toEqual(reach(15, 15))
    expect(cutReach(round, { kind: 'mitre', angleDeg: 45, rotationDeg: 37 })).toEqual(reach(25, 25, 1))
  })

  it('is to a corner where the mitre leans to it: every corner in its turn', () => {
    // The corner lies atan(15 / 20) = 36.8698976 degrees round, 25 from the middle.
    for (const rotationDeg of [36.8698976, -36.8698976, 143.1301024, 216.8698976])
      expect(cutReach(rect, { kind: 'mitre', angleDeg: 45, rotationDeg })).toEqual(reach(25, 25))
  })

  it('of a square-on saddle is at the sides across the other tube', () => {
    // R 50, 15 to the side: 50 - sqrt(2500 - 225) = 2.3030399; turned 90 degrees 20: 50 - sqrt(2100) = 4.1742430.
    expect(cutReach(rect, { kind: 'saddle', onDiameterMm: 100 })).toEqual(reach(2.3030399, 0))
    expect(cutReach(rect, { kind: 'saddle', onDiameterMm: 100, rotationDeg: 90 })).toEqual(reach(4.174243, 0))
    // Two equal round tubes: a whole radius.
    expect(cutReach(round, { kind: 'saddle', onDiameterMm: 50 })).toEqual(reach(25, 0))
  })

  it('of a leaning saddle is as the cylinder lies: p cos A less its depth, over sin A', () => {
    // R 50, A 60: at (up 20, side 15): (10 - sqrt(2275) + 50) / 0.8660254 = 14.2063; at (-20, 0): -10 / 0.8660254 = -11.5470.
    expect(endOffsetMm({ kind: 'saddle', onDiameterMm: 100, angleDeg: 60 }, [20, 15])).toBeCloseTo(14.2063, 4)
    expect(cutReach(rect, { kind: 'saddle', onDiameterMm: 100, angleDeg: 60 })).toEqual(
      reach(14.2063, 11.547, 4),
    )
    // Turned 90 degrees: (7.5 - sqrt(2100) + 50) / 0.8660254 at a corner, -7.5 / 0.8660254 in the middle of the side across.
    expect(cutReach(rect, { kind: 'saddle', onDiameterMm: 100, angleDeg: 60, rotationDeg: 90 })).toEqual(
      reach(13.48025, 8.66025, 4),
    )
  })

  it('of a saddle wider than the other tube keeps to that tube’s edge', () => {
    // R 10 at 20 to the side: no depth left, so R over sin 90.
    expect(endOffsetMm({ kind: 'saddle', onDiameterMm: 20 }, [0, 20])).toBe(10)
    expect(endOffsetMm({ kind: 'saddle', onDiameterMm: 20 }, [0, 10])).toBe(10)
  })

  it('of a saddle turned 30 degrees counts what lies across the turned tube', () => {
    // (up 10, side 10): q = -10 sin 30 + 10 cos 30 = 3.6602540; 25 - sqrt(625 - 13.3974596) = 0.2694000.
    expect(endOffsetMm({ kind: 'saddle', onDiameterMm: 50, rotationDeg: 30 }, [10, 10])).toBeCloseTo(
      0.2694,
      4,
    )
    // p = 10 cos 30 + 10 sin 30 = 13.6602540; at 60 degrees: (6.8301270 + 0.2694000) / 0.8660254 = 8.1978276.
    expect(
      endOffsetMm({ kind: 'saddle', onDiameterMm: 50, angleDeg: 60, rotationDeg: 30 }, [10, 10]),
    ).toBeCloseTo(8.1978, 3)
  })
})
