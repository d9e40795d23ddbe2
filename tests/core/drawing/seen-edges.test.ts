import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { DrawnPart } from '@/lib/core/drawing/part'
import { convexHull, project, seeTube, type ViewName, views } from '@/lib/core/drawing/projection'
import { tubeMesh } from '@/lib/core/drawing/tube-mesh'

type Point = readonly [number, number]
const near = (at: readonly number[]) => at.map((mm) => expect.closeTo(mm, 6))
const see = (part: DrawnPart, name: ViewName) => seeTube(tubeMesh(part), views[name])
const box: DrawnPart = {
  tube: { shape: 'rectangular', widthMm: 30, heightMm: 40 },
  bends: [],
  straightAfterMm: 100,
}
const walled: DrawnPart = { ...box, tube: { ...box.tube, wallMm: 3 } }
/** 200 along x, a quarter of R 100 up toward y, 150 on. */
const elbow: DrawnPart = {
  ...box,
  bends: [{ straightBeforeMm: 200, angleDeg: 90, centrelineRadiusMm: 100, rotationDeg: 0 }],
  straightAfterMm: 150,
}
const linesOf = (part: DrawnPart, name: ViewName) => see(part, name).flatMap(({ lines }) => lines)
/** A line without its direction, to compare by. */
const ends = (line: readonly Point[]) => {
  const places = [line[0], line.at(-1)].map((at) => at?.map((mm) => Math.round(mm * 1e4) / 1e4 + 0).join(' '))
  return places.sort().join(' to ')
}

describe('the four views', () => {
  it.each([
    // Third angle: from the side x right, y up; from above x right, z toward the foot; from the far end z to the left, y up.
    ['elevation', [1, 2]],
    ['plan', [1, -3]],
    ['end', [-3, 2]],
  ] as const)('%s shows (1, 2, 3) at %s', (name, wanted) => {
    expect(project(views[name], [1, 2, 3])).toEqual(near(wanted))
  })
  it('isometric looks from the start, above and before: y upright on the sheet', () => {
    const [right, up] = project(views.isometric, [0, 1, 0])
    expect(right).toBeCloseTo(0, 9)
    // The way to the viewer is (-0.62, 0.62, 1) / 1.3299: y keeps sqrt(1 - 0.4662²) = 0.8847 of its length.
    expect(up).toBeCloseTo(0.8847, 4)
    expect(project(views.isometric, [1, 0, 0])[0]).toBeGreaterThan(0)
    expect(project(views.isometric, [-0.62, 0.62, 1])).toEqual(near([0, 0]))
  })
})

describe('the edges seen of a box', () => {
  it('are its four outlines from the side, from above and from its end', () => {
    expect(linesOf(box, 'elevation').map(ends).sort()).toEqual(
      ['0 -20 to 0 20', '0 -20 to 100 -20', '0 20 to 100 20', '100 -20 to 100 20'].sort(),
    )
    expect(linesOf(box, 'plan').map(ends).sort()).toEqual(
      ['0 -15 to 0 15', '0 -15 to 100 -15', '0 15 to 100 15', '100 -15 to 100 15'].sort(),
    )
    expect(linesOf(box, 'end').map(ends).sort()).toEqual(
      ['-15 -20 to -15 20', '-15 -20 to 15 -20', '-15 20 to 15 20', '15 -20 to 15 20'].sort(),
    )
  })

  it('are nine from a corner: twelve less the three behind', () => {
    expect(linesOf(box, 'isometric')).toHaveLength(9)
    // Behind and below at the far end: none of the seen ones runs there.
    const hidden = project(views.isometric, [100, -20, -15])
    for (const at of linesOf(box, 'isometric').flat())
      expect(Math.hypot(at[0] - hidden[0], at[1] - hidden[1])).toBeGreaterThan(1)
  })

  it('show the bore only at an end that looks this way, as a closed line', () => {
    const bores = (name: ViewName) => linesOf(walled, name).filter((line) => line.length > 2)
    expect(bores('elevation')).toEqual([])
    expect(bores('plan')).toEqual([])
    for (const name of ['end', 'isometric'] as const) {
      const [rim] = bores(name)
      expect(bores(name)).toHaveLength(1)
      expect(rim).toHaveLength(5)
      expect(rim?.[0]).toEqual(rim?.[4])
    }
    // From the far end it is the bore there: 24 by 34.
    const xs = bores('end').flat()
    expect(Math.max(...xs.map(([x]) => x))).toBeCloseTo(12, 9)
    expect(Math.max(...xs.map(([, y]) => y))).toBeCloseTo(17, 9)
    // From a corner it is the start's: its middle is the part's origin.
    const rim = bores('isometric').flatMap((line) => line.slice(0, 4))
    expect(rim.reduce((sum, [x]) => sum + x, 0) / 4).toBeCloseTo(0, 9)
  })

  it('of a round tube from the side are two, a diameter apart, and its ends', () => {
    const round: DrawnPart = { ...box, tube: { shape: 'round', widthMm: 50, heightMm: 50 } }
    const long = linesOf(round, 'elevation').filter(
      (line) => Math.abs((line[0]?.[0] ?? 0) - (line.at(-1)?.[0] ?? 0)) > 50,
    )
    expect(long.map(ends).sort()).toEqual(['0 -25 to 100 -25', '0 25 to 100 25'])
  })
})

describe('the edges seen of an elbow', () => {
  it('from the side follow both faces through the bend: radii 80 and 120 about its centre', () => {
    const arcs = see(elbow, 'elevation').find(({ piece }) => piece === 1)?.lines ?? []
    const radii = arcs.map((line) => line.map(([x, y]) => Math.hypot(x - 200, y - 100)))
    expect(radii.map((all) => Math.round(all[0] ?? 0)).sort((a, b) => a - b)).toEqual([80, 120])
    // Steps of 5 degrees: 18, and 19 places each.
    for (const all of radii) {
      expect(all).toHaveLength(19)
      for (const mm of all) expect(mm).toBeCloseTo(all[0] ?? 0, 6)
    }
  })

  it('have a scribed line on each face seen where the bend begins and ends', () => {
    const scribed = (name: ViewName) => see(elbow, name).flatMap(({ tangentLines }) => tangentLines)
    expect(scribed('elevation').map(ends).sort()).toEqual(['200 -20 to 200 20', '280 100 to 320 100'])
    // From above the upper face is seen up to the bend's end, where it turns away: an edge, no scribed line.
    expect(scribed('plan').map(ends)).toEqual(['200 -15 to 200 15'])
    expect(linesOf(elbow, 'plan').map(ends)).toContain('280 -15 to 280 15')
    expect(see({ ...elbow, bends: [] }, 'elevation').flatMap(({ tangentLines }) => tangentLines)).toEqual([])
  })

  it('from above end in the open end: all four of its sides', () => {
    const last = see(elbow, 'plan').find(({ piece }) => piece === 2)
    const rim = ['280 -15 to 280 15', '280 -15 to 320 -15', '280 15 to 320 15', '320 -15 to 320 15']
    expect(last?.lines.map(ends)).toEqual(expect.arrayContaining(rim))
  })

  it('come with the depth of each piece’s middle, the farthest first', () => {
    // From above: 0, half way through the arc 100 - 100 sqrt(1/2) = 29.2893, and 100 + 75.
    expect(see(elbow, 'plan').map(({ piece, depthMm }) => [piece, depthMm])).toEqual([
      [0, expect.closeTo(0, 9)],
      [1, expect.closeTo(29.2893, 4)],
      [2, expect.closeTo(175, 9)],
    ])
    const below: DrawnPart = { ...elbow, bends: elbow.bends.map((bend) => ({ ...bend, rotationDeg: 180 })) }
    expect(see(below, 'plan').map(({ piece }) => piece)).toEqual([2, 1, 0])
    // From the far end: 100 along, 200 + 70.7107, 300.
    expect(see(elbow, 'end').map(({ depthMm }) => depthMm)).toEqual(near([100, 270.71067812, 300]))
  })

  it('come with the centreline: both ends of a straight, a step of 5 degrees in a bend', () => {
    const [first, arc, last] = see(elbow, 'elevation').map(({ centreline }) => centreline)
    expect(first).toEqual([near([0, 0]), near([200, 0])])
    expect(arc).toHaveLength(19)
    // 30 degrees on: 100 sin 30, 100 (1 - cos 30).
    expect(arc?.[6]).toEqual(near([250, 13.39745962]))
    expect(last).toEqual([near([300, 100]), near([300, 250])])
  })

  it('cover the tube and no more: the straights’ rectangles and the bend’s ring sector', () => {
    const coversOf = (piece: number) =>
      see(elbow, 'elevation').find((one) => one.piece === piece)?.covers ?? []
    const area = (points: readonly Point[]) =>
      Math.abs(
        points.reduce((sum, [x, y], index) => {
          const [nextX, nextY] = points[(index + 1) % points.length] ?? [x, y]
          return sum + (x * nextY - nextX * y) / 2
        }, 0),
      )
    const sum = (piece: number) => coversOf(piece).reduce((total, points) => total + area(points), 0)
    expect(sum(0)).toBeCloseTo(200 * 40, 6)
    expect(sum(2)).toBeCloseTo(150 * 40, 6)
    // Eighteen slices of 5 degrees with straight sides: (120² - 80²) / 2 · sin 5° each.
    expect(sum(1)).toBeCloseTo(18 * 4000 * 0.0871557427, 4)
    expect(coversOf(1)).toHaveLength(18)
  })
})

describe('the tube’s rings', () => {
  it('stand at both ends of straights and every 5 degrees of a bend, two steps at the least', () => {
    expect(tubeMesh(elbow).pieceOfStrip).toEqual([0, ...Array(18).fill(1), 2])
    const steps = (angleDeg: number) =>
      tubeMesh({ ...elbow, bends: elbow.bends.map((bend) => ({ ...bend, angleDeg })) }).pieceOfStrip.length -
      2
    expect([1, 10, 10.1, 43].map(steps)).toEqual([2, 2, 3, 9])
    const none = {
      ...elbow,
      straightAfterMm: 0,
      bends: elbow.bends.map((bend) => ({ ...bend, straightBeforeMm: 0 })),
    }
    expect(tubeMesh(none).pieceOfStrip).toEqual(Array(18).fill(1))
  })

  it('are cut at the ends as the cut has it, bore and all, and square between', () => {
    const mitre = { kind: 'mitre', angleDeg: 45 } as const
    const mesh = tubeMesh({ ...walled, startCut: mitre, endCut: mitre })
    // Up, the long side: 20 out at either end, 17 at the bore.
    expect(mesh.rings[0]).toEqual([
      near([-20, 20, 15]),
      near([20, -20, 15]),
      near([20, -20, -15]),
      near([-20, 20, -15]),
    ])
    expect(mesh.rings[1]).toEqual([
      near([120, 20, 15]),
      near([80, -20, 15]),
      near([80, -20, -15]),
      near([120, 20, -15]),
    ])
    expect(mesh.bore?.[0][0]).toEqual(near([-17, 17, 12]))
    expect(mesh.bore?.[1][1]).toEqual(near([83, -17, 12]))
    const middle = tubeMesh({ ...elbow, startCut: mitre, endCut: mitre }).rings[1]
    for (const at of middle ?? []) expect(at[0]).toBeCloseTo(200, 9)
    expect(tubeMesh(box).bore).toBeNull()
    expect(mesh.corner).toEqual([true, true, true, true])
  })
})

describe('the outline round points', () => {
  const square: Point[] = [
    [0, 0],
    [4, 0],
    [4, 4],
    [0, 4],
  ]
  it('runs counter-clockwise over the corners alone', () => {
    const points: Point[] = [
      [2, 0],
      [4, 4],
      [2, 2],
      [0, 4],
      [4, 0],
      [0, 2],
      [0, 0],
      [4, 1],
      [1, 4],
      [4, 4],
    ]
    expect(convexHull(points)).toEqual(square)
  })
  it('of points in line goes from the first to the last', () => {
    expect(
      convexHull([
        [1, 1],
        [3, 3],
        [0, 0],
        [2, 2],
      ]),
    ).toEqual([
      [0, 0],
      [3, 3],
    ])
    expect(
      convexHull([
        [5, 2],
        [5, -1],
        [5, 0],
      ]),
    ).toEqual([
      [5, -1],
      [5, 2],
    ])
  })
  it('leaves what it was given as it was', () => {
    const points: Point[] = [
      [3, 0],
      [1, 1],
      [0, 0],
    ]
    convexHull(points)
    expect(points).toEqual([
      [3, 0],
      [1, 1],
      [0, 0],
    ])
  })
  it('holds every point and turns left at every corner', () => {
    const coordinate = fc.integer({ min: -20, max: 20 })
    fc.assert(
      fc.property(fc.array(fc.tuple(coordinate, coordinate), { minLength: 3, maxLength: 12 }), (points) => {
        const hull = convexHull(points)
        const side = (a: Point, b: Point, c: Point) =>
          (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
        if (hull.length < 3) return
        for (const [index, from] of hull.entries()) {
          const to = hull[(index + 1) % hull.length] ?? from
          const next = hull[(index + 2) % hull.length] ?? from
          expect(side(from, to, next)).toBeGreaterThan(0)
          for (const at of points) expect(side(from, to, at)).toBeGreaterThanOrEqual(0)
        }
      }),
      { numRuns: 60 },
    )
  })
})
