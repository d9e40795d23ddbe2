import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { endWrapCurve, endWrapTemplate, type WrappedCut, wrapHeightMm } from '@/lib/core/templates/end-wrap'
import { boundsOf, type Primitive, type Template } from '@/lib/core/templates/primitive'
import { unrolled, type WrappedTube } from '@/lib/core/templates/unrolled'

const rad = (deg: number) => (deg * Math.PI) / 180
const round = (diameterMm: number): WrappedTube => ({
  shape: 'round',
  widthMm: diameterMm,
  heightMm: diameterMm,
})
const square = (sideMm: number, cornerRadiusMm = 0): WrappedTube => ({
  shape: 'square',
  widthMm: sideMm,
  heightMm: sideMm,
  cornerRadiusMm,
})
const nearest = (curve: readonly (readonly [number, number])[], xMm: number) =>
  curve.reduce((best, point) => (Math.abs(point[0] - xMm) < Math.abs(best[0] - xMm) ? point : best))

describe('a tube laid flat', () => {
  it('is as long as straights and quarter circles together', () => {
    // By hand: 4 (38.1 - 2 * 6.5) + 2 pi 6.5 = 100.4 + 40.8407 = 141.2407; pi 48.3 = 151.7389
    expect(unrolled(square(38.1, 6.5)).at(-1)?.girthMm).toBeCloseTo(141.2407, 4)
    expect(unrolled(round(48.3)).at(-1)?.girthMm).toBeCloseTo(151.7389, 4)
  })

  it('steps along the paper as far as it steps along the section, and ends where it began', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 120, noNaN: true }),
        fc.double({ min: 20, max: 120, noNaN: true }),
        fc.double({ min: 0, max: 0.5, noNaN: true }),
        (widthMm, heightMm, share) => {
          const cornerRadiusMm = share * Math.min(widthMm, heightMm)
          const points = unrolled({ shape: 'rectangular', widthMm, heightMm, cornerRadiusMm })
          for (const [index, point] of points.entries()) {
            const before = points[index - 1]
            if (!before) continue
            const stepMm = point.girthMm - before.girthMm
            const chordMm = Math.hypot(point.at[0] - before.at[0], point.at[1] - before.at[1])
            // An arc of a twelfth of a quarter circle is at most 0.08 percent longer than its chord.
            expect(stepMm - chordMm).toBeGreaterThan(-1e-9)
            expect(stepMm).toBeLessThanOrEqual(chordMm * 1.0008 + 1e-9)
          }
          expect(points.at(-1)?.at[0]).toBeCloseTo(points[0]?.at[0] ?? Number.NaN, 9)
          expect(points.at(-1)?.at[1]).toBeCloseTo(points[0]?.at[1] ?? Number.NaN, 9)
          expect(points.filter(({ isMiddle }) => isMiddle)).toHaveLength(4)
          expect(points.filter(({ isFold }) => isFold)).toHaveLength(4)
        },
      ),
      { numRuns: 60 },
    )
  })

  it('refuses corners that do not fit the tube', () => {
    expect(() => unrolled(square(20, 11))).toThrow(/corner radius/)
  })
})

describe('the wrap of a mitre', () => {
  it('is one cosine of amplitude 100 over 628.319 mm for a pipe of radius 100 cut at 45 degrees', () => {
    // Source: unrolled plane section of a cylinder, a sine curve of amplitude r tan(a) and length 2 pi r (published worked example).
    const curve = endWrapCurve(round(200), { kind: 'mitre', angleDeg: 45 }, 'far')
    const heights = curve.map(([, yMm]) => yMm)
    expect((curve.at(-1)?.[0] ?? 0) - (curve[0]?.[0] ?? 0)).toBeCloseTo(628.319, 3)
    expect(Math.max(...heights) - Math.min(...heights)).toBeCloseTo(200, 9)
  })

  it.each([
    [0, 24.15],
    [30, 20.9145],
    [60, 12.075],
    [90, 0],
    [180, -24.15],
  ])('stands at the hand-worked height at %d degrees on a 48.3 mm tube cut at 45', (phiDeg, heightMm) => {
    // By hand: 24.15 * tan 45 * cos phi = 24.15 * (1, 0.8660254, 0.5, 0, -1)
    const curve = endWrapCurve(round(48.3), { kind: 'mitre', angleDeg: 45 }, 'far')
    expect(nearest(curve, (phiDeg / 360) * 151.7389)[1]).toBeCloseTo(heightMm, 4)
  })

  it('stands h tan(a) higher on one face of a square tube than on the other', () => {
    // By hand: 38.1 * tan 45 = 38.1
    const heights = endWrapCurve(square(38.1), { kind: 'mitre', angleDeg: 45 }, 'far').map(([, yMm]) => yMm)
    expect(Math.max(...heights) - Math.min(...heights)).toBeCloseTo(38.1, 9)
  })

  it.each([
    // A 40 mm square cut at 30 degrees, turned 45: its diagonal half, 20 sqrt 2, times tan 30 = 16.32993.
    { turned: 45, atGirthMm: 20, heightMm: 16.32993, where: 'the corner it leans to' },
    { turned: 45, atGirthMm: 60, heightMm: 0, where: 'the corner beside it' },
    { turned: 45, atGirthMm: 100, heightMm: -16.32993, where: 'the corner across' },
    // Middle of the upper face: 20 cos 45 tan 30 = 8.16497.
    { turned: 45, atGirthMm: 0, heightMm: 8.16497, where: 'the middle of the upper face' },
    // Turned 30: the corner up and right lies at 20 cos 30 + 20 sin 30 = 27.32051 along it; times tan 30 = 15.77350.
    { turned: 30, atGirthMm: 20, heightMm: 15.7735, where: 'a corner off the middle' },
    // The middle of the right face: 20 sin 30 tan 30 = 5.77350.
    { turned: 30, atGirthMm: 40, heightMm: 5.7735, where: 'the middle of the right face' },
  ])('turned $turned degrees stands at $heightMm mm at $where', ({ turned, atGirthMm, heightMm }) => {
    const curve = endWrapCurve(square(40), { kind: 'mitre', angleDeg: 30, rotationDeg: turned }, 'far')
    const [xMm, yMm] = nearest(curve, atGirthMm)
    expect(xMm).toBeCloseTo(atGirthMm, 6)
    expect(yMm).toBeCloseTo(heightMm, 4)
  })

  it('turned between faces lies in one plane over all flats and corners', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -75, max: 75, noNaN: true }),
        fc.double({ min: 0, max: 360, noNaN: true }),
        (angleDeg, rotationDeg) => {
          const tube = { shape: 'rectangular', widthMm: 60, heightMm: 40, cornerRadiusMm: 6 } as const
          const curve = endWrapCurve(tube, { kind: 'mitre', angleDeg, rotationDeg }, 'far')
          const slope = Math.tan(rad(angleDeg))
          const normal = [
            -slope * Math.cos(rad(rotationDeg)),
            -slope * Math.sin(rad(rotationDeg)),
            1,
          ] as const
          unrolled(tube).forEach(({ at }, index) => {
            const off = normal[0] * at[0] + normal[1] * at[1] + normal[2] * (curve[index]?.[1] ?? Number.NaN)
            expect(off / Math.hypot(...normal)).toBeCloseTo(0, 9)
          })
        },
      ),
    )
  })

  it('refuses a cut that runs along the tube', () => {
    expect(() => wrapHeightMm({ kind: 'mitre', angleDeg: 90 }, [1, 0])).toThrow(RangeError)
  })
})

/** How far a point is from the axis of the tube the end sits on, both laid out in space. */
function fromAxisMm(
  cut: WrappedCut & { kind: 'saddle' },
  [up, side]: readonly [number, number],
  outMm: number,
) {
  const [A, turned] = [rad(cut.angleDeg ?? 90), rad(cut.rotationDeg ?? 0)]
  const radiusMm = cut.onDiameterMm / 2
  const toward = [Math.cos(turned) * Math.sin(A), Math.sin(turned) * Math.sin(A), Math.cos(A)] as const
  // The axis passes the centreline's end a radius over the sine away, so that its near side touches the end.
  const from = [up, side, outMm - radiusMm / Math.sin(A)] as const
  const along = from[0] * toward[0] + from[1] * toward[1] + from[2] * toward[2]
  return Math.hypot(...from.map((value, axis) => value - along * (toward[axis] ?? 0)))
}

describe('the wrap of a saddle', () => {
  // Heights from the crossing of the axes, the acute corner at 0: the generator put into the main cylinder's equation, 1e-4 mm.
  it.each([
    [90, 0, 0, 30.15],
    [90, 0, 45, 24.8478],
    [90, 0, 90, 18.0499],
    [60, 0, 0, 48.7572],
    [60, 0, 45, 38.5509],
    [60, 0, 135, 18.8325],
    [60, 0, 180, 20.8712],
    [60, 0, 270, 20.8423],
    [90, 5, 0, 29.7325],
    [90, 5, 45, 20.534],
    [90, 5, 90, 7.7006],
    [90, 5, 270, 23.2873],
  ])(
    'at %d degrees, %d mm off, %d round leaves %d mm to the crossing',
    (angleDeg, acrossMm, phiDeg, heightMm) => {
      const at = [24.15 * Math.cos(rad(180 - phiDeg)), 24.15 * Math.sin(rad(180 - phiDeg))] as const
      const outMm = wrapHeightMm({ kind: 'saddle', onDiameterMm: 60.3, angleDeg, acrossMm }, at)
      expect(Math.abs(30.15 / Math.sin(rad(angleDeg)) - outMm - heightMm)).toBeLessThan(1e-4)
    },
  )

  it('of two equal tubes square on is longest at the sides by a radius', () => {
    // By hand: r - r |cos phi|, so 24.15 at a quarter of 151.7389 and 0 at the seam and half way.
    const curve = endWrapCurve(round(48.3), { kind: 'saddle', onDiameterMm: 48.3 }, 'far')
    // The other tube runs up and down here, so its sides are to the right and left.
    expect(nearest(curve, 151.7389 / 4)[1]).toBeCloseTo(24.15, 4)
    expect(nearest(curve, 0)[1]).toBeCloseTo(0, 6)
    expect(nearest(curve, 151.7389 / 2)[1]).toBeCloseTo(0, 6)
  })

  it('of a square tube square on follows the circle over the faces across and is straight on the others', () => {
    // A 40 mm square on a 100 mm tube running up and down: at the side faces q = 20, 50 - sqrt(2500 - 400) = 4.17424;
    // a quarter across the upper face q = 10, 50 - sqrt(2400) = 1.01021.
    const curve = endWrapCurve(square(40), { kind: 'saddle', onDiameterMm: 100 }, 'far')
    for (const xMm of [20, 30, 40, 50, 60]) expect(nearest(curve, xMm)[1]).toBeCloseTo(4.17424, 5)
    expect(nearest(curve, 10)[1]).toBeCloseTo(1.01021, 5)
    expect(nearest(curve, 80)[1]).toBeCloseTo(0, 9)
  })

  it('puts every point of any tube on the other tube, on its near side', () => {
    fc.assert(
      fc.property(
        fc.constantFrom<WrappedTube>(round(48.3), square(38.1, 6.5), square(30), {
          shape: 'rectangular',
          widthMm: 25,
          heightMm: 50,
          cornerRadiusMm: 4,
        }),
        fc.double({ min: 20, max: 160, noNaN: true }),
        fc.double({ min: 0, max: 360, noNaN: true }),
        (tube, angleDeg, rotationDeg) => {
          const cut = { kind: 'saddle', onDiameterMm: 90, angleDeg, rotationDeg } as const
          const curve = endWrapCurve(tube, cut, 'far')
          unrolled(tube).forEach(({ at }, index) => {
            const outMm = curve[index]?.[1] ?? Number.NaN
            expect(fromAxisMm(cut, at, outMm)).toBeCloseTo(45, 8)
            // A hair further out the point is inside the other tube, or at its very edge.
            expect(fromAxisMm(cut, at, outMm + 0.001)).toBeLessThan(45 + 1e-6)
          })
        },
      ),
      { numRuns: 60 },
    )
  })

  it('refuses an end that reaches past the side of the other tube', () => {
    const onto = (onDiameterMm: number) => () =>
      endWrapCurve(square(40), { kind: 'saddle', onDiameterMm, rotationDeg: 45 }, 'far')
    // Turned 45 degrees its corners reach 20 sqrt 2 = 28.28 mm to the side.
    expect(onto(57)).not.toThrow()
    expect(onto(56)).toThrow(/past the side/)
  })
})

describe('the printed paper', () => {
  const textsOf = ({ primitives }: Template) =>
    primitives.filter((one): one is Primitive & { kind: 'text' } => one.kind === 'text')
  const highestAt = (template: Template) => {
    const curve = template.primitives.find((one) => one.kind === 'polyline')
    const points = curve?.kind === 'polyline' ? curve.points : []
    const top = points.reduce((best, point) => (point[1] > best[1] ? point : best))
    return top[0]
  }
  const cut = { kind: 'mitre', angleDeg: 30, rotationDeg: 90 } as const
  const make = (end: 'datum' | 'far', isBent = true) =>
    endWrapTemplate({ tube: square(40, 4), cut, end, isBent, name: 'P-1 A' })

  it('runs the other way round for the datum end: the right side is right of the seam on one, left of it on the other', () => {
    // Girth 4 * 32 + 8 pi = 153.1327. Long on the right face: a quarter round from the seam, or three quarters.
    expect(highestAt(make('far'))).toBeGreaterThan(153.1327 / 8)
    expect(highestAt(make('far'))).toBeLessThan((3 * 153.1327) / 8)
    expect(highestAt(make('datum'))).toBeGreaterThan((5 * 153.1327) / 8)
  })

  it('names the sides in the order they come round, by the first bend where there is one', () => {
    const names = (template: Template) =>
      textsOf(template)
        .map(({ text }) => text)
        .filter((text) => text !== 'tab')
    expect(names(make('far'))).toEqual(['inside of bend 1', 'right', 'outside of bend 1', 'left'])
    expect(names(make('datum'))).toEqual(['inside of bend 1', 'left', 'outside of bend 1', 'right'])
    expect(names(make('far', false))[0]).toBe('upper side')
  })

  it('folds at the middle of each corner and has its base 30 mm under the line, past the names of its sides', () => {
    const template = make('far')
    const folds = template.primitives.filter((one) => one.kind === 'line' && one.layer === 'CENTRE')
    // Half a flat, 16, and half a corner's arc, pi: 19.1416, then on by 32 + 2 pi = 38.2832 each.
    expect(folds.map((one) => one.kind === 'line' && one.from[0])).toEqual(
      [19.1416, 57.4248, 95.708, 133.9911].map((xMm) => expect.closeTo(xMm, 3)),
    )
    const curve = template.primitives.find((one) => one.kind === 'polyline')
    const points = curve?.kind === 'polyline' ? curve.points : []
    expect(Math.min(...points.map(([, yMm]) => yMm))).toBeCloseTo(30, 6)
    for (const name of textsOf(template)) expect(boundsOf([name]).topMm).toBeLessThan(30)
  })

  it('is drawn from the origin, and says how far its long side stands out', () => {
    const template = make('far')
    const { leftMm, bottomMm } = boundsOf(template.primitives)
    expect([leftMm, bottomMm]).toEqual([0, 0].map((zero) => expect.closeTo(zero, 9)))
    // 40 tan 30 = 23.09
    expect(template.notes.join(' ')).toMatch(/23\.09\d* mm past/)
  })
})
