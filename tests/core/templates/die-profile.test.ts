import { describe, expect, it } from 'vitest'
import { dieProfileTemplate, sagittaMm } from '@/lib/core/templates/die-profile'
import { boundsOf, type TemplatePoint } from '@/lib/core/templates/primitive'

/**
 * R 100, 50 degrees of contact and the usual 5 degrees past it at each side: the arc reaches 30 degrees from the middle, to
 * (50, 86.6025) about its own centre. The block is 50 deep there: base at 36.6025.
 */
const die = { surfaceRadiusMm: 100, wrappedAngleDeg: 50 }
const EDGE_MM = 100 * Math.cos(Math.PI / 6)
const BASE_MM = EDGE_MM - 50
// The lowest thing drawn is the foot of the centre line, 4 mm under the base; the left one is the block's side.
const onSheet = ([xMm, yMm]: TemplatePoint) => [
  expect.closeTo(xMm + 50, 6),
  expect.closeTo(yMm - (BASE_MM - 4), 6),
]
const lineFrom = (layer: string, from: TemplatePoint, to: TemplatePoint) => ({
  kind: 'line',
  layer,
  from: onSheet(from),
  to: onSheet(to),
})

describe('the side view of a die', () => {
  const template = () => dieProfileTemplate(die)
  const linesOn = (wanted: string) =>
    template().primitives.filter(({ kind, layer }) => kind === 'line' && layer === wanted)

  it('is an arc on a block: two upright sides and a base', () => {
    expect(template().primitives[0]).toEqual({
      kind: 'arc',
      layer: 'CUT',
      centre: onSheet([0, 0]),
      radiusMm: 100,
      startDeg: 60,
      endDeg: 120,
    })
    expect(linesOn('CUT')).toEqual([
      lineFrom('CUT', [50, EDGE_MM], [50, BASE_MM]),
      lineFrom('CUT', [50, BASE_MM], [-50, BASE_MM]),
      lineFrom('CUT', [-50, BASE_MM], [-50, EDGE_MM]),
    ])
  })

  it('has the ram’s axis from 4 mm under the base to 6 mm over the crown', () => {
    expect(linesOn('CENTRE')).toEqual([lineFrom('CENTRE', [0, BASE_MM - 4], [0, 106])])
  })

  it('has a tick across the surface where contact ends, 25 degrees to each side', () => {
    // From 100 - 12 to 100 + 4 mm off the centre; sin 25 = 0.42261826, cos 25 = 0.90630779.
    const [x, y] = [0.42261826, 0.90630779]
    expect(linesOn('MARK')).toEqual([
      lineFrom('MARK', [88 * x, 88 * y], [104 * x, 104 * y]),
      lineFrom('MARK', [-88 * x, 88 * y], [-104 * x, 104 * y]),
    ])
  })

  it('says its radius and contact beside the axis, over the base', () => {
    const { primitives, title, notes } = template()
    const words = primitives.flatMap((one) => (one.kind === 'text' ? [one] : []))
    expect(words.map(({ text, at, heightMm }) => ({ text, at, heightMm }))).toEqual([
      { text: 'Die  surface radius 100 mm', at: onSheet([3, BASE_MM + 10]), heightMm: 3.5 },
      { text: 'contact 50° between the ticks', at: onSheet([3, BASE_MM + 4]), heightMm: 3 },
    ])
    expect(boundsOf(words.slice(1)).topMm).toBeLessThan(boundsOf(words.slice(0, 1)).bottomMm)
    expect(title).toBe('Die profile, Die: surface radius 100 mm')
    expect(notes).toHaveLength(4)
  })

  it('takes the run-out, depth, groove and name it is given', () => {
    const given = dieProfileTemplate({
      ...die,
      runOutDeg: 10,
      blockDepthMm: 70,
      grooveWidthMm: 41.5,
      name: 'D-3',
    })
    expect(given.primitives[0]).toMatchObject({ startDeg: 55, endDeg: 125 })
    const [side] = given.primitives.filter(({ kind, layer }) => kind === 'line' && layer === 'CUT')
    expect(side?.kind === 'line' ? side.from[1] - side.to[1] : 0).toBeCloseTo(70, 9)
    expect(given.notes).toContain('Groove 41.5 mm wide across the face, square to this side.')
    expect(given.title).toMatch(/^Die profile, D-3:/)
  })
})

describe('the straight edge to check a die by', () => {
  const check = (surfaceRadiusMm: number) =>
    dieProfileTemplate({ surfaceRadiusMm, wrappedAngleDeg: 50 }).notes.find((note) =>
      note.startsWith('Check'),
    )
  it.each([
    // The arc is as wide as its radius here (30 degrees to each side).
    [200, '100', '6.35'], // 200 - sqrt(200² - 50²) = 200 - 193.649
    [90, '90', '12.06'], // 90 - sqrt(90² - 45²) = 90 - 77.942
    [61, '60', '7.89'], // 30.5 to each side, held to whole millimetres: 61 - sqrt(61² - 30²) = 61 - 53.113
  ])('on R %d is %s mm long and stands %s mm off at its middle', (radiusMm, longMm, offMm) => {
    expect(check(radiusMm)).toBe(
      `Check: a straight edge ${longMm} mm long across the arc leaves ${offMm} mm at its middle.`,
    )
  })
})

describe('what no die is sawn for', () => {
  it('is a surface without a radius', () => {
    for (const surfaceRadiusMm of [0, -50, Number.NaN])
      expect(() => dieProfileTemplate({ ...die, surfaceRadiusMm })).toThrow(/cannot be sawn/)
  })
  it('is no contact, or half a turn of it', () => {
    for (const wrappedAngleDeg of [0, -1, 180, Number.NaN])
      expect(() => dieProfileTemplate({ ...die, wrappedAngleDeg })).toThrow(/does not fit a press die/)
    for (const wrappedAngleDeg of [0.5, 179.5])
      expect(() => dieProfileTemplate({ ...die, wrappedAngleDeg })).not.toThrow()
  })
})

describe('the rise of an arc over its chord', () => {
  it('is nothing for no chord and the radius for the diameter', () => {
    expect(sagittaMm({ radiusMm: 65, chordMm: 0 })).toBe(0)
    expect(sagittaMm({ radiusMm: 65, chordMm: 130 })).toBe(65)
  })
  it('follows the triangles 3-4-5 and 5-12-13', () => {
    expect(sagittaMm({ radiusMm: 5, chordMm: 6 })).toBeCloseTo(1, 12)
    expect(sagittaMm({ radiusMm: 5, chordMm: 8 })).toBeCloseTo(2, 12)
    expect(sagittaMm({ radiusMm: 13, chordMm: 10 })).toBeCloseTo(1, 12)
  })
  it('has no answer for a chord longer than the circle is wide, or below nothing', () => {
    for (const chordMm of [130.001, -0.001, Number.NaN])
      expect(() => sagittaMm({ radiusMm: 65, chordMm })).toThrow(/does not fit a circle/)
  })
})
