import { describe, expect, it } from 'vitest'
import type { Ink } from '@/lib/core/drawing/ink'
import type { DrawnPart } from '@/lib/core/drawing/part'
import { drawView, seenTrue, type ViewSettings } from '@/lib/core/drawing/part-view'
import { type ViewName, views } from '@/lib/core/drawing/projection'
import { tubeMesh } from '@/lib/core/drawing/tube-mesh'

/**
 * 200 along x, a quarter of R 100 up, 150 on, of a 40 mm square, at a pixel a millimetre with letters 14 high (8.4 wide each).
 * y runs down the sheet: the arc turns about (200, -100), its corner is (300, 0), the end (300, -250). Half the tube is 20 px.
 */
const elbow: DrawnPart = {
  tube: { shape: 'square', widthMm: 40, heightMm: 40 },
  bends: [{ straightBeforeMm: 200, angleDeg: 90, centrelineRadiusMm: 100, rotationDeg: 0 }],
  straightAfterMm: 150,
}
const settings: ViewSettings = {
  scalePxPerMm: 1,
  units: 'mm',
  sizePx: 14,
  dimensionPieces: new Set([0, 1, 2]),
  overall: { across: true, up: true },
}
const bentBy = (change: Partial<DrawnPart['bends'][number]>): DrawnPart => ({
  ...elbow,
  bends: elbow.bends.map((bend) => ({ ...bend, ...change })),
})
const seen = (part: DrawnPart, change: Partial<ViewSettings> = {}, name: ViewName = 'elevation') =>
  drawView(part, tubeMesh(part), name, { ...settings, ...change })

type Point = readonly [number, number]
const at = (x: number, y: number) => [expect.closeTo(x, 3), expect.closeTo(y, 3)]
const lines = (inks: readonly Ink[], line: string) =>
  inks.flatMap((ink) => (ink.kind === 'line' && ink.line === line ? [ink.points] : []))
const texts = (inks: readonly Ink[]) => inks.flatMap((ink) => (ink.kind === 'text' ? [ink] : []))
const placeOf = (inks: readonly Ink[], words: string) => texts(inks).find(({ text }) => text === words)?.at
const straightLines = (inks: readonly Ink[]) =>
  lines(inks, 'dimension').filter((points) => points.length === 2)
const extent = (points: readonly Point[]) => [
  Math.min(...points.map(([x]) => x)),
  Math.min(...points.map(([, y]) => y)),
  Math.max(...points.map(([x]) => x)),
  Math.max(...points.map(([, y]) => y)),
]

describe('the elbow’s tube on the sheet', () => {
  it('covers 320 by 270, y turned to run down', () => {
    const { pieces } = seen(elbow)
    for (const points of [
      pieces.flatMap(({ covers }) => covers.flat()),
      pieces.flatMap(({ lines: all }) => all.flat()),
    ])
      expect(extent(points)).toEqual([0, -250, 320, 20].map((px) => expect.closeTo(px, 6)))
  })

  it('has a scribed line across where the bend begins and where it ends', () => {
    const across = seen(elbow).pieces.flatMap(({ tangentLines }) => tangentLines)
    const ends = across.map(extent)
    expect(ends).toContainEqual([200, -20, 200, 20].map((px) => expect.closeTo(px, 6)))
    expect(ends).toContainEqual([280, -100, 320, -100].map((px) => expect.closeTo(px, 6)))
  })

  it('has its centreline through both tangent points to the end', () => {
    const points = seen(elbow).pieces.flatMap(({ centreline }) => centreline)
    for (const wanted of [at(0, 0), at(200, 0), at(270.7107, -29.2893), at(300, -100), at(300, -250)])
      expect(points).toContainEqual(wanted)
  })
})

describe('the elbow’s angle', () => {
  it('stands between its tangents: arms 56 long, the arc 6 inside their ends', () => {
    // Half a tube and a half, 30, and 26.
    const { inks } = seen(elbow)
    expect(lines(inks, 'construction')).toEqual([
      [at(200, 0), at(356, 0)],
      [at(300, 0), at(300, -100)],
    ])
    const arc = lines(inks, 'dimension').find((points) => points.length > 2)
    expect(arc).toHaveLength(13)
    expect(arc?.[0]).toEqual(at(350, 0))
    expect(arc?.[4]).toEqual(at(300 + 50 * 0.8660254, -25))
    expect(arc?.[12]).toEqual(at(300, -50))
  })

  it('is written 10 past the arms on the line half way between them, by as much more as its letters are wide', () => {
    // 56 + 10 + 25.2 / 2 · sqrt(1/2) = 74.9095 along 45 degrees: 52.9690 each way.
    expect(placeOf(seen(elbow).inks, '90°')).toEqual(at(352.969, -52.969))
  })

  it('turns with a bend to the other side', () => {
    const { inks } = seen(bentBy({ rotationDeg: 180 }))
    expect(lines(inks, 'construction')[1]).toEqual([at(300, 0), at(300, 100)])
    expect(lines(inks, 'dimension').find((points) => points.length > 2)?.[12]).toEqual(at(300, 50))
    expect(placeOf(inks, '90°')).toEqual(at(352.969, 52.969))
  })

  it('has longer arms where its corner lies far off: 0.55 of the way to it', () => {
    // Tangents of 160: 88 past the corner at (360, 0).
    const { inks } = seen(bentBy({ centrelineRadiusMm: 160 }))
    expect(lines(inks, 'construction')[0]).toEqual([at(200, 0), at(448, 0)])
    expect(lines(inks, 'dimension').find((points) => points.length > 2)?.[0]).toEqual(at(442, 0))
  })

  it.each([
    { angleDeg: 60, corner: 257.7350269 }, // 200 + 100 tan 30
    { angleDeg: 110, corner: 342.8148007 }, // 200 + 100 tan 55
  ])('of $angleDeg degrees has its corner where both tangents meet', ({ angleDeg, corner }) => {
    const { inks } = seen(bentBy({ angleDeg }))
    const [, second] = lines(inks, 'construction')
    const turnRad = (angleDeg * Math.PI) / 180
    expect(second?.[0]).toEqual(at(corner, 0))
    // The bend's end: 100 sin a on, 100 (1 - cos a) up.
    expect(second?.[1]).toEqual(at(200 + 100 * Math.sin(turnRad), -100 * (1 - Math.cos(turnRad))))
    const [x, y] = placeOf(inks, `${angleDeg}°`) ?? [0, 0]
    expect(Math.atan2(-y, x - corner)).toBeCloseTo(turnRad / 2, 6)
  })

  it('is written beside the line half way where that would touch the tube: on by half the angle, at most 0.6 rad', () => {
    // At 30 degrees the corner is (226.795, 0). 78.2 along 15 degrees is 20.2 off the second leg, less than 21 + 8.68; along the leg
    // is worse; along the first tangent, 56 + 10 + 12.6 past the corner, is 39 off it.
    expect(placeOf(seen(bentBy({ angleDeg: 30 })).inks, '30°')).toEqual(at(305.395, 0))
  })

  it('is in the note instead where its tangents are longer than 170', () => {
    const words = (radiusMm: number) => {
      const { inks } = seen(bentBy({ centrelineRadiusMm: radiusMm }))
      return {
        arms: lines(inks, 'construction').length,
        angles: texts(inks).filter(({ text }) => text === '90°').length,
      }
    }
    expect(words(169.9)).toEqual({ arms: 2, angles: 1 })
    expect(words(170.1)).toEqual({ arms: 0, angles: 1 })
    const inNote = texts(seen(bentBy({ centrelineRadiusMm: 170.1 })).inks).filter(
      ({ anchor }) => anchor === 'start',
    )
    expect(inNote.map(({ text }) => text)).toEqual(['90°', 'R 170.1'])
    const beside = texts(seen(elbow).inks).filter(({ anchor }) => anchor === 'start')
    expect(beside.map(({ text }) => text)).toEqual(['R 100'])
  })

  it('is in the note of a view that does not show it true', () => {
    const { inks } = seen(elbow, {}, 'plan')
    expect(lines(inks, 'construction')).toEqual([])
    expect(
      texts(inks)
        .filter(({ anchor }) => anchor === 'start')
        .map(({ text }) => text),
    ).toEqual(['90°', 'R 100'])
  })

  it('and everything else of the bend carries the bend’s number', () => {
    const { inks } = seen(elbow, { overall: { across: false, up: false } })
    const owned = inks.filter((ink) => 'bend' in ink && ink.bend === 0)
    // Two arms, arc and angle; leader, balloon and radius.
    expect(owned.map(({ kind }) => kind).sort()).toEqual([
      'balloon',
      'line',
      'line',
      'line',
      'line',
      'text',
      'text',
    ])
  })
})

describe('the elbow’s lengths', () => {
  it('stand outside: the first 54 under the tube’s middle, as 38 would touch it', () => {
    // Letters 9.04 over a line at 38 are 28.96 off the middle: less than the tube's 21 and their own 8.68.
    const { inks } = seen(elbow)
    expect(straightLines(inks)).toContainEqual([at(0, 54), at(200, 54)])
    expect(placeOf(inks, '200')).toEqual(at(100, 44.96))
    expect(straightLines(inks)).toContainEqual([at(354, -100), at(354, -250)])
    expect(placeOf(inks, '150')).toEqual(at(344.96, -175))
  })

  it('start their extension lines 4 off the tube and end them 5 past the line', () => {
    expect(lines(seen(elbow).inks, 'extension')).toEqual(
      expect.arrayContaining([
        [at(0, 24), at(0, 59)],
        [at(200, 24), at(200, 59)],
        [at(324, -100), at(359, -100)],
        [at(324, -250), at(359, -250)],
      ]),
    )
  })

  it('stand above a bend to the other side, where 38 is enough: letters over the line are farther off', () => {
    const { inks } = seen(bentBy({ rotationDeg: 180 }))
    expect(straightLines(inks)).toContainEqual([at(0, -38), at(200, -38)])
    expect(straightLines(inks)).toContainEqual([at(354, 100), at(354, 250)])
  })

  it('of a plain straight stand under it', () => {
    const { inks } = seen({ ...elbow, bends: [] }, { dimensionPieces: new Set([0]) })
    expect(straightLines(inks)[0]).toEqual([at(0, 54), at(150, 54)])
  })

  it('of nothing are not given', () => {
    const words = texts(seen(bentBy({ straightBeforeMm: 0 })).inks).map(({ text }) => text)
    expect(words.sort()).toEqual(['120', '150', '270', '90°', 'R 100'])
  })

  it('over all stand 26 under and 22 right of everything else', () => {
    // Lowest: the line at 54 with 2 of its own, 56. Farthest right: the angle's letters, 352.969 + 3.92 + 8.68 = 365.569.
    const { inks } = seen(elbow)
    expect(straightLines(inks)).toContainEqual([at(0, 82), at(320, 82)])
    expect(placeOf(inks, '320')).toEqual(at(160, 72.96))
    expect(straightLines(inks)).toContainEqual([at(387.569, 20), at(387.569, -250)])
    expect(placeOf(inks, '270')).toEqual(at(378.529, -115))
    expect(lines(inks, 'extension')).toContainEqual([at(0, 26), at(0, 87)])
    expect(lines(inks, 'extension')).toContainEqual([at(326, 20), at(392.569, 20)])
  })

  it('over all are given each for itself, in the unit asked for', () => {
    const words = (across: boolean, up: boolean) =>
      texts(seen(elbow, { units: 'in', dimensionPieces: new Set(), overall: { across, up } }).inks).map(
        ({ text }) => text,
      )
    // 320 / 25.4 = 12.598; 270 / 25.4 = 10.630.
    expect(words(true, false)).toEqual(['12.598'])
    expect(words(false, true)).toEqual(['10.63'])
  })

  it('make the drawing reach from the tube’s ends, a pixel round them, to the lines over all', () => {
    const { left, top, right, bottom } = seen(elbow).box
    expect([left, top, right, bottom]).toEqual([-21, -271, 389.569, 84].map((px) => expect.closeTo(px, 3)))
  })

  it('are the same at twice the scale, the tube twice as large', () => {
    const twice = seen(elbow, { scalePxPerMm: 2 })
    expect(texts(twice.inks).map(({ text }) => text)).toEqual(
      expect.arrayContaining(['200', '150', '320', '270']),
    )
    // 40 for half the tube and 34: as at 18 the letters would touch it.
    expect(straightLines(twice.inks)).toContainEqual([at(0, 74), at(400, 74)])
  })
})

describe('the elbow’s note', () => {
  it('points from the inner side at the arc’s middle', () => {
    // Toward the centre by 20 + 18: (243.841, -56.159). 42 of words and 26.6 for the number are 68.6: half of it and 4 further left,
    // 0.7071 · 13.3 · 0.35 = 3.2916 further up.
    const { inks } = seen(elbow)
    expect(lines(inks, 'leader')).toEqual([[at(270.7107, -29.2893), at(242.841, -59.451)]])
    expect(placeOf(inks, 'R 100')).toEqual(at(197.841, -59.451))
    expect(inks.find((ink) => ink.kind === 'balloon')).toMatchObject({
      at: at(183.141, -59.451),
      text: '1',
      bend: 0,
    })
  })

  it('says by how much the plane is turned, and in a view that carries no dimensions only the number', () => {
    const note = (part: DrawnPart, change: Partial<ViewSettings> = {}) =>
      texts(seen(part, change).inks).flatMap(({ anchor, text }) => (anchor === 'start' ? [text] : []))
    expect(note(bentBy({ rotationDeg: 180 }))).toEqual(['R 100', 'turned 180°'])
    expect(note(elbow, { units: 'in' })).toEqual(['R 3.937'])
    const bare = { dimensionPieces: new Set<number>(), overall: { across: false, up: false } }
    expect(note(bentBy({ rotationDeg: 180 }), bare)).toEqual([])
    expect(seen(elbow, bare).inks.map(({ kind }) => kind)).toEqual(['line', 'balloon'])
  })
})

describe('the elbow’s ends', () => {
  const cutNotes = (change: Partial<DrawnPart>, units: 'mm' | 'in' = 'mm') =>
    texts(seen({ ...elbow, ...change }, { dimensionPieces: new Set(), units }).inks)
      .filter(({ anchor }) => anchor === 'start')
      .map(({ text }) => text)

  it('have their cuts noted ahead of them, leaning 0.9 rad off the tube’s own way', () => {
    // Start, looking back along -x: 44 along (-0.62161, -0.78333) to (-27.351, -34.466). "mitre 30°" is 75.6 wide: left by half of
    // it and 4, up by 0.78333 · 8.75 · 0.35 = 2.399.
    const mitre = { kind: 'mitre', angleDeg: 30 } as const
    const first = seen({ ...elbow, startCut: mitre }).inks
    expect(placeOf(first, 'mitre 30°')).toEqual(at(-106.951, -36.865))
    expect(lines(first, 'leader')).toContainEqual([at(0, 0), at(-28.351, -36.865)])
    // End, looking up the sheet: 44 along (0.78333, -0.62161) from (300, -250).
    const last = seen({ ...elbow, endCut: mitre }).inks
    expect(placeOf(last, 'mitre 30°')).toEqual(at(338.466, -279.255))
    expect(lines(last, 'leader')).toContainEqual([at(300, -250), at(335.466, -279.255)])
  })

  it('have no note for a square cut or none', () => {
    expect(cutNotes({ startCut: { kind: 'square' } })).toEqual([])
    expect(cutNotes({})).toEqual([])
  })

  it('say angle, lean and turn where there is something to say', () => {
    expect(cutNotes({ endCut: { kind: 'mitre', angleDeg: 45, rotationDeg: 0 } })).toEqual(['mitre 45°'])
    expect(cutNotes({ endCut: { kind: 'mitre', angleDeg: 45, rotationDeg: -15 } })).toEqual([
      'mitre 45°',
      'turned −15°',
    ])
    expect(cutNotes({ startCut: { kind: 'saddle', onDiameterMm: 60.3 } }, 'in')).toEqual(['saddle on Ø2.374'])
    expect(
      cutNotes({ startCut: { kind: 'saddle', onDiameterMm: 60.3, angleDeg: 90, rotationDeg: 5 } }),
    ).toEqual(['saddle on Ø60.3', 'turned 5°'])
    expect(cutNotes({ startCut: { kind: 'saddle', onDiameterMm: 60.3, angleDeg: 45 } })).toEqual([
      'saddle on Ø60.3',
      'at 45°',
    ])
  })

  it('are noted from side view alone', () => {
    const part: DrawnPart = { ...elbow, endCut: { kind: 'mitre', angleDeg: 45 } }
    for (const name of ['plan', 'end', 'isometric'] as const)
      expect(texts(seen(part, {}, name).inks).map(({ text }) => text)).not.toContain('mitre 45°')
  })
})

describe('what is seen true', () => {
  const pieces = (rotationDeg: number, angleDeg = 90) => tubeMesh(bentBy({ rotationDeg, angleDeg })).pieces
  const isTrue = (piece: ReturnType<typeof pieces>[number] | undefined, name: ViewName) =>
    piece !== undefined && seenTrue(piece, views[name])

  it('is a straight across the line of sight, within a hundredth of its length', () => {
    // The last straight of a bend turned by a: along (0, cos a, sin a): sin 0.5° = 0.0087, sin 0.6° = 0.0105.
    expect(isTrue(pieces(0.5)[2], 'elevation')).toBe(true)
    expect(isTrue(pieces(0.6)[2], 'elevation')).toBe(false)
    expect(isTrue(pieces(-0.5)[2], 'elevation')).toBe(true)
    expect(isTrue(pieces(-0.6)[2], 'elevation')).toBe(false)
    expect(isTrue(pieces(0)[2], 'plan')).toBe(false)
    expect(isTrue(pieces(0)[0], 'plan')).toBe(true)
    expect(isTrue(pieces(0)[0], 'end')).toBe(false)
  })
  it('is a bend whose plane is square to the line of sight, within 8 degrees, from either side', () => {
    // 1 - cos 8° = 0.0097, 1 - cos 8.2° = 0.0102.
    for (const turned of [0, 8, -8, 180, 188]) expect(isTrue(pieces(turned)[1], 'elevation')).toBe(true)
    for (const turned of [8.2, -8.2, 90, 172 - 0.3])
      expect(isTrue(pieces(turned)[1], 'elevation')).toBe(false)
    expect(isTrue(pieces(90)[1], 'plan')).toBe(true)
  })
})
