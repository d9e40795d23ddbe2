import { describe, expect, it } from 'vitest'
import { modelTriangles } from '@/lib/core/drawing/model-triangles'
import type { DrawnPart } from '@/lib/core/drawing/part'
import { offsetCurve, pressShape } from '@/lib/core/drawing/press-set-up'
import { seeTube, views } from '@/lib/core/drawing/projection'
import { tubeMesh } from '@/lib/core/drawing/tube-mesh'

type Triple = [number, number, number]
const triples = (numbers: readonly number[]): Triple[] =>
  Array.from({ length: numbers.length / 3 }, (_, index) => numbers.slice(3 * index, 3 * index + 3) as Triple)
const less = (a: Triple, b: Triple): Triple => [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
const times = (a: Triple, b: Triple): Triple => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
]
const areas = (positions: readonly number[]) => {
  const points = triples(positions)
  return Array.from({ length: points.length / 3 }, (_, index) => {
    const [a, b, c] = points.slice(3 * index, 3 * index + 3)
    return a && b && c ? Math.hypot(...times(less(b, a), less(c, a))) / 2 : Number.NaN
  })
}
const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0)

const straight: DrawnPart = {
  tube: { shape: 'rectangular', widthMm: 30, heightMm: 40 },
  bends: [],
  straightAfterMm: 100,
}

describe('the skin of a straight tube', () => {
  it('has the area of its four faces: 140 round and 100 long', () => {
    const model = modelTriangles(straight)
    expect(model.pieces.map(({ bend }) => bend)).toEqual([null])
    expect(sum(areas(model.pieces[0]?.positions ?? []))).toBeCloseTo(14_000, 6)
  })

  it('with a wall has both cut faces too: 30 x 40 less 24 x 34, 384 mm² each', () => {
    const model = modelTriangles({ ...straight, tube: { ...straight.tube, wallMm: 3 } })
    expect(sum(areas(model.pieces[0]?.positions ?? []))).toBeCloseTo(14_000 + 2 * 384, 6)
    expect(Math.max(...(model.pieces[0]?.positions ?? []))).toBeCloseTo(100, 9)
  })

  it('has unit normals, square to the tube on its skin and along it on the cut faces, one a corner', () => {
    const model = modelTriangles({ ...straight, tube: { ...straight.tube, wallMm: 3 } })
    const [piece] = model.pieces
    expect(piece?.normals.length).toBe(piece?.positions.length)
    const normals = triples(piece?.normals ?? [])
    for (const normal of normals) expect(Math.hypot(...normal)).toBeCloseTo(1, 9)
    const along = normals.filter(([x]) => Math.abs(x) > 0.5)
    for (const [x] of along) expect(Math.abs(x)).toBeCloseTo(1, 9)
    const across = normals.filter(([x]) => Math.abs(x) <= 0.5)
    for (const [x] of across) expect(x).toBeCloseTo(0, 9)
    expect(along.length).toBeGreaterThan(0)
  })

  it('points its skin’s normals away from the middle or all toward it', () => {
    const [piece] = modelTriangles(straight).pieces
    const [points, normals] = [triples(piece?.positions ?? []), triples(piece?.normals ?? [])]
    const outward = points.map((point, index) => {
      const normal = normals[index] ?? [0, 0, 0]
      return Math.sign(point[1] * normal[1] + point[2] * normal[2])
    })
    expect(new Set(outward).size).toBe(1)
  })

  it('draws its rims: the outside of both ends, and the bore’s where there is a wall', () => {
    const rim = (edges: readonly number[], x: number) =>
      triples(edges).filter((point) => Math.abs(point[0] - x) < 1e-9).length / 2
    const bare = modelTriangles(straight).edges
    const corners = rim(bare, 0)
    expect(corners).toBeGreaterThanOrEqual(4)
    expect(rim(bare, 100)).toBe(corners)
    const walled = modelTriangles({ ...straight, tube: { ...straight.tube, wallMm: 3 } }).edges
    expect(rim(walled, 0)).toBe(2 * corners)
    expect(rim(walled, 100)).toBe(2 * corners)
  })

  it('is centred in its box and reaches to its corners: half of 100, 40 and 30', () => {
    const { centre, radiusMm } = modelTriangles(straight)
    expect(centre).toEqual([50, 0, 0].map((value) => expect.closeTo(value, 9)))
    expect(radiusMm).toBeCloseTo(Math.hypot(50, 20, 15), 9)
  })
})

describe('the skin of a bent tube', () => {
  const round: DrawnPart = {
    tube: { shape: 'round', widthMm: 50, heightMm: 50 },
    bends: [{ straightBeforeMm: 100, angleDeg: 90, centrelineRadiusMm: 200, rotationDeg: 0 }],
    straightAfterMm: 60,
  }
  it('has one piece a straight and a bend, the bend’s with the area of Pappus’ theorem', () => {
    const model = modelTriangles(round)
    expect(model.pieces.map(({ bend }) => bend)).toEqual([null, 0, null])
    const [first, arc, last] = model.pieces.map(({ positions }) => sum(areas(positions)))
    // Circumference 50 pi; many-sided, so a little less.
    const girth = (first ?? 0) / 100
    expect(girth / (50 * Math.PI)).toBeGreaterThan(0.98)
    expect(girth / (50 * Math.PI)).toBeLessThanOrEqual(1)
    expect((last ?? 0) / 60).toBeCloseTo(girth, 6)
    expect((arc ?? 0) / (girth * 100 * Math.PI)).toBeCloseTo(1, 2)
  })
  it('leaves out a straight of no length', () => {
    const model = modelTriangles({ ...round, straightAfterMm: 0 })
    expect(model.pieces.map(({ bend }) => bend)).toEqual([null, 0])
  })
})

describe('the tube on the press', () => {
  // Half span 150, die surface radius 130, tube 40 high, noses of 25: circles and common tangents drawn, a tan(phi) - S (1 / cos(phi) - 1).
  const setUp = { heightMm: 40, spanMm: 300, noseRadiusMm: 25, dieSurfaceRadiusMm: 130 }
  it.each([
    [20, 23.441],
    [60, 56.436],
    [90, 69.228],
  ])('at %f degrees stands %f mm down', (wrappedAngleDeg, travelMm) => {
    const shape = pressShape({ ...setUp, wrappedAngleDeg })
    expect(shape?.travelMm).toBeCloseTo(travelMm, 3)
    // The centreline's lowest place lies as far below the straight tube.
    expect(Math.min(...(shape?.centreline ?? []).map(([, y]) => y))).toBeCloseTo(-travelMm, 3)
    expect(shape?.dieCentre).toEqual([0, expect.closeTo(150 - travelMm, 3)])
  })
  it('has 17.13 mm free at a right angle, and the strap’s thickness takes from that', () => {
    expect(pressShape({ ...setUp, wrappedAngleDeg: 90 })?.freeLengthMm).toBeCloseTo(17.13, 2)
    // By hand: (150 - (195 + 2) sin 45) / cos 45 = 17.132 - 2.
    expect(pressShape({ ...setUp, wrappedAngleDeg: 90, strapThicknessMm: 2 })?.freeLengthMm).toBeCloseTo(
      15.132,
      3,
    )
  })
  it('is the same to both sides, and reaches past the supports', () => {
    const { centreline, noses } = pressShape({ ...setUp, wrappedAngleDeg: 60 }) ?? {
      centreline: [],
      noses: [],
    }
    const [first, last] = [centreline[0], centreline.at(-1)]
    expect(first?.[0]).toBeCloseTo(-(last?.[0] ?? 0), 9)
    expect(first?.[1]).toBeCloseTo(last?.[1] ?? 0, 9)
    expect(noses.map(([x]) => x)).toEqual([-150, 150])
    expect(last?.[0]).toBeGreaterThan(150)
  })
  it('has no shape at no angle, at half a turn and with a number missing', () => {
    expect(pressShape({ ...setUp, wrappedAngleDeg: 0 })).toBeNull()
    expect(pressShape({ ...setUp, wrappedAngleDeg: 180 })).toBeNull()
    expect(pressShape({ ...setUp, wrappedAngleDeg: 30, spanMm: Number.NaN })).toBeNull()
  })
})

describe('a curve moved sideways', () => {
  it('lies to the left of a line as it runs', () => {
    expect(
      offsetCurve(
        [
          [0, 0],
          [10, 0],
          [20, 0],
        ],
        3,
      ),
    ).toEqual([
      [0, 3],
      [10, 3],
      [20, 3],
    ])
    expect(
      offsetCurve(
        [
          [0, 0],
          [0, 10],
        ],
        3,
      ),
    ).toEqual([
      [-3, 0],
      [-3, 10],
    ])
    expect(
      offsetCurve(
        [
          [30, 40],
          [60, 80],
        ],
        5,
      )[0],
    ).toEqual([26, 43])
  })
  it('of a circle run counter-clockwise is a smaller circle', () => {
    const circle = Array.from(
      { length: 200 },
      (_, step) => [50 * Math.cos(step / 50), 50 * Math.sin(step / 50)] as const,
    )
    for (const [x, y] of offsetCurve(circle, 10).slice(1, -1)) expect(Math.hypot(x, y)).toBeCloseTo(40, 6)
  })
  it('of one point stays', () => {
    expect(offsetCurve([[1, 2]], 5)).toEqual(
      [[1, 2]].map((point) => point.map((value) => expect.closeTo(value, 9))),
    )
  })
})

describe('what is seen of a tube', () => {
  it('comes farthest first, and without what has no length', () => {
    const rising: DrawnPart = {
      tube: { shape: 'square', widthMm: 30, heightMm: 30 },
      bends: [
        { straightBeforeMm: 100, angleDeg: 90, centrelineRadiusMm: 50, rotationDeg: 90 },
        { straightBeforeMm: 0, angleDeg: 90, centrelineRadiusMm: 50, rotationDeg: 0 },
      ],
      straightAfterMm: 100,
    }
    for (const name of ['elevation', 'plan', 'end', 'isometric'] as const) {
      const seen = seeTube(tubeMesh(rising), views[name])
      const depths = seen.map(({ depthMm }) => depthMm)
      expect(depths).toEqual([...depths].sort((a, b) => a - b))
      expect(seen.map(({ piece }) => piece).sort()).toEqual([0, 1, 3, 4])
    }
  })
  it('has right, up and toward the viewer as a right-handed frame', () => {
    for (const { right, up, toViewer } of Object.values(views)) {
      expect(times([...right], [...up])).toEqual(toViewer.map((value) => expect.closeTo(value, 9)))
      expect(Math.hypot(...toViewer)).toBeCloseTo(1, 9)
    }
  })
})
