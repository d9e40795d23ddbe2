import { describe, expect, it } from 'vitest'
import { centrelinePath, partDxf } from '@/lib/core/templates/part-dxf'
import { type Entity, numberOf, pointOf, readGroups, readSection, wordOf } from '@/tests/support/read-dxf'

type Spatial = readonly [number, number, number]
const near = (values: readonly number[], places = 5) => values.map((value) => expect.closeTo(value, places))

/** Where an arc of a drawing exchange file is at an angle, by the arbitrary axis rule of the DXF Reference, written out anew. */
function onArc(arc: Entity | undefined, angleDeg: number): number[] {
  const [nx = 0, ny = 0, nz = 0] = pointOf(arc, 210)
  const [cx = 0, cy = 0, cz = 0] = pointOf(arc, 10)
  const isNearZ = Math.abs(nx) < 1 / 64 && Math.abs(ny) < 1 / 64
  // World y or world z crossed with the normal.
  const raw = isNearZ ? [nz, 0, -nx] : [-ny, nx, 0]
  const long = Math.hypot(...raw)
  const [ax = 0, ay = 0, az = 0] = raw.map((value) => value / long)
  const [bx, by, bz] = [ny * az - nz * ay, nz * ax - nx * az, nx * ay - ny * ax]
  const turnRad = (angleDeg * Math.PI) / 180
  const u = cx + numberOf(arc, 40) * Math.cos(turnRad)
  const v = cy + numberOf(arc, 40) * Math.sin(turnRad)
  return [ax * u + bx * v + nx * cz, ay * u + by * v + ny * cz, az * u + bz * v + nz * cz]
}
const sweepDeg = (arc: Entity | undefined) => (numberOf(arc, 51) - numberOf(arc, 50) + 360) % 360
const entities = (part: Parameters<typeof partDxf>[0]) => readSection(partDxf(part), 'ENTITIES')

describe('an arc in space read back by its own axes', () => {
  // Each leaves the corner at (100, 0, 0) along `way`; R tan(a / 2) is cut off each leg.
  it.each([
    { why: 'to the left in the plane', way: [0, 1, 0], normal: [0, 0, 1], turnDeg: 90 },
    { why: 'to the right in the plane', way: [0, -1, 0], normal: [0, 0, -1], turnDeg: 90 },
    { why: 'up', way: [0, 0, 1], normal: [0, -1, 0], turnDeg: 90 },
    { why: 'down', way: [0, 0, -1], normal: [0, 1, 0], turnDeg: 90 },
    {
      why: 'half left, half up',
      way: [0, Math.SQRT1_2, Math.SQRT1_2],
      normal: [0, -Math.SQRT1_2, Math.SQRT1_2],
      turnDeg: 90,
    },
    { why: 'back to the left by 120', way: [-0.5, Math.sqrt(0.75), 0], normal: [0, 0, 1], turnDeg: 120 },
    { why: 'to the left by 30', way: [Math.sqrt(0.75), 0.5, 0], normal: [0, 0, 1], turnDeg: 30 },
    // The rule changes its axis where the normal is within 1/64 of world z: sin 0.8 = 0.01396 is inside, sin 1 = 0.01745 outside.
    {
      why: 'left, leaning 0.8 degrees',
      way: [0, Math.cos(0.8 / 57.29578), Math.sin(0.8 / 57.29578)],
      normal: [0, -0.0139622, 0.9999025],
      turnDeg: 90,
    },
    {
      why: 'left, leaning 1 degree',
      way: [0, Math.cos(1 / 57.29578), Math.sin(1 / 57.29578)],
      normal: [0, -0.0174524, 0.9998477],
      turnDeg: 90,
    },
  ])('turns $why', ({ way, normal, turnDeg }) => {
    const corner = [100, 0, 0] as const
    const end = way.map((part, axis) => (corner[axis] ?? 0) + 200 * part) as unknown as Spatial
    const [arc] = entities({ title: 'P', points: [[0, 0, 0], corner, end], centrelineRadiiMm: [20] }).filter(
      ({ type }) => type === 'ARC',
    )
    const cutMm = 20 * Math.tan((turnDeg * Math.PI) / 360)
    expect([wordOf(arc, 8), numberOf(arc, 40)]).toEqual(['CENTRELINE', 20])
    expect(pointOf(arc, 210)).toEqual(near(normal))
    expect(onArc(arc, numberOf(arc, 50))).toEqual(near([100 - cutMm, 0, 0], 4))
    expect(onArc(arc, numberOf(arc, 51))).toEqual(
      near(
        corner.map((at, axis) => at + cutMm * (way[axis] ?? 0)),
        4,
      ),
    )
    expect(sweepDeg(arc)).toBeCloseTo(turnDeg, 4)
    for (const code of [50, 51]) {
      expect(numberOf(arc, code)).toBeGreaterThanOrEqual(0)
      expect(numberOf(arc, code)).toBeLessThan(360)
    }
  })

  it.each([
    { x: 1 / 64 + 1e-4, y: 0 },
    { x: 0, y: 1 / 64 + 1e-4 },
    { x: 1 / 64 - 1e-4, y: 1 / 64 - 1e-4 },
  ])('keeps its ends for a normal that leans by $x and $y', ({ x, y }) => {
    // Two legs square to the normal (x, y, 1) and to each other: (1, 0, -x) and the normal crossed with it, (-x y, 1 + x², -y).
    const [first, second] = [
      [1, 0, -x],
      [-x * y, 1 + x * x, -y],
    ] as const
    const corner: Spatial = [150 * first[0], 150 * first[1], 150 * first[2]]
    const end = corner.map((at, axis) => at + 150 * (second[axis] ?? 0)) as unknown as Spatial
    const [arc] = entities({ title: 'P', points: [[0, 0, 0], corner, end], centrelineRadiiMm: [30] }).filter(
      ({ type }) => type === 'ARC',
    )
    const long = Math.hypot(...first)
    expect(onArc(arc, numberOf(arc, 50))).toEqual(
      near(
        corner.map((at, axis) => at - (30 * (first[axis] ?? 0)) / long),
        4,
      ),
    )
    expect(sweepDeg(arc)).toBeCloseTo(90, 4)
  })
})

describe('the path of a centreline', () => {
  it('is an arc between the tangent points, its centre a radius off both legs on the inner side', () => {
    const { straights, arcs } = centrelinePath({
      points: [
        [0, 0, 0],
        [100, 0, 0],
        [100, 80, 0],
      ],
      centrelineRadiiMm: [30],
    })
    expect(arcs).toEqual([
      {
        startPoint: near([70, 0, 0]),
        endPoint: near([100, 30, 0]),
        centre: near([70, 30, 0]),
        normal: near([0, 0, 1]),
        radiusMm: 30,
      },
    ])
    expect(straights).toEqual([
      [near([0, 0, 0]), near([70, 0, 0])],
      [near([100, 30, 0]), near([100, 80, 0])],
    ])
  })

  it('may use a leg up to its last hair: 50 and 50 of a 100 mm leg, not 51 and 50', () => {
    const points = [
      [0, 0, 0],
      [200, 0, 0],
      [200, 100, 0],
      [400, 100, 0],
    ] as const
    expect(() => centrelinePath({ points, centrelineRadiiMm: [50, 50] })).not.toThrow()
    expect(() => centrelinePath({ points, centrelineRadiiMm: [50, 51] })).toThrow(
      /before bend 2 is too short/,
    )
  })

  it('has one radius for each point between two ends', () => {
    const two = [
      [0, 0, 0],
      [10, 0, 0],
    ] as const
    expect(centrelinePath({ points: two, centrelineRadiiMm: [] }).straights).toEqual([two])
    for (const [points, centrelineRadiiMm] of [
      [two, [5]],
      [two.slice(0, 1), []],
      [[...two, [10, 10, 0] as const], []],
    ] as const)
      expect(() => centrelinePath({ points, centrelineRadiiMm })).toThrow(/one radius for each/)
  })

  it('needs a turn at each of them, and not right back', () => {
    const through = (end: Spatial) => () =>
      centrelinePath({ points: [[0, 0, 0], [100, 0, 0], end], centrelineRadiiMm: [5] })
    expect(through([200, 0, 0])).toThrow(/bend 1 does not turn/)
    expect(through([50, 0, 0])).toThrow(/turns right back/)
    expect(through([100, 0, 0])).toThrow(/lie on each other/)
  })
})

describe('the whole file of a part', () => {
  const part = {
    title: 'TW-117',
    points: [
      [10, -5, 3],
      [210, -5, 3],
      [210, 195, 3],
      [210, 195, -147],
    ] as const,
    centrelineRadiiMm: [40, 40],
  }
  const marks = [
    { atMm: 0, kind: 'datum', label: 'datum end' },
    { atMm: 160.5, kind: 'tangent', label: 'bend 1 begins' },
  ] as const
  const extents = (file: string) => {
    const groups = readGroups(file)
    return ['$EXTMIN', '$EXTMAX'].map((name) => {
      const at = groups.findIndex(({ value }) => value === name)
      return groups.slice(at + 1, at + 4).map(({ value }) => Number(value))
    })
  }
  const textsOf = (all: readonly Entity[]) =>
    all
      .filter(({ type }) => type === 'TEXT')
      .map((one) => [wordOf(one, 1), ...pointOf(one, 10).slice(0, 2), numberOf(one, 40), numberOf(one, 50)])

  it('joins the intersection points in space', () => {
    const all = entities(part)
    const corners = all.filter((one) => one.type === 'VERTEX')
    expect(corners.map((one) => pointOf(one, 10))).toEqual(part.points)
    expect(corners.map((one) => [wordOf(one, 8), wordOf(one, 70)])).toEqual(
      Array(4).fill(['INTERSECTIONS', '32']),
    )
  })

  it('leaves out a straight of no length between two bends', () => {
    const lines = (radiusMm: number) =>
      entities({ ...part, centrelineRadiiMm: [radiusMm, 200 - radiusMm - 60] }).filter(
        (one) => one.type === 'LINE' && wordOf(one, 8) === 'CENTRELINE',
      )
    expect(lines(40)).toHaveLength(3)
    const touching = {
      ...part,
      points: [[-200, -5, 3], ...part.points.slice(1)] as unknown as readonly Spatial[],
    }
    const all = entities({ ...touching, centrelineRadiiMm: [100, 100] })
    expect(all.filter((one) => one.type === 'LINE' && wordOf(one, 8) === 'CENTRELINE')).toHaveLength(2)
    expect(all.filter((one) => one.type === 'ARC')).toHaveLength(2)
  })

  it('names part and unit under the lowest point, from the left one, and reaches down to there', () => {
    expect(textsOf(entities(part))).toEqual([
      ['TW-117', 10, -35, 8, 0],
      ['Units: millimetres. Centreline at its finished shape.', 10, -50, 5, 0],
    ])
    expect(extents(partDxf(part))).toEqual([
      [10, -50, -147],
      [210, 195, 3],
    ])
  })

  it('lays the blank 120 mm under the lowest point, each mark a line 6 mm to both sides with its words', () => {
    const all = entities({ ...part, blank: { lengthMm: 520.25, marks } })
    const lines = all.filter((one) => one.type === 'LINE' && wordOf(one, 8) === 'BLANK')
    expect(lines.map((one) => [pointOf(one, 10), pointOf(one, 11)])).toEqual([
      [
        [10, -125, 0],
        [530.25, -125, 0],
      ],
      [
        [10, -131, 0],
        [10, -119, 0],
      ],
      [
        [170.5, -131, 0],
        [170.5, -119, 0],
      ],
    ])
    expect(textsOf(all).slice(2)).toEqual([
      ['0 datum end', 11.5, -116, 3.5, 90],
      ['160.5 bend 1 begins', 172, -116, 3.5, 90],
      ['Straight blank 520.25 mm, marks from the left (datum) end', 10, -139, 5, 0],
    ])
  })

  it('reaches as far right and down as the blank does', () => {
    expect(extents(partDxf({ ...part, blank: { lengthMm: 520.25, marks } }))).toEqual([
      [10, -139, -147],
      [530.25, 195, 3],
    ])
    expect(extents(partDxf({ ...part, blank: { lengthMm: 50, marks: [] } }))[1]).toEqual([210, 195, 3])
  })

  it('lists the layers it draws on', () => {
    const file = partDxf({ ...part, blank: { lengthMm: 520, marks } })
    const layers = readSection(file, 'TABLES').filter(({ type }) => type === 'LAYER')
    expect(layers.map((one) => wordOf(one, 2)).sort()).toEqual(
      [...new Set(readSection(file, 'ENTITIES').map((one) => wordOf(one, 8)))].sort(),
    )
  })
})
