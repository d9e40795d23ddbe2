import { describe, expect, it } from 'vitest'
import { endOffsetMm } from '@/lib/core/drawing/end-cut'
import { pressShape } from '@/lib/core/drawing/press-set-up'
import { convexHull, seeTube, views } from '@/lib/core/drawing/projection'
import { sectionOutline } from '@/lib/core/drawing/section-outline'
import { tubeMesh } from '@/lib/core/drawing/tube-mesh'

describe('end cuts', () => {
  it('a 45 degree mitre stands out by as much as a point lies off the axis', () => {
    expect(endOffsetMm({ kind: 'mitre', angleDeg: 45 }, [20, 0])).toBeCloseTo(20, 9)
    expect(endOffsetMm({ kind: 'mitre', angleDeg: 45, rotationDeg: 90 }, [20, 0])).toBeCloseTo(0, 9)
  })

  it('a mitre turned halfway round its axis is p tan(angle), p along the way it is turned', () => {
    // By hand: 10 cos 30 + 6 sin 30 = 11.660254; tan 30 = 0.577350: 6.732051.
    expect(endOffsetMm({ kind: 'mitre', angleDeg: 30, rotationDeg: 30 }, [10, 6])).toBeCloseTo(6.732051, 6)
    expect(endOffsetMm({ kind: 'mitre', angleDeg: 30, rotationDeg: -30 }, [10, 6])).toBeCloseTo(3.267949, 6)
  })

  it('a square-on saddle rises by R - sqrt(R^2 - q^2) beside the axis and not at all along it', () => {
    // By hand: R 50, q 30: 50 - sqrt(2500 - 900) = 10.
    const saddle = { kind: 'saddle', onDiameterMm: 100 } as const
    expect(endOffsetMm(saddle, [0, 30])).toBeCloseTo(10, 9)
    expect(endOffsetMm(saddle, [30, 0])).toBeCloseTo(0, 9)
  })

  it('every point of a leaning saddle lies on the tube it is cut for', () => {
    // Distance of a point from a line: |(P - C) x a|, the line through (R / sin A, 0) at angle A to the tube.
    const angle = Math.PI / 3
    for (const [up, side] of [
      [12, 9],
      [-15, 20],
      [0, -24],
    ] as const) {
      const out = endOffsetMm({ kind: 'saddle', onDiameterMm: 60, angleDeg: 60 }, [up, side])
      const along = out - 30 / Math.sin(angle)
      const inPlane = along * Math.sin(angle) - up * Math.cos(angle)
      expect(Math.hypot(inPlane, side)).toBeCloseTo(30, 9)
    }
  })
})

describe('views', () => {
  const straight = {
    tube: { shape: 'square', widthMm: 30, heightMm: 40 },
    bends: [],
    straightAfterMm: 100,
  } as const

  it('a straight tube seen from the side covers its length and height, from the end its width and height', () => {
    const size = (name: 'elevation' | 'end') => {
      const points = seeTube(tubeMesh(straight), views[name]).flatMap((piece) => piece.covers.flat())
      return [0, 1].map((axis) => {
        const along = points.map((point) => point[axis as 0 | 1])
        return Math.max(...along) - Math.min(...along)
      })
    }
    expect(size('elevation')).toEqual([100, 40])
    expect(size('end')).toEqual([30, 40])
  })

  it('draws no edge of a square tube seen square on but its outline', () => {
    const [piece] = seeTube(tubeMesh(straight), views.elevation)
    const inner = piece?.lines.flat().filter((point) => Math.abs(point[1]) < 19.999)
    expect(inner).toEqual([])
  })

  it('the hull of a square and its middle is the square', () => {
    expect(
      convexHull([
        [0, 0],
        [2, 0],
        [1, 1],
        [2, 2],
        [0, 2],
      ]),
    ).toHaveLength(4)
  })
})

describe('the section after the bend', () => {
  it('is as wide at the outer and the inner face as was measured', () => {
    const { outer } = sectionOutline(
      { shape: 'square', widthMm: 38.1, heightMm: 38.1, wallMm: 3 },
      { widthOutsideMm: 37.1, widthInsideMm: 39.1 },
    )
    const at = (up: number) =>
      Math.max(...outer.filter((point) => Math.abs(point[1] - up) < 1e-9).map((point) => point[0]))
    expect(2 * at(19.05)).toBeCloseTo(37.1, 6)
    expect(2 * at(-19.05)).toBeCloseTo(39.1, 6)
  })

  it('a round tube 4 percent oval keeps its mean diameter and differs by 4 percent of it', () => {
    const { outer } = sectionOutline({ shape: 'round', widthMm: 50, heightMm: 50 }, { ovalityPct: 4 })
    const across = 2 * Math.max(...outer.map((point) => point[0]))
    const up = 2 * Math.max(...outer.map((point) => point[1]))
    expect(across - up).toBeCloseTo(2, 6)
    expect((across + up) / 2).toBeCloseTo(50, 6)
  })
})

describe('the set-up on the press', () => {
  const setUp = { heightMm: 40, spanMm: 600, noseRadiusMm: 25, dieSurfaceRadiusMm: 180, wrappedAngleDeg: 60 }

  it('each support touches the arm: the nose centre lies nose radius plus half the tube off the centreline', () => {
    const shape = pressShape(setUp)
    const [end, before] = [shape?.centreline.at(-1), shape?.centreline.at(-2)]
    const nose = shape?.noses[1]
    if (!end || !before || !nose) throw new RangeError('the set-up has no shape')
    const long = Math.hypot(end[0] - before[0], end[1] - before[1])
    const off =
      ((end[0] - before[0]) * (nose[1] - before[1]) - (end[1] - before[1]) * (nose[0] - before[0])) / long
    expect(Math.abs(off)).toBeCloseTo(25 + 20, 9)
  })

  it('is refused where the span leaves no free arm', () => {
    expect(pressShape({ ...setUp, spanMm: 200 })).toBeNull()
  })
})
