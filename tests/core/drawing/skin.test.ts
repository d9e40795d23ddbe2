import { describe, expect, it } from 'vitest'
import { modelTriangles } from '@/lib/core/drawing/model-triangles'
import type { DrawnPart } from '@/lib/core/drawing/part'

type Triple = [number, number, number]
const near = (values: readonly number[]) => values.map((value) => expect.closeTo(value, 6))
const triples = (numbers: readonly number[] = []): Triple[] =>
  Array.from({ length: numbers.length / 3 }, (_, index) => numbers.slice(3 * index, 3 * index + 3) as Triple)
const less = (a: Triple, b: Triple): Triple => [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
const times = (a: Triple, b: Triple): Triple => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
]
/** The triangles of some positions, each with its own normal by the right-hand rule, as long as twice its area. */
const facesOf = (positions: readonly number[] = []) => {
  const points = triples(positions)
  return Array.from({ length: points.length / 3 }, (_, index) => {
    const [a, b, c] = points.slice(3 * index, 3 * index + 3) as [Triple, Triple, Triple]
    return { corners: [a, b, c], normal: times(less(b, a), less(c, a)) }
  })
}
const segments = (edges: readonly number[]) =>
  Array.from({ length: edges.length / 6 }, (_, index) => [
    edges.slice(6 * index, 6 * index + 3),
    edges.slice(6 * index + 3, 6 * index + 6),
  ])

const box: DrawnPart = {
  tube: { shape: 'rectangular', widthMm: 30, heightMm: 40 },
  bends: [],
  straightAfterMm: 100,
}
const walled: DrawnPart = { ...box, tube: { ...box.tube, wallMm: 3 } }
const elbow: DrawnPart = {
  tube: { shape: 'square', widthMm: 40, heightMm: 40 },
  bends: [{ straightBeforeMm: 200, angleDeg: 90, centrelineRadiusMm: 100, rotationDeg: 0 }],
  straightAfterMm: 150,
}

describe('the skin of a box', () => {
  it('is two triangles on each of its four sides, all turned outward', () => {
    const faces = facesOf(modelTriangles(box).pieces[0]?.positions)
    expect(faces).toHaveLength(8)
    const count = (axis: 1 | 2, sign: 1 | -1, areaMm2: number) =>
      faces.filter(({ normal }) => Math.abs(normal[axis] * sign - 2 * areaMm2) < 1e-6).length
    // 100 long, 40 high at the sides and 30 wide above and below: half of 4000 and of 3000 each.
    expect([count(2, 1, 2000), count(2, -1, 2000), count(1, 1, 1500), count(1, -1, 1500)]).toEqual([
      2, 2, 2, 2,
    ])
    for (const { corners, normal } of faces)
      for (const at of corners) expect(normal[1] * at[1] + normal[2] * at[2]).toBeGreaterThan(0)
  })

  it('is shaded at each edge square to the line between its neighbours: 30 by 40 gives 0.6 and 0.8', () => {
    const { positions, normals } = modelTriangles(box).pieces[0] ?? { positions: [], normals: [] }
    const at = triples(positions)
    for (const [index, normal] of triples(normals).entries())
      expect(normal).toEqual(
        near([0, 0.6 * Math.sign(at[index]?.[1] ?? 0), 0.8 * Math.sign(at[index]?.[2] ?? 0)]),
      )
  })

  it('has its rims as closed lines from corner to corner', () => {
    const lines = segments(modelTriangles(box).edges)
    const corners = [
      [20, 15],
      [-20, 15],
      [-20, -15],
      [20, -15],
    ]
    for (const x of [0, 100])
      for (const [index, from] of corners.entries())
        expect(lines).toContainEqual([near([x, ...from]), near([x, ...(corners[(index + 1) % 4] ?? [])])])
    expect(lines).toHaveLength(8)
  })
})

describe('the skin of a tube with a wall', () => {
  it('adds both cut faces to the pieces they end: eight triangles of 384 mm² together', () => {
    const faces = facesOf(modelTriangles(walled).pieces[0]?.positions)
    const cut = (x: number) =>
      faces.filter(({ corners }) => corners.every((at) => Math.abs(at[0] - x) < 1e-9))
    for (const x of [0, 100]) {
      expect(cut(x)).toHaveLength(8)
      // 30 · 40 - 24 · 34.
      expect(cut(x).reduce((sum, { normal }) => sum + Math.hypot(...normal) / 2, 0)).toBeCloseTo(384, 6)
    }
    expect(faces).toHaveLength(24)
  })

  it('has its cut faces whole whatever its corners: round outside, and sharp inside where the wall takes the radius up', () => {
    const cutMm2 = (cornerRadiusMm: number) =>
      facesOf(modelTriangles({ ...walled, tube: { ...walled.tube, cornerRadiusMm } }).pieces[0]?.positions)
        .filter(({ corners }) => corners.every((at) => Math.abs(at[0]) < 1e-9))
        .reduce((sum, { normal }) => sum + Math.hypot(...normal) / 2, 0)
    // A corner in five straight steps: a quarter circle of r takes r² (1 - 5/2 sin 18°) = 0.2274575 r² off a square one.
    expect(cutMm2(3)).toBeCloseTo(384 - 4 * 9 * 0.2274575, 4)
    expect(cutMm2(2)).toBeCloseTo(384 - 4 * 4 * 0.2274575, 4)
    // A bore of radius 2: 25 and 4.
    expect(cutMm2(5)).toBeCloseTo(384 - 4 * (25 - 4) * 0.2274575, 4)
  })

  it('draws the bore’s rims too, a wall inside the others', () => {
    const lines = segments(modelTriangles(walled).edges)
    expect(lines).toHaveLength(16)
    for (const x of [0, 100]) expect(lines).toContainEqual([near([x, 17, 12]), near([x, -17, 12])])
  })

  it('puts each cut face with the first and the last piece of a bent tube', () => {
    const part = { ...elbow, tube: { ...elbow.tube, wallMm: 2 } }
    const [bare, full] = [modelTriangles(elbow).pieces, modelTriangles(part).pieces]
    const more = full.map(
      ({ positions }, index) => (positions.length - (bare[index]?.positions.length ?? 0)) / 9,
    )
    expect(more).toEqual([8, 0, 8])
    // Its normals lie along the tube there: x at the start, y at the end.
    const axisOf = (index: number) => triples(full[index]?.normals).at(-1)?.map(Math.abs)
    expect(axisOf(0)).toEqual(near([1, 0, 0]))
    expect(axisOf(2)).toEqual(near([0, 1, 0]))
  })

  it('where it begins with a bend gives the cut face to the bend', () => {
    const part = {
      ...elbow,
      tube: { ...elbow.tube, wallMm: 2 },
      bends: elbow.bends.map((bend) => ({ ...bend, straightBeforeMm: 0 })),
    }
    const { pieces } = modelTriangles(part)
    expect(pieces.map(({ bend }) => bend)).toEqual([0, null])
    // 18 strips of 8 triangles, and one cut face.
    expect((pieces[0]?.positions.length ?? 0) / 9).toBe(18 * 8 + 8)
  })
})

describe('the skin of an elbow', () => {
  it('is eight triangles a strip, eighteen strips round the bend', () => {
    const counts = modelTriangles(elbow).pieces.map(({ positions }) => positions.length / 9)
    expect(counts).toEqual([8, 18 * 8, 8])
    for (const { positions, normals } of modelTriangles(elbow).pieces)
      expect(normals).toHaveLength(positions.length)
  })

  it('turns outward everywhere: away from the bend’s circle', () => {
    const bend = modelTriangles(elbow).pieces[1]
    for (const { corners, normal } of facesOf(bend?.positions)) {
      const middle = [0, 1, 2].map(
        (axis) => corners.reduce((sum, at) => sum + (at[axis] ?? 0), 0) / 3,
      ) as Triple
      const out = Math.hypot(middle[0] - 200, middle[1] - 100)
      // The centreline's nearest point: R 100 about (200, 100).
      const on: Triple = [200 + ((middle[0] - 200) * 100) / out, 100 + ((middle[1] - 100) * 100) / out, 0]
      const away = less(middle, on)
      expect(normal[0] * away[0] + normal[1] * away[1] + normal[2] * away[2]).toBeGreaterThan(0)
    }
  })

  it('has rims at both ends and where the bend begins and ends, and no others', () => {
    const lines = segments(modelTriangles(elbow).edges)
    expect(lines).toHaveLength(16)
    const at = (axis: 0 | 1, mm: number) =>
      lines.filter((line) => line.every((point) => Math.abs((point[axis] ?? 0) - mm) < 1e-6)).length
    expect([at(0, 0), at(0, 200), at(1, 100), at(1, 250)]).toEqual([4, 4, 4, 4])
  })

  it('is centred in its box, as far round as its farthest corner', () => {
    // 0 to 320, -20 to 250, -20 to 20: middle (160, 115, 0). Farthest of its corners: (0, -20, 20) and (320, 250, 20), both 160, 135, 20 off.
    const { centre, radiusMm } = modelTriangles(elbow)
    expect(centre).toEqual(near([160, 115, 0]))
    expect(radiusMm).toBeCloseTo(Math.hypot(160, 135, 20), 6)
  })

  it('follows rounded corners in six points each', () => {
    const rounded = { ...elbow, tube: { ...elbow.tube, cornerRadiusMm: 6 } }
    // Four corners of six points: 24 sides, two triangles each.
    expect((modelTriangles(rounded).pieces[0]?.positions.length ?? 0) / 9).toBe(48)
  })
})
