import { describe, expect, it } from 'vitest'
import { endWrapTemplate, wrapHeightMm } from '@/lib/core/templates/end-wrap'
import { boundsOf, type Primitive, type Template, type TemplatePoint } from '@/lib/core/templates/primitive'
import { unrolled } from '@/lib/core/templates/unrolled'

/**
 * A sharp 40 mm square, cut at 45 degrees so that its upper side is long: 20 out on the upper face, 20 short on the lower.
 * Girth 160; along the girth the upper face's middle is at 0 and 160, edges at 20, 60, 100 and 140.
 */
const tube = { shape: 'square', widthMm: 40, heightMm: 40 } as const
const wrap = { tube, cut: { kind: 'mitre', angleDeg: 45 }, end: 'far', isBent: true, name: 'P-1 B' } as const
/** The base lies 30 under the line's lowest point, -20, and the sheet begins there. */
const onSheet = ([xMm, yMm]: TemplatePoint) => [expect.closeTo(xMm, 6), expect.closeTo(yMm + 50, 6)]
const linesOn = ({ primitives }: Template, layer: string) =>
  primitives.flatMap((one) => (one.kind === 'line' && one.layer === layer ? [[one.from, one.to]] : []))
const wordsOf = ({ primitives }: Template) =>
  primitives.filter((one): one is Primitive & { kind: 'text' } => one.kind === 'text')

describe('the outline of a wrap', () => {
  const template = () => endWrapTemplate(wrap)
  const outlines = () => template().primitives.flatMap((one) => (one.kind === 'polyline' ? [one.points] : []))

  it('is the cut’s line: level over the upper face, down the right one, level, and up the left one', () => {
    const [curve] = outlines()
    const yAt = (xMm: number) => curve?.find((point) => Math.abs(point[0] - xMm) < 1e-6)?.[1]
    for (const [xMm, outMm] of [
      [0, 20],
      [10, 20],
      [20, 20],
      [30, 10],
      [40, 0],
      [60, -20],
      [80, -20],
      [100, -20],
      [120, 0],
      [130, 10],
      [140, 20],
      [160, 20],
    ] as const)
      expect(yAt(xMm)).toBeCloseTo(outMm + 50, 6)
  })

  it('meets the line at both ends of the seam, however steep it is there', () => {
    // Long to the right at 30 degrees: at the seam, in the middle of the upper side, it stands at 0 and rises to one side.
    // Lowest 20 tan 30 = 11.547 under that, the base 30 under there.
    const steep = endWrapTemplate({ ...wrap, cut: { kind: 'mitre', angleDeg: 30, rotationDeg: 90 } })
    const [, seam, far] = linesOn(steep, 'CUT')
    expect(seam?.[1]).toEqual([expect.closeTo(0, 6), expect.closeTo(41.547, 3)])
    expect(far?.[1]).toEqual([expect.closeTo(160, 6), expect.closeTo(41.547, 3)])
  })

  it('is closed by the base, the seam and, above the tab, the far edge', () => {
    expect(linesOn(template(), 'CUT')).toEqual([
      [onSheet([0, -50]), onSheet([160, -50])],
      [onSheet([0, -50]), onSheet([0, 20])],
      [onSheet([160, -22]), onSheet([160, 20])],
    ])
  })

  it('has a tab of 12 mm at the far edge, narrower at its end, below the line', () => {
    expect(outlines()[1]).toEqual(
      (
        [
          [160, -50],
          [172, -46],
          [172, -26],
          [160, -22],
        ] as const
      ).map(onSheet),
    )
  })

  it('folds along each edge and marks the middle of each side, from the base to the line', () => {
    expect(linesOn(template(), 'CENTRE')).toEqual(
      (
        [
          [20, 20],
          [60, -20],
          [100, -20],
          [140, 20],
        ] as const
      ).map(([xMm, outMm]) => [onSheet([xMm, -50]), onSheet([xMm, outMm])]),
    )
    expect(linesOn(template(), 'MARK')).toEqual(
      (
        [
          [0, 20],
          [40, 0],
          [80, -20],
          [120, 0],
        ] as const
      ).map(([xMm, outMm]) => [onSheet([xMm, -50]), onSheet([xMm, outMm])]),
    )
  })

  it('names each side upright beside its middle and the tab as a tab', () => {
    // Letters of 1.9 mm, 1.9 + 1.2 = 3.1 right of the middle.
    expect(
      wordsOf(template()).map(({ text, at, heightMm, rotationDeg }) => ({ text, at, heightMm, rotationDeg })),
    ).toEqual([
      ...[0, 40, 80, 120].map((xMm, index) => ({
        text: ['inside of bend 1', 'right', 'outside of bend 1', 'left'][index],
        at: onSheet([xMm + 3.1, -48.5]),
        heightMm: 1.9,
        rotationDeg: 90,
      })),
      { text: 'tab', at: onSheet([167, -44]), heightMm: 2.5, rotationDeg: 90 },
    ])
    const { leftMm, rightMm } = boundsOf(wordsOf(template()).slice(-1))
    expect(leftMm).toBeGreaterThan(160)
    expect(rightMm).toBeLessThan(172)
  })

  it('has smaller letters on a thin tube, which stay off each other', () => {
    // Girth 32: 32 / 45 = 0.7111.
    const thin = endWrapTemplate({ ...wrap, tube: { shape: 'square', widthMm: 8, heightMm: 8 } })
    expect(wordsOf(thin)[0]?.heightMm).toBeCloseTo(0.7111, 4)
    const boxes = wordsOf(thin).map((one) => boundsOf([one]))
    for (const [index, box] of boxes.slice(1).entries())
      expect(box.leftMm).toBeGreaterThan(boxes[index]?.rightMm ?? 0)
  })
})

describe('what a wrap says', () => {
  const notesOf = (change: Partial<Parameters<typeof endWrapTemplate>[0]>) =>
    endWrapTemplate({ ...wrap, ...change }).notes.join('\n')
  const titleOf = (change: Partial<Parameters<typeof endWrapTemplate>[0]>) =>
    endWrapTemplate({ ...wrap, ...change }).title
  const round = { shape: 'round', widthMm: 48.3, heightMm: 48.3 } as const

  it('names cut, end and tube in its title, and a turn where there is one', () => {
    expect(titleOf({})).toBe('Mitre wrap, P-1 B: 45° from square on 40 × 40 mm')
    expect(titleOf({ cut: { kind: 'mitre', angleDeg: -30, rotationDeg: 15 }, tube: round })).toBe(
      'Mitre wrap, P-1 B: 30° from square on 48.3 mm round, turned 15°',
    )
    expect(titleOf({ cut: { kind: 'saddle', onDiameterMm: 60.3 }, tube: round })).toBe(
      'Saddle wrap, P-1 B: 48.3 mm round on 60.3 mm round at 90°',
    )
    expect(titleOf({ cut: { kind: 'saddle', onDiameterMm: 90, angleDeg: 60, rotationDeg: 90 } })).toBe(
      'Saddle wrap, P-1 B: 40 × 40 mm on 90 mm round at 60°, turned 90°',
    )
  })

  it('gives girth and how far the line rises, to be checked on the tube', () => {
    expect(notesOf({})).toMatch(/Girth 160 mm, highest point of the line 40 mm past the lowest/)
  })

  it('tells where the seam goes, by the first bend or as upper side', () => {
    expect(notesOf({})).toMatch(/the seam along the inside of bend 1\./)
    expect(notesOf({ isBent: false })).toMatch(/the seam along the upper side\./)
    expect(notesOf({ isBent: false })).toMatch(/with the upper side on top/)
  })

  it('tells of two ends cut alike that they make a corner of twice the angle', () => {
    expect(notesOf({ cut: { kind: 'mitre', angleDeg: -22.5 } })).toMatch(
      /^22\.5° from square: a corner of 45°/,
    )
  })

  it('tells of a saddle at which angle the axes lie, and to bevel a thick wall', () => {
    expect(notesOf({ cut: { kind: 'saddle', onDiameterMm: 90, angleDeg: 60 } })).toMatch(
      /^Axes at 60°\..*bevel/,
    )
    expect(notesOf({ cut: { kind: 'saddle', onDiameterMm: 90 } })).toMatch(/^Axes at 90°/)
    expect(notesOf({})).not.toMatch(/bevel/)
  })

  it('speaks of folds and corners only where there are some', () => {
    expect(notesOf({})).toMatch(/Fold at the chain lines/)
    expect(endWrapTemplate(wrap).notes).toHaveLength(5)
    expect(endWrapTemplate({ ...wrap, cornersAreTaken: true }).notes).toHaveLength(6)
    expect(notesOf({ tube: round })).not.toMatch(/Fold/)
    const corners = { ...tube, cornerRadiusMm: 4.5 }
    expect(notesOf({ tube: corners, cornersAreTaken: true })).toMatch(/Corner radius taken as 4\.5 mm/)
    expect(notesOf({ cornersAreTaken: true })).toMatch(/Corner radius taken as 0 mm/)
    expect(notesOf({ tube: corners })).not.toMatch(/Corner radius/)
    expect(notesOf({ tube: round, cornersAreTaken: true })).not.toMatch(/Corner radius/)
  })
})

describe('a cut that no wrap can be made for', () => {
  it('is a mitre along the tube, to either side', () => {
    for (const angleDeg of [90, -90, 120, Number.NaN])
      expect(() => wrapHeightMm({ kind: 'mitre', angleDeg }, [1, 0])).toThrow(/never leaves the tube/)
    for (const angleDeg of [89, -89])
      expect(() => wrapHeightMm({ kind: 'mitre', angleDeg }, [1, 0])).not.toThrow()
  })
  it('is a saddle on no tube, or with axes that run along each other', () => {
    for (const onDiameterMm of [0, -5, Number.NaN])
      expect(() => wrapHeightMm({ kind: 'saddle', onDiameterMm }, [1, 0])).toThrow(/diameter above 0/)
    for (const angleDeg of [0, 180, -10, Number.NaN])
      expect(() => wrapHeightMm({ kind: 'saddle', onDiameterMm: 50, angleDeg }, [1, 0])).toThrow(/never meet/)
    for (const angleDeg of [1, 179])
      expect(() => wrapHeightMm({ kind: 'saddle', onDiameterMm: 50, angleDeg }, [1, 0])).not.toThrow()
  })
  it('is a saddle as soon as a point reaches past the other tube’s side, not where it touches it', () => {
    const at = (sideMm: number) => () => wrapHeightMm({ kind: 'saddle', onDiameterMm: 50 }, [0, sideMm])
    expect(at(25)).not.toThrow()
    expect(at(-25)).not.toThrow()
    expect(at(25.001)).toThrow(
      /reaches 25 mm to the side, past the side of the tube it sits on \(radius 25 mm\)/,
    )
    expect(at(-26)).toThrow(/reaches 26 mm/)
  })
  it('is measured square to the turned tube: 45 degrees takes half of both ways', () => {
    // (up 20, side -20) lies 28.28 off an axis turned 45 degrees, (20, 20) on it.
    const turned = { kind: 'saddle', onDiameterMm: 50, rotationDeg: 45 } as const
    expect(() => wrapHeightMm(turned, [20, -20])).toThrow(/reaches 28\.28 mm/)
    expect(wrapHeightMm(turned, [20, 20])).toBeCloseTo(0, 9)
  })

  it('counts how far the axes pass each other, toward the cut’s own side', () => {
    // The other tube runs up and down, 5 to the side: a point at -20 is 15 off its axis then. 25 - sqrt(625 - 225) = 5.
    expect(wrapHeightMm({ kind: 'saddle', onDiameterMm: 50, acrossMm: 5 }, [0, -20])).toBeCloseTo(5, 9)
    // Turned 90 degrees it runs to the side; what was the side is then downward: a point 20 up is 15 off.
    const turned = { kind: 'saddle', onDiameterMm: 50, acrossMm: 5, rotationDeg: 90 } as const
    expect(wrapHeightMm(turned, [20, 0])).toBeCloseTo(5, 9)
    expect(() => wrapHeightMm(turned, [-21, 0])).toThrow(/reaches 26 mm/)
  })
})

describe('a tube laid flat', () => {
  it('of 40 by 60 with corners of 10 passes these places', () => {
    // Flats 60 - 20 = 40 along the side across and 20 up; a corner is 5 pi = 15.70796. Half the upper flat, then on.
    const flat = unrolled({ shape: 'rectangular', widthMm: 60, heightMm: 40, cornerRadiusMm: 10 })
    const middles = flat.filter(({ isMiddle }) => isMiddle)
    expect(middles.map(({ girthMm }) => girthMm)).toEqual(
      [0, 20 + 15.70796 + 10, 20 + 2 * 15.70796 + 20 + 20, 20 + 3 * 15.70796 + 20 + 40 + 10].map((mm) =>
        expect.closeTo(mm, 4),
      ),
    )
    expect(middles.map(({ at }) => at)).toEqual(
      (
        [
          [20, 0],
          [0, 30],
          [-20, 0],
          [0, -30],
        ] as const
      ).map((at) => at.map((mm) => expect.closeTo(mm, 9))),
    )
    const folds = flat.filter(({ isFold }) => isFold)
    // Half way round a corner: 10 sqrt(1/2) = 7.07107 off its centre, (10, 20) from the middle.
    expect(folds.map(({ at }) => at)).toEqual(
      (
        [
          [1, 1],
          [-1, 1],
          [-1, -1],
          [1, -1],
        ] as const
      ).map(([up, side]) => [expect.closeTo(17.07107 * up, 4), expect.closeTo(27.07107 * side, 4)]),
    )
    expect(folds[0]?.girthMm).toBeCloseTo(20 + 7.85398, 4)
  })

  it('of a sharp tube folds at its edges and nowhere else', () => {
    const folds = unrolled(tube).filter(({ isFold }) => isFold)
    expect(folds.map(({ girthMm, at }) => [girthMm, ...at])).toEqual([
      [20, 20, 20],
      [60, -20, 20],
      [100, -20, -20],
      [140, 20, -20],
    ])
  })

  it('of a round tube has four middles, a quarter of its girth apart, and no fold', () => {
    const flat = unrolled({ shape: 'round', widthMm: 50, heightMm: 50 })
    const middles = flat.filter(({ isMiddle }) => isMiddle)
    // 50 pi / 4 = 39.26991.
    expect(middles.map(({ girthMm }) => girthMm)).toEqual(
      [0, 1, 2, 3].map((n) => expect.closeTo(n * 39.26991, 4)),
    )
    expect(middles.map(({ at }) => at)).toEqual(
      (
        [
          [25, 0],
          [0, 25],
          [-25, 0],
          [0, -25],
        ] as const
      ).map((at) => at.map((mm) => expect.closeTo(mm, 9))),
    )
    expect(flat.some(({ isFold }) => isFold)).toBe(false)
    expect(flat).toHaveLength(361)
  })

  it('takes a corner of half the smaller side, not more, and no tube without a size', () => {
    const of = (widthMm: number, heightMm: number, cornerRadiusMm: number) => () =>
      unrolled({ shape: 'rectangular', widthMm, heightMm, cornerRadiusMm })
    expect(of(30, 20, 10)).not.toThrow()
    expect(of(20, 30, 10)).not.toThrow()
    for (const [w, h, r] of [
      [30, 20, 10.01],
      [20, 30, 10.01],
      [30, 20, -0.01],
      [30, 20, Number.NaN],
    ] as const)
      expect(of(w, h, r)).toThrow(/corner radius/)
    for (const [w, h] of [
      [0, 20],
      [20, 0],
      [-1, 20],
      [20, -1],
    ] as const)
      expect(of(w, h, 0)).toThrow(/above 0 mm/)
  })
})
