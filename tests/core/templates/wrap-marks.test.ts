import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Primitive, Template } from '@/lib/core/templates/primitive'
import { rectangularMitreCurve, rectangularMitreTemplate } from '@/lib/core/templates/rectangular-wrap'
import { mitreWrapTemplate, saddleWrapTemplate } from '@/lib/core/templates/round-wrap'

const textsOf = ({ primitives }: Template) =>
  primitives.filter((one): one is Primitive & { kind: 'text' } => one.kind === 'text')
const linesOf = ({ primitives }: Template, layer: string) =>
  primitives.filter((one): one is Primitive & { kind: 'line' } => one.kind === 'line' && one.layer === layer)
const curveOf = ({ primitives }: Template) => {
  const curve = primitives.find((one) => one.kind === 'polyline')
  return curve?.kind === 'polyline' ? curve.points : []
}
const last = <Value>(values: readonly Value[]): Value => {
  const value = values.at(-1)
  if (value === undefined) throw new Error('nothing there')
  return value
}

describe('the mitre round a rounded rectangle', () => {
  /** Height at a place along the girth, corners worked out as quarter circles: -h/2 + r (1 - cos b) and h/2 - r + r sin b. */
  const expected = (b: number, h: number, r: number, slope: number): [number, number][] => {
    const q = (Math.PI * r) / 2
    const first = b / 2 - r
    const side = first + q + h - 2 * r
    const half = side + q + first
    const rows: [number, number][] = [
      [0, -h / 2],
      [first, -h / 2],
      [first + q / 2, -h / 2 + r * (1 - Math.SQRT1_2)],
      [first + q, -h / 2 + r],
      [side, h / 2 - r],
      [side + q / 2, h / 2 - r + r * Math.SQRT1_2],
      [side + q, h / 2],
      // The other half is the first one's mirror image.
      [2 * half - side - q, h / 2],
      [2 * half - side - q / 2, h / 2 - r + r * Math.SQRT1_2],
      [2 * half - side, h / 2 - r],
      [2 * half - first - q, -h / 2 + r],
      [2 * half - first - q / 2, -h / 2 + r * (1 - Math.SQRT1_2)],
      [2 * half - first, -h / 2],
      [2 * half, -h / 2],
    ]
    return rows.map(([x, v]) => [x, v * slope])
  }

  it('passes through the places worked out for every flat and corner, all the way round', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 120, noNaN: true }),
        fc.double({ min: 20, max: 120, noNaN: true }),
        fc.double({ min: 0.05, max: 0.45, noNaN: true }),
        fc.double({ min: 5, max: 70, noNaN: true }),
        (widthMm, heightMm, share, cutAngleDeg) => {
          const r = share * Math.min(widthMm, heightMm)
          const curve = rectangularMitreCurve({ widthMm, heightMm, cornerRadiusMm: r, cutAngleDeg })
          const slope = Math.tan((cutAngleDeg * Math.PI) / 180)
          for (const [x, y] of expected(widthMm, heightMm, r, slope)) {
            const nearest = curve.reduce((best, point) =>
              Math.abs(point[0] - x) < Math.abs(best[0] - x) ? point : best,
            )
            expect(nearest[0]).toBeCloseTo(x, 6)
            expect(nearest[1]).toBeCloseTo(y, 6)
          }
          for (const [index, point] of curve.entries())
            expect(point[0]).toBeGreaterThanOrEqual(curve[index - 1]?.[0] ?? 0)
        },
      ),
      { numRuns: 40 },
    )
  })

  const template = rectangularMitreTemplate({ widthMm: 60, heightMm: 40, cornerRadiusMm: 6, cutAngleDeg: 30 })
  // Girth: 2 (48 + 28) + 12 pi = 189.699; folds at the middle of each corner's arc: 24 + 4.712 = 28.712, and on by 28 + 9.425 and 48 + 9.425.
  it('folds at the middle of each corner', () => {
    const folds = linesOf(template, 'CENTRE').map(({ from, to }) => [from[0], to[0]])
    const wanted = [28.7124, 66.1372, 123.562, 160.9867]
    expect(folds).toEqual(wanted.map((x) => [expect.closeTo(x, 3), expect.closeTo(x, 3)]))
  })
  it('names its faces on them, between base and line', () => {
    const names = textsOf(template).filter(({ text }) => text !== 'tab')
    expect(names.map(({ text }) => text)).toEqual(['short face', 'side', 'long face', 'side'])
    const middles = [0, (28.7124 + 66.1372) / 2, 189.699 / 2, (123.562 + 160.9867) / 2]
    const lowest = Math.min(...curveOf(template).map(([, y]) => y))
    for (const [index, { at, heightMm }] of names.entries()) {
      expect(at[0]).toBeGreaterThan(middles[index] ?? Number.NaN)
      expect(at[0]).toBeLessThan((middles[index] ?? Number.NaN) + 4)
      expect(at[1]).toBeGreaterThan(0)
      expect(at[1] + heightMm).toBeLessThan(lowest)
      expect(heightMm).toBe(3)
    }
    const small = rectangularMitreTemplate({ widthMm: 20, heightMm: 20, cutAngleDeg: 30 })
    for (const { heightMm, text } of textsOf(small))
      if (text !== 'tab') expect(heightMm).toBeCloseTo(80 / 60, 9)
  })
  it('has its tab past the end of the girth and its base 25 mm under the line', () => {
    const tab = textsOf(template).find(({ text }) => text === 'tab')
    expect(tab?.at[0]).toBeGreaterThan(189.7)
    expect(tab?.at[0]).toBeLessThan(189.7 + 12)
    expect(Math.min(...curveOf(template).map(([, y]) => y))).toBeCloseTo(25, 6)
    // 40 tan 30 = 23.09
    expect(template.notes.join(' ')).toMatch(/23\.09\d* mm past/)
  })
})

describe('the wrap of a round tube', () => {
  it('names long side, side, short side where the cosine has them', () => {
    const template = mitreWrapTemplate({ outsideRadiusMm: 30, cutAngleDeg: 22.5 })
    const names = textsOf(template).filter(({ text }) => / ?side$/.test(text))
    expect(names.map(({ text }) => text)).toEqual(['long side', 'side', 'short side', 'side'])
    // Saw at half the corner: a corner of 45 degrees.
    expect([template.title, ...template.notes].join(' ')).toMatch(/45/)
    const curve = curveOf(template)
    const top = curve.reduce((best, point) => (point[1] > best[1] ? point : best))
    const bottom = curve.reduce((best, point) => (point[1] < best[1] ? point : best))
    const girth = last(curve)[0] - (curve[0]?.[0] ?? 0)
    expect(girth).toBeCloseTo(60 * Math.PI, 3)
    expect(Math.abs(bottom[0] - top[0])).toBeCloseTo(girth / 2, 3)
  })
  it('of a saddle square on is the same every half turn, and deepest at the sides', () => {
    const curve = curveOf(saddleWrapTemplate({ branchRadiusMm: 20, mainRadiusMm: 30, axesAngleDeg: 90 }))
    const heights = curve.map(([, y]) => y)
    // 30 - sqrt(30^2 - 20^2) = 7.639
    expect(Math.max(...heights) - Math.min(...heights)).toBeCloseTo(30 - Math.sqrt(500), 2)
  })
})
