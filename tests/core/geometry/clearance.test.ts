import fc from 'fast-check'
import { Matrix } from 'ml-matrix'
import { describe, expect, it } from 'vitest'
import { intersectionPoints, type PartBend, type Point } from '@/lib/core/geometry/centreline'
import { edgeDistanceMm, selfContact, selfDistanceMm } from '@/lib/core/geometry/clearance'
import { inFrame, tubePath } from '@/lib/core/geometry/tube-path'

const made = (bends: readonly PartBend[]) => bends.map((bend) => ({ ...bend, bentDeg: bend.angleDeg }))
const bend = (straightBeforeMm: number, angleDeg: number, rotationDeg = 0): PartBend => ({
  straightBeforeMm,
  angleDeg,
  centrelineRadiusMm: 100,
  rotationDeg,
})

describe('the shortest distance between two straight stretches', () => {
  it('is the common perpendicular of crossed ones', () => {
    // Along x at z = 0 and along y at z = 3, crossing in plan: 3.
    expect(
      edgeDistanceMm(
        [
          [-1, 0, 0],
          [1, 0, 0],
        ],
        [
          [0, -1, 3],
          [0, 1, 3],
        ],
      ),
    ).toBeCloseTo(3, 12)
  })
  it('is between the near ends of two in one line', () => {
    expect(
      edgeDistanceMm(
        [
          [0, 0, 0],
          [1, 0, 0],
        ],
        [
          [4, 4, 0],
          [9, 4, 0],
        ],
      ),
    ).toBeCloseTo(5, 12)
  })
  it('finds the foot of the perpendicular anywhere in space', () => {
    // Along (1, 2, 2) from the origin, and along (2, -2, 1) through the first one's point at 4 and 5 off it
    // along (2, 1, -2), which is square to both; all three of length 3.
    const at = (start: readonly number[], along: readonly number[], length: number): Point => [
      (start[0] ?? 0) + ((along[0] ?? 0) * length) / 3,
      (start[1] ?? 0) + ((along[1] ?? 0) * length) / 3,
      (start[2] ?? 0) + ((along[2] ?? 0) * length) / 3,
    ]
    const foot = at([0, 0, 0], [1, 2, 2], 4)
    const beside = at(foot, [2, 1, -2], 5)
    const first: [Point, Point] = [[0, 0, 0], at([0, 0, 0], [1, 2, 2], 9)]
    const across: [Point, Point] = [at(beside, [2, -2, 1], -6), at(beside, [2, -2, 1], 3)]
    expect(edgeDistanceMm(first, across)).toBeCloseTo(5, 9)
    expect(edgeDistanceMm(across, first)).toBeCloseTo(5, 9)
    // Parallel and 7 apart, one beginning 3 past the other's end along it.
    const beyond: [Point, Point] = [
      at(at([0, 0, 0], [1, 2, 2], 12), [2, 1, -2], 4),
      at(at([0, 0, 0], [1, 2, 2], 20), [2, 1, -2], 4),
    ]
    expect(edgeDistanceMm(first, beyond)).toBeCloseTo(5, 9)
  })
  it('is no more than between any two of their points', () => {
    const point = fc.tuple(
      fc.double({ min: -9, max: 9, noNaN: true }),
      fc.double({ min: -9, max: 9, noNaN: true }),
      fc.double({ min: -9, max: 9, noNaN: true }),
    )
    fc.assert(
      fc.property(
        point,
        point,
        point,
        point,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (a, b, c, d, s, t) => {
          const on = (p: Point, q: Point, share: number) =>
            p.map((value, axis) => value + ((q[axis] ?? 0) - value) * share)
          const [p, q] = [on(a, b, s), on(c, d, t)]
          const apart = Math.hypot(...p.map((value, axis) => value - (q[axis] ?? 0)))
          expect(edgeDistanceMm([a, b], [c, d])).toBeLessThanOrEqual(apart + 1e-9)
        },
      ),
    )
  })
})

describe('the path of a part', () => {
  it('ends where independent 4 x 4 matrices end', () => {
    const bends = [
      bend(179.289322, 45),
      bend(162.553843, 60, 54.73561),
      bend(150.228862, 66.906531, 119.496208),
    ]
    const move = (x: number) =>
      new Matrix([
        [1, 0, 0, x],
        [0, 1, 0, 0],
        [0, 0, 1, 0],
        [0, 0, 0, 1],
      ])
    const about = (axis: 'x' | 'z', angleDeg: number) => {
      const [c, s] = [Math.cos((angleDeg * Math.PI) / 180), Math.sin((angleDeg * Math.PI) / 180)]
      const rows =
        axis === 'x'
          ? [
              [1, 0, 0, 0],
              [0, c, -s, 0],
              [0, s, c, 0],
              [0, 0, 0, 1],
            ]
          : [
              [c, -s, 0, 0],
              [s, c, 0, 0],
              [0, 0, 1, 0],
              [0, 0, 0, 1],
            ]
      return new Matrix(rows)
    }
    let pose = Matrix.eye(4)
    for (const { straightBeforeMm, angleDeg, centrelineRadiusMm, rotationDeg } of bends) {
      const half = centrelineRadiusMm * Math.tan((angleDeg * Math.PI) / 360)
      pose = pose.mmul(move(straightBeforeMm)).mmul(about('x', rotationDeg))
      pose = pose.mmul(move(half)).mmul(about('z', angleDeg)).mmul(move(half))
    }
    const end = pose.mmul(move(147.241905))
    const last = tubePath(made(bends), 147.241905).edges.at(-1)?.to ?? [0, 0, 0]
    for (const axis of [0, 1, 2]) expect(last[axis]).toBeCloseTo(end.get(axis, 3), 6)
    const drawn = intersectionPoints(bends, 147.241905).at(-1) ?? [0, 0, 0]
    for (const axis of [0, 1, 2]) expect(drawn[axis]).toBeCloseTo(end.get(axis, 3), 6)
  })
  it('is straight and as long as the part before any bend is made', () => {
    const bends = [bend(200, 90), bend(100, 40, 70)].map((one) => ({ ...one, bentDeg: 0 }))
    // 200 + 100 pi/2 + 100 + 100 · 40 pi/180 + 50
    expect(tubePath(bends, 50).edges.at(-1)?.to[0]).toBeCloseTo(350 + 50 * Math.PI + (400 * Math.PI) / 18, 9)
  })
  it('sees the arc of a bend from its middle as a mirror image', () => {
    const path = tubePath(made([bend(300, 80)]), 300)
    const [middle] = path.bendMiddles
    if (!middle) throw new Error('no middle')
    const start = inFrame(middle, [0, 0, 0])
    const end = inFrame(middle, path.edges.at(-1)?.to ?? [0, 0, 0])
    expect(start[0]).toBeCloseTo(-end[0], 9)
    expect(start[1]).toBeCloseTo(end[1], 9)
    expect(start[1]).toBeGreaterThan(0)
  })
})

describe('a part against itself', () => {
  it('is clear with less than half a turn in all', () => {
    expect(selfDistanceMm(tubePath(made([bend(10, 80), bend(0, 90)]), 500))).toBeNull()
  })
  it('keeps the legs of a U at the straight and two radii', () => {
    // Two bends of 90 degrees at 100 mm with 30 between: 2 · 100 + 30.
    expect(selfDistanceMm(tubePath(made([bend(400, 90), bend(30, 90)]), 400))).toBeCloseTo(230, 6)
  })
  it('touches where a flat loop crosses itself', () => {
    const loop = tubePath(made([bend(400, 120), bend(60, 120)]), 900)
    expect(selfContact(loop, { widthMm: 40, heightMm: 40 }).verdict).toBe('touches')
  })
  it('is measured at its nearest places however it is turned in space', () => {
    // Every two stretches with half a turn between them, none passed over: what the quick way must find.
    const nearest = (path: ReturnType<typeof tubePath>) => {
      const middleTurn = (edge: (typeof path.edges)[number]) => edge.turnedRad + edge.turnsRad / 2
      const apart = path.edges.flatMap((edge, index) =>
        path.edges
          .slice(index + 2)
          .filter((other) => middleTurn(other) - middleTurn(edge) >= Math.PI * (1 - 1e-9))
          .map((other) => edgeDistanceMm([edge.from, edge.to], [other.from, other.to])),
      )
      return apart.length > 0 ? Math.min(...apart) : null
    }
    const turned = fc.record({
      straightBeforeMm: fc.integer({ min: 0, max: 300 }),
      angleDeg: fc.integer({ min: 40, max: 150 }),
      rotationDeg: fc.integer({ min: -180, max: 180 }),
    })
    fc.assert(
      fc.property(fc.array(turned, { minLength: 2, maxLength: 5 }), (bends) => {
        const path = tubePath(made(bends.map((one) => ({ ...one, centrelineRadiusMm: 100 }))), 250)
        expect(selfDistanceMm(path)).toBe(nearest(path))
      }),
      { numRuns: 300 },
    )
  })
  it('may touch where only the wider side of a rectangular tube reaches', () => {
    const path = tubePath(made([bend(400, 90), bend(0, 90)]), 400)
    expect(selfContact(path, { widthMm: 210, heightMm: 40 })).toEqual({
      verdict: 'may touch',
      clearanceMm: expect.closeTo(-10, 6),
    })
  })
})
