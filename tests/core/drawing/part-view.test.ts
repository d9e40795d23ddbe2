import { describe, expect, it } from 'vitest'
import { alignedDimension, leaderNote } from '@/lib/core/drawing/dimension'
import type { Ink } from '@/lib/core/drawing/ink'
import type { DrawnPart } from '@/lib/core/drawing/part'
import { partSheet } from '@/lib/core/drawing/part-sheet'
import { drawView, type ViewSettings } from '@/lib/core/drawing/part-view'
import type { ViewName } from '@/lib/core/drawing/projection'
import { tubeMesh } from '@/lib/core/drawing/tube-mesh'

/** 200 along x, a right angle of 100 toward y, 150 on: corner at (300, 0), end at (300, 250). On the sheet y points down. */
const elbow: DrawnPart = {
  tube: { shape: 'square', widthMm: 40, heightMm: 40, wallMm: 3 },
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
const seen = (part: DrawnPart, change: Partial<ViewSettings> = {}, name: ViewName = 'elevation') =>
  drawView(part, tubeMesh(part), name, { ...settings, ...change })
type Text = Extract<Ink, { kind: 'text' }>
const textsOf = (inks: readonly Ink[]) => inks.filter((ink): ink is Text => ink.kind === 'text')
const linesOf = (inks: readonly Ink[], line: string) =>
  inks.flatMap((ink) => (ink.kind === 'line' && ink.line === line ? [ink.points] : []))
const near = (value: number | undefined, wanted: number) => expect(value).toBeCloseTo(wanted, 6)

describe('a bent tube seen from the side', () => {
  const drawn = () => {
    const view = seen(elbow)
    return { ...view, texts: textsOf(view.inks) }
  }

  it('runs both tangents on to their corner, and the angle’s arc from the one to the other', () => {
    const { inks, texts } = drawn()
    const [first, second] = linesOf(inks, 'construction')
    expect(first?.[0]?.[0]).toBeCloseTo(200, 6)
    for (const point of first ?? []) near(point[1], 0)
    expect(first?.[1]?.[0]).toBeGreaterThan(300)
    near(second?.[0]?.[0], 300)
    near(second?.[0]?.[1], 0)
    near(second?.[1]?.[0], 300)
    near(second?.[1]?.[1], -100)
    const arc = linesOf(inks, 'dimension').find((points) => points.length > 2) ?? []
    const radius = (arc[0]?.[0] ?? 0) - 300
    expect(radius).toBeGreaterThan(20)
    for (const [x, y] of arc) near(Math.hypot(x - 300, y), radius)
    near(arc[0]?.[1], 0)
    near(arc.at(-1)?.[0], 300)
    near(arc.at(-1)?.[1], -radius)
    near(arc[6]?.[0], 300 + radius * Math.SQRT1_2)
    const angle = texts.find(({ text }) => text === '90°')
    expect(angle?.at[0]).toBeGreaterThan(300 + radius * 0.2)
    expect(angle?.at[1]).toBeLessThan(0)
  })

  it('gives each straight a dimension of its own length beside it, on the outside', () => {
    const { inks, texts } = drawn()
    const straight = linesOf(inks, 'dimension').filter((points) => points.length === 2)
    const flat = straight.find(
      ([a, b]) => a && b && Math.abs(a[1] - b[1]) < 1e-6 && Math.abs(b[0] - a[0] - 200) < 1e-6,
    )
    near(flat?.[0]?.[0], 0)
    // The rest of the part lies above the first straight: below it is outside.
    expect(flat?.[0]?.[1]).toBeGreaterThan(20)
    const upright = straight.find(
      ([a, b]) => a && b && Math.abs(a[0] - b[0]) < 1e-6 && Math.abs(Math.abs(b[1] - a[1]) - 150) < 1e-6,
    )
    expect(upright?.[0]?.[0]).toBeGreaterThan(320)
    const number = texts.find(({ text }) => text === '200')
    near(number?.at[0], 100)
    expect(number?.at[1]).toBeLessThan(flat?.[0]?.[1] ?? 0)
    near(texts.find(({ text }) => text === '150')?.at[1], -175)
  })

  it('measures all over: 300 and half a tube across, half a tube, 100 and 150 up', () => {
    const { texts } = drawn()
    expect(texts.map(({ text }) => text)).toEqual(expect.arrayContaining(['320', '270']))
    expect(
      textsOf(seen(elbow, { overall: { across: false, up: false } }).inks).map(({ text }) => text),
    ).toEqual(expect.not.arrayContaining(['320', '270']))
  })

  it('points its note at the middle of the arc, with radius and number, and no turn where there is none', () => {
    const { inks, texts } = drawn()
    const leader = linesOf(inks, 'leader')[0]
    near(leader?.[0]?.[0], 200 + 100 * Math.SQRT1_2)
    near(leader?.[0]?.[1], -(100 - 100 * Math.SQRT1_2))
    expect(texts.map(({ text }) => text)).toContain('R 100')
    expect(texts.some(({ text }) => text.startsWith('turned'))).toBe(false)
    expect(inks.filter((ink) => ink.kind === 'balloon').map(({ text }) => text)).toEqual(['1'])
  })

  it('holds everything in its box, but for the ends of extension lines', () => {
    const { inks, box, pieces } = drawn()
    const over = 5
    const points = inks.flatMap((ink) => (ink.kind === 'line' ? ink.points : [ink.at]))
    for (const [x, y] of [...points, ...pieces.flatMap((piece) => piece.covers.flat())]) {
      expect(x).toBeGreaterThanOrEqual(box.left - over)
      expect(x).toBeLessThanOrEqual(box.right + over)
      expect(y).toBeGreaterThanOrEqual(box.top - over)
      expect(y).toBeLessThanOrEqual(box.bottom + over)
    }
  })

  it('is half as large at half the scale, with the same numbers', () => {
    const half = seen(elbow, { scalePxPerMm: 0.5 })
    near(linesOf(half.inks, 'construction')[1]?.[0]?.[0], 150)
    expect(textsOf(half.inks).map(({ text }) => text)).toEqual(
      expect.arrayContaining(['200', '150', '90°', '320', '270', 'R 100']),
    )
    near(half.pieces[0]?.centreline.at(-1)?.[0], 100)
  })

  it('leaves the dimensions of other views to them', () => {
    const bare = textsOf(
      seen(elbow, { dimensionPieces: new Set(), overall: { across: false, up: false } }).inks,
    )
    expect(bare).toEqual([])
  })

  it('writes the angle in the note where the corner lies too far off to be marked', () => {
    const shallow = {
      ...elbow,
      bends: [{ straightBeforeMm: 200, angleDeg: 170, centrelineRadiusMm: 100, rotationDeg: 0 }],
    }
    const drawn = seen(shallow)
    expect(linesOf(drawn.inks, 'construction')).toEqual([])
    expect(textsOf(drawn.inks).map(({ text }) => text)).toContain('170°')
  })
})

describe('cuts of the ends', () => {
  const cut: DrawnPart = {
    ...elbow,
    startCut: { kind: 'saddle', onDiameterMm: 60.3, angleDeg: 60, rotationDeg: 90 },
    endCut: { kind: 'mitre', angleDeg: 30 },
  }
  it('are named beyond each end, once', () => {
    const { inks } = seen(cut)
    const texts = textsOf(inks)
    expect(texts.find(({ text }) => text === 'mitre 30°')?.at[1]).toBeLessThan(-250)
    expect(texts.find(({ text }) => text === 'saddle on Ø60.3')?.at[0]).toBeLessThan(0)
    expect(texts.map(({ text }) => text)).toEqual(expect.arrayContaining(['at 60°', 'turned 90°']))
    const tips = linesOf(inks, 'leader').map(([tip]) => tip?.map(Math.round))
    expect(tips).toEqual(
      expect.arrayContaining(
        [
          [0, -0],
          [300, -250],
        ].map((tip) => tip.map((value) => expect.closeTo(value, 6))),
      ),
    )
    expect(textsOf(seen(cut, {}, 'plan').inks).map(({ text }) => text)).not.toContain('mitre 30°')
  })
  it('a square-on saddle says no angle', () => {
    const square = { ...elbow, startCut: { kind: 'saddle', onDiameterMm: 60.3, angleDeg: 90 } as const }
    expect(textsOf(seen(square).inks).map(({ text }) => text)).not.toContain('at 90°')
  })
})

describe('which views a part needs', () => {
  const options = { widthPx: 900, mostHeightPx: 400, sizePx: 14, units: 'mm', arrangement: 'wide' } as const
  /** End 200 sin(turn) out of the first bend's plane: 0.70 mm at 0.2 degrees, 1.05 at 0.3. */
  const turned = (rotationDeg: number): DrawnPart => ({
    tube: { shape: 'rectangular', widthMm: 40, heightMm: 80, wallMm: 3 },
    bends: [
      { straightBeforeMm: 200, angleDeg: 90, centrelineRadiusMm: 100, rotationDeg: 0 },
      { straightBeforeMm: 200, angleDeg: 90, centrelineRadiusMm: 100, rotationDeg },
    ],
    straightAfterMm: 100,
  })
  const names = (part: DrawnPart, arrangement: 'wide' | 'narrow' = 'wide') =>
    partSheet(part, { ...options, arrangement })
      .views.map(({ name }) => name)
      .sort()

  it('is one while it lies within 2 percent of the smaller side, else three, or two on a narrow sheet', () => {
    expect(names(turned(0.2))).toEqual(['elevation'])
    expect(names(turned(180))).toEqual(['elevation'])
    expect(names(turned(0.3))).toEqual(['elevation', 'end', 'plan'])
    expect(names(turned(90), 'narrow')).toEqual(['elevation', 'plan'])
  })

  it('lie under and beside each other as third angle has them, and none over another', () => {
    for (const rotationDeg of [30, 90, -120]) {
      const sheet = partSheet(turned(rotationDeg), options)
      const at = (name: ViewName) => {
        const view = sheet.views.find((one) => one.name === name)
        if (!view) throw new Error(name)
        const [x, y] = view.originPx
        return {
          x,
          y,
          left: x + view.box.left,
          right: x + view.box.right,
          top: y + view.box.top,
          bottom: y + view.box.bottom,
        }
      }
      const [plan, elevation, end] = [at('plan'), at('elevation'), at('end')]
      near(plan.x, elevation.x)
      near(end.y, elevation.y)
      expect(plan.bottom).toBeLessThan(elevation.top)
      expect(Math.max(plan.right, elevation.right)).toBeLessThan(end.left)
      for (const view of [plan, elevation, end]) {
        expect(view.left).toBeGreaterThanOrEqual(-1e-6)
        expect(view.top).toBeGreaterThanOrEqual(20)
        expect(view.right).toBeLessThanOrEqual(sheet.widthPx + 1e-6)
        expect(view.bottom).toBeLessThanOrEqual(sheet.heightPx + 1e-6)
      }
    }
  })

  it('fit the sheet’s width, and fill more of it than a third', () => {
    for (const widthPx of [500, 900, 1400]) {
      const sheet = partSheet(turned(90), { ...options, widthPx, mostHeightPx: 5000 })
      expect(sheet.widthPx).toBe(widthPx)
      const boxes = sheet.views.map(({ box, originPx }) => [originPx[0] + box.left, originPx[0] + box.right])
      expect(
        Math.max(...boxes.map(([, right]) => right ?? 0)) - Math.min(...boxes.map(([left]) => left ?? 0)),
      ).toBeGreaterThan(widthPx / 3)
    }
    expect(
      partSheet(turned(90), { ...options, widthPx: 1400, mostHeightPx: 5000 }).scalePxPerMm,
    ).toBeGreaterThan(partSheet(turned(90), { ...options, widthPx: 500, mostHeightPx: 5000 }).scalePxPerMm)
  })

  it('say of a turned bend by how much, of the first nothing', () => {
    const texts = partSheet(turned(90), options).views.flatMap(({ inks }) =>
      textsOf(inks).map(({ text }) => text),
    )
    expect(texts.filter((text) => text.startsWith('turned'))).toEqual(['turned 90°'])
  })
})

describe('a leader’s note', () => {
  const note = (direction: number, balloon?: string) =>
    leaderNote({
      tip: [0, 0],
      lines: ['R 100', 'turned 90°'],
      ...(balloon !== undefined && { balloon, bend: 0 }),
      sizePx: 10,
      directionsRad: [direction],
      distancesPx: [60],
      taken: [],
    })
  it('stands its number before the text and leads to it from the left', () => {
    const { inks, spots } = note(0, '1')
    const balloon = inks.find((ink) => ink.kind === 'balloon')
    const [first, second] = textsOf(inks)
    expect(balloon?.at[0]).toBeGreaterThan(50)
    expect(first?.at[0]).toBeGreaterThanOrEqual((balloon?.at[0] ?? 0) + 9)
    expect((second?.at[1] ?? 0) - (first?.at[1] ?? 0)).toBeCloseTo(12.5, 9)
    near(balloon?.at[1], ((first?.at[1] ?? 0) + (second?.at[1] ?? 0)) / 2)
    expect(linesOf(inks, 'leader')[0]?.[1]).toEqual(balloon?.at)
    expect(spots).toContainEqual({ at: balloon?.at, radius: 9 })
  })
  it('to the left of its tip is reached from its right edge', () => {
    const { inks } = note(Math.PI, '1')
    const end = linesOf(inks, 'leader')[0]?.[1]
    const [first] = textsOf(inks)
    // Ten letters of 6 after the start.
    expect(end?.[0]).toBeGreaterThan((first?.at[0] ?? 0) + 60)
    expect(end?.[0]).toBeLessThan(0)
  })
  it('without a number starts with its text', () => {
    const { inks, spots } = note(0)
    expect(inks.some((ink) => ink.kind === 'balloon')).toBe(false)
    expect(linesOf(inks, 'leader')[0]?.[1]?.[0]).toBeLessThan(textsOf(inks)[0]?.at[0] ?? 0)
    expect(spots.some((spot) => 'at' in spot && spot.radius === 9)).toBe(false)
  })
})

describe('a dimension', () => {
  const of = (longPx: number, text = '200') =>
    alignedDimension({
      a: [0, 0],
      b: [longPx, 0],
      text,
      sizePx: 10,
      startPx: 5,
      distancesPx: [30],
      sides: [-1],
      taken: [],
    })
  it('stands on its side, between ticks, its text above the line', () => {
    const { inks } = of(100)
    expect(linesOf(inks, 'dimension')).toEqual([
      [
        [0, 30],
        [100, 30],
      ].map((point) => point.map((value) => expect.closeTo(value, 9))),
    ])
    expect(inks.filter((ink) => ink.kind === 'tick').map(({ at }) => at[0])).toEqual([0, 100])
    const [text] = textsOf(inks)
    near(text?.at[0], 50)
    expect(text?.at[1]).toBeLessThan(30)
    expect(text?.at[1]).toBeGreaterThan(18)
    for (const [from, to] of linesOf(inks, 'extension')) {
      expect(from?.[1]).toBeGreaterThan(5)
      expect(to?.[1]).toBeGreaterThan(30)
    }
  })
  it('too short for its text puts it past its end, on a line that reaches there', () => {
    const { inks } = of(20)
    const [text] = textsOf(inks)
    expect((text?.at[0] ?? 0) - 9).toBeGreaterThan(20)
    const [line] = linesOf(inks, 'dimension')
    near(line?.[0]?.[0], 0)
    expect(line?.[1]?.[0]).toBeCloseTo((text?.at[0] ?? 0) + 9, 6)
  })
})
