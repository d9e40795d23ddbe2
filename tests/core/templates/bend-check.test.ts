import { describe, expect, it } from 'vitest'
import { bendCheckTemplate, trimmed } from '@/lib/core/templates/bend-check'
import { boundsOf, type Primitive, type Template, type TemplatePoint } from '@/lib/core/templates/primitive'

/**
 * A quarter bend at R 100 of a tube 40 high, legs of 60. Worked from the start of the bend: the near leg runs along x to (0, 0),
 * the bend turns about (0, 100), the far leg runs up from (100, 100).
 */
const quarter = { finalAngleDeg: 90, finalRadiusMm: 100, tubeHeightMm: 40, legMm: 60 }
// The sheet's left edge is the near leg's end; its lower edge the foot of the lowest words: 20 + 6 under the axis, less 0.25 · 3.
const onSheet = ([xMm, yMm]: TemplatePoint) => [expect.closeTo(xMm + 60, 6), expect.closeTo(yMm + 26.75, 6)]
const drawnFrom = (from: TemplatePoint, to: TemplatePoint) =>
  expect.objectContaining({ kind: 'line', from: onSheet(from), to: onSheet(to) })
const on = (template: Template, layer: string) => template.primitives.filter((one) => one.layer === layer)
const wordsOf = ({ primitives }: Template) =>
  primitives.filter((one): one is Primitive & { kind: 'text' } => one.kind === 'text')

describe('the sheet for a quarter bend', () => {
  const template = () => bendCheckTemplate(quarter)

  it('has both edges of both legs, 20 mm off the axis', () => {
    const cuts = on(template(), 'CUT')
    expect(cuts).toContainEqual(drawnFrom([-60, -20], [0, -20]))
    expect(cuts).toContainEqual(drawnFrom([-60, 20], [0, 20]))
    // Outside of the turn is away from its centre: right of the far leg.
    expect(cuts).toContainEqual(drawnFrom([120, 100], [120, 160]))
    expect(cuts).toContainEqual(drawnFrom([80, 100], [80, 160]))
  })

  it('has the axis of both legs, and all three arcs about one centre', () => {
    const axes = on(template(), 'CENTRE')
    expect(axes).toContainEqual(drawnFrom([-60, 0], [0, 0]))
    expect(axes).toContainEqual(drawnFrom([100, 100], [100, 160]))
    const arcs = template().primitives.filter((one) => one.kind === 'arc')
    expect(arcs).toHaveLength(3)
    for (const arc of arcs) expect(arc).toMatchObject({ centre: onSheet([0, 100]), startDeg: -90, endDeg: 0 })
  })

  it('closes the outline across the end of each leg', () => {
    expect(on(template(), 'CUT')).toContainEqual(drawnFrom([120, 160], [80, 160]))
    expect(on(template(), 'CUT')).toContainEqual(
      expect.objectContaining({ kind: 'polyline', points: [onSheet([-60, -20]), onSheet([-60, 20])] }),
    )
  })

  it('marks start, end and middle of the bend by lines 4 mm past both edges', () => {
    // From 100 - 20 - 4 = 76 to 100 + 20 + 4 = 124 mm off the centre; half way at 45 degrees: 76 and 124 times sqrt(1/2).
    const [near, far] = [76 * Math.SQRT1_2, 124 * Math.SQRT1_2]
    expect(on(template(), 'MARK')).toEqual([
      drawnFrom([0, 24], [0, -24]),
      drawnFrom([76, 100], [124, 100]),
      drawnFrom([near, 100 - near], [far, 100 - far]),
    ])
  })

  it('of 60 degrees has its middle line at 30', () => {
    // About (0, 100): 76 and 124 at 30 degrees from straight down, (0.5, -0.8660254).
    const marks = on(bendCheckTemplate({ ...quarter, finalAngleDeg: 60 }), 'MARK')
    expect(marks[2]).toEqual(drawnFrom([38, 100 - 65.817931], [62, 100 - 107.38715]))
  })

  it('writes inside the near leg what bend it is, and at each edge that edge’s radius', () => {
    expect(wordsOf(template()).map(({ text, at, heightMm }) => ({ text, at, heightMm }))).toEqual([
      { text: 'Bend  90°', at: onSheet([-57, 3]), heightMm: 3 },
      { text: 'CLR 100 mm', at: onSheet([-57, -6.6]), heightMm: 3 },
      { text: 'outside edge, radius 120 mm', at: onSheet([-57, -26]), heightMm: 3 },
      { text: 'inside edge, radius 80 mm', at: onSheet([-57, 22]), heightMm: 3 },
    ])
    expect(template().title).toBe('Bend check, bend: 90°, centreline radius 100 mm')
    expect(template().notes).toHaveLength(3)
  })

  it('lies with its lower left corner at 0, 0', () => {
    const { leftMm, bottomMm } = boundsOf(template().primitives)
    expect([leftMm, bottomMm]).toEqual([expect.closeTo(0, 9), expect.closeTo(0, 9)])
  })
})

describe('a bend with a tolerance', () => {
  const template = () => bendCheckTemplate({ ...quarter, angleToleranceDeg: 30, name: 'P-7' })

  it('has the outside edge of the far leg turned about the bend’s centre by as much either way', () => {
    // Outside radius 120 about (0, 100). At 60 degrees the leg starts at 120 (sin 60, -cos 60) = (103.923, -60) off it and runs 60 along
    // (cos 60, sin 60) = (30, 51.962); at 120 degrees from (103.923, 60) along (-30, 51.962).
    expect(on(template(), 'LIMIT')).toEqual([
      {
        kind: 'line',
        layer: 'LIMIT',
        from: onSheet([103.923048, 40]),
        to: onSheet([133.923048, 91.961524]),
      },
      {
        kind: 'line',
        layer: 'LIMIT',
        from: onSheet([103.923048, 160]),
        to: onSheet([73.923048, 211.961524]),
      },
    ])
  })

  it('says so beside the angle and in the notes, with the bend’s own name', () => {
    expect(wordsOf(template())[0]?.text).toBe('P-7  90° ± 30')
    expect(template().title).toMatch(/^Bend check, P-7: 90°/)
    expect(template().notes).toHaveLength(4)
    expect(template().notes.join(' ')).toMatch(/Dashed/)
  })

  it('of nothing has no limits', () => {
    const none = bendCheckTemplate({ ...quarter, angleToleranceDeg: 0 })
    expect(on(none, 'LIMIT')).toEqual([])
    expect(wordsOf(none)[0]?.text).toBe('Bend  90°')
    expect(none.notes.join(' ')).not.toMatch(/Dashed/)
  })
})

describe('the legs of a bend check', () => {
  const nearLegMm = (tubeHeightMm: number) => {
    const { legMm: _, ...bend } = { ...quarter, tubeHeightMm }
    const [axis] = on(bendCheckTemplate(bend), 'CENTRE')
    return axis?.kind === 'line' ? axis.to[0] - axis.from[0] : Number.NaN
  }
  it('are 80 mm, and twice the tube where that is more', () => {
    expect(nearLegMm(25)).toBeCloseTo(80, 9)
    expect(nearLegMm(40)).toBeCloseTo(80, 9)
    expect(nearLegMm(50)).toBeCloseTo(100, 9)
  })

  it('hold their words between their edges, however thin the tube', () => {
    for (const tubeHeightMm of [6, 12, 24, 25, 60]) {
      const template = bendCheckTemplate({ ...quarter, tubeHeightMm })
      const [axis] = on(template, 'CENTRE')
      const axisMm = axis?.kind === 'line' ? axis.from[1] : Number.NaN
      for (const one of wordsOf(template).slice(0, 2)) {
        const { bottomMm, topMm } = boundsOf([one])
        expect(topMm).toBeLessThan(axisMm + tubeHeightMm / 2)
        expect(bottomMm).toBeGreaterThan(axisMm - tubeHeightMm / 2)
      }
    }
    // A quarter of half the height, and 3 mm at most: 12 / 8 = 1.5.
    const thin = wordsOf(bendCheckTemplate({ ...quarter, tubeHeightMm: 12 }))
    expect(thin.map(({ heightMm }) => heightMm)).toEqual([1.5, 1.5, 3, 3])
  })
})

describe('what has no bend check', () => {
  it('is no turn, half a turn and no number', () => {
    for (const finalAngleDeg of [0, -30, 180, Number.NaN])
      expect(() => bendCheckTemplate({ ...quarter, finalAngleDeg })).toThrow(/has no template/)
    for (const finalAngleDeg of [0.1, 179.9])
      expect(() => bendCheckTemplate({ ...quarter, finalAngleDeg })).not.toThrow()
  })
  it('is a tube of no height', () => {
    for (const tubeHeightMm of [0, -1, Number.NaN])
      expect(() => bendCheckTemplate({ ...quarter, tubeHeightMm })).toThrow(/no edges/)
  })
  it('is a radius of half the tube: its inside edge is a point', () => {
    expect(() => bendCheckTemplate({ ...quarter, finalRadiusMm: 20 })).toThrow(/no inside edge/)
    expect(() => bendCheckTemplate({ ...quarter, finalRadiusMm: 20.01 })).not.toThrow()
  })
})

it('a number on a template has two places at most and no idle zeros', () => {
  expect([12.345678, 100, 0.1 + 0.2, 38.1, -0.5].map(trimmed)).toEqual([
    '12.35',
    '100',
    '0.3',
    '38.1',
    '-0.5',
  ])
})
