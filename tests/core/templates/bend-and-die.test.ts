import { describe, expect, it } from 'vitest'
import { bendCheckTemplate } from '@/lib/core/templates/bend-check'
import { dieProfileTemplate, sagittaMm } from '@/lib/core/templates/die-profile'
import { boundsOf, type Primitive, pointOnCircle } from '@/lib/core/templates/primitive'
import { scribingStripTemplate } from '@/lib/core/templates/scribing-strip'

const arcsOf = (primitives: readonly Primitive[]) =>
  primitives.filter((primitive) => primitive.kind === 'arc')

describe('bend check template', () => {
  const bend = { finalAngleDeg: 32, finalRadiusMm: 250, tubeHeightMm: 38.1 }

  it('draws the outside, inside and centreline at R + h/2, R - h/2 and R', () => {
    // By hand: 250 + 19.05, 250 - 19.05, 250
    const radii = arcsOf(bendCheckTemplate(bend).primitives).map(({ radiusMm }) => radiusMm)
    expect(radii).toEqual([269.05, 230.95, 250])
  })

  it('turns by the final angle', () => {
    for (const { startDeg, endDeg } of arcsOf(bendCheckTemplate(bend).primitives))
      expect(endDeg - startDeg).toBeCloseTo(32, 12)
  })

  it('keeps each leg tangent to its arc, so that the edge has no corner', () => {
    const { primitives } = bendCheckTemplate(bend)
    const [outside] = arcsOf(primitives)
    const legs = primitives.filter((primitive) => primitive.kind === 'line' && primitive.layer === 'CUT')
    const end = outside ? pointOnCircle(outside.centre, outside.radiusMm, outside.endDeg) : [0, 0]
    const leg = legs.find(
      (line) =>
        line.kind === 'line' && Math.hypot(line.from[0] - (end[0] ?? 0), line.from[1] - (end[1] ?? 0)) < 1e-9,
    )
    expect(leg?.kind).toBe('line')
    if (leg?.kind !== 'line') return
    const directionDeg = (Math.atan2(leg.to[1] - leg.from[1], leg.to[0] - leg.from[0]) * 180) / Math.PI
    expect(directionDeg).toBeCloseTo(32, 9)
  })

  it('draws both limits of the angle where a tolerance is given', () => {
    const limits = bendCheckTemplate({ ...bend, angleToleranceDeg: 1 }).primitives.filter(
      ({ layer }) => layer === 'LIMIT',
    )
    const directions = limits.map((line) =>
      line.kind === 'line'
        ? (Math.atan2(line.to[1] - line.from[1], line.to[0] - line.from[0]) * 180) / Math.PI
        : 0,
    )
    expect(directions).toEqual([expect.closeTo(31, 9), expect.closeTo(33, 9)])
  })

  it('refuses a radius that leaves no inside edge', () => {
    expect(() => bendCheckTemplate({ ...bend, finalRadiusMm: 19 })).toThrow(/no inside edge/)
  })

  it('refuses a bend of half a turn', () => {
    expect(() => bendCheckTemplate({ ...bend, finalAngleDeg: 180 })).toThrow(RangeError)
  })
})

describe('die profile', () => {
  it('has the surface radius asked for and runs past the contact at both ends', () => {
    const [surface] = arcsOf(
      dieProfileTemplate({ surfaceRadiusMm: 205, wrappedAngleDeg: 40, runOutDeg: 5 }).primitives,
    )
    expect(surface?.radiusMm).toBe(205)
    expect((surface?.endDeg ?? 0) - (surface?.startDeg ?? 0)).toBeCloseTo(50, 12)
  })

  it('is as wide as the chord of its arc', () => {
    // By hand: 2 * 205 * sin 25 = 410 * 0.4226183 = 173.2735
    const { leftMm, rightMm } = boundsOf(
      arcsOf(dieProfileTemplate({ surfaceRadiusMm: 205, wrappedAngleDeg: 40 }).primitives),
    )
    expect(rightMm - leftMm).toBeCloseTo(173.2735, 4)
  })

  it('gives the sagitta of a 100 mm chord on a 130 mm radius as 10 mm', () => {
    // 50-120-130 is a Pythagorean triple: 130 - 120 = 10
    expect(sagittaMm({ radiusMm: 130, chordMm: 100 })).toBeCloseTo(10, 12)
  })

  it('never undercuts: the arc stops at a quarter circle each side', () => {
    const [surface] = arcsOf(dieProfileTemplate({ surfaceRadiusMm: 60, wrappedAngleDeg: 176 }).primitives)
    expect([surface?.startDeg, surface?.endDeg]).toEqual([0, 180])
  })
})

describe('scribing strip', () => {
  const marks = [
    { atMm: 512.4, kind: 'bendCentre', label: 'bend 1 centre' },
    { atMm: 440.25, kind: 'tangent', label: 'bend 1 start' },
    { atMm: 440.25, kind: 'trim', label: 'trim' },
  ] as const

  it('puts every mark at its distance from the datum end', () => {
    const lines = scribingStripTemplate({ blankLengthMm: 900, marks }).primitives.filter(
      (primitive) =>
        primitive.kind === 'line' &&
        (primitive.layer === 'MARK' || primitive.layer === 'CENTRE') &&
        primitive.from[1] === 0,
    )
    expect(lines.map((line) => (line.kind === 'line' ? line.from[0] : 0))).toEqual([440.25, 440.25, 512.4])
  })

  it('moves labels apart and leaves their marks where they are', () => {
    const labels = scribingStripTemplate({ blankLengthMm: 900, marks }).primitives.filter(
      (primitive) => primitive.kind === 'text' && primitive.layer === 'TEXT',
    )
    const places = labels.map((label) => (label.kind === 'text' ? label.at[0] : 0))
    expect((places[1] ?? 0) - (places[0] ?? 0)).toBeGreaterThanOrEqual(4)
  })

  it('refuses a mark off the blank', () => {
    expect(() => scribingStripTemplate({ blankLengthMm: 400, marks })).toThrow(/off the 400 mm blank/)
  })
})
