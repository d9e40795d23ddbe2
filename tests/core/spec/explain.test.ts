import { describe, expect, it } from 'vitest'
import { bendSpec } from '@/lib/core/spec/bend-spec'
import type { SpecInput } from '@/lib/core/spec/contract'
import { explain, explainedSpec } from '@/lib/core/spec/explain'

const arm: SpecInput = {
  tube: { shape: 'square', widthMm: 38.1, heightMm: 38.1, wallMm: 3.175 },
  material: { id: '6061-T4' },
  bends: [
    { straightBeforeMm: 400, angleDeg: 32, centrelineRadiusMm: 260, rotationDeg: 0 },
    { straightBeforeMm: 500, angleDeg: 32, centrelineRadiusMm: 260, rotationDeg: 90 },
  ],
  straightAfterMm: 400,
  method: { support: 'lowMelt', strap: { thicknessMm: 1.5, widthMm: 38.1, yieldMPa: 350 } },
  press: { capacityKn: 200, supportSpanMm: 420, supportNoseRadiusMm: 20 },
}

/** Every number of the answer by its path, but points, verdicts, the stroke and the ways' tables, which are not single results. */
function numbersOf(value: unknown, path = ''): [path: string, value: number][] {
  if (typeof value === 'number') return [[path, value]]
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([key, inner]) =>
    ['points', 'verdicts', 'stroke', 'temper', 'densityKgM3', 'liquidusC', 'wantedAngleDeg'].includes(key)
      ? []
      : numbersOf(inner, path ? `${path}.${key}` : key),
  )
}

describe('asking where a range came from', () => {
  it.each([
    ['springbackDeg', '°'],
    ['pressForceKn', 'kN'],
    ['dieSurfaceRadiusMm', 'mm'],
  ] as const)(
    'of %s is told in its unit, from the weaker tube, the stronger and the typical one',
    (key, unit) => {
      const { answer } = explainedSpec(arm)
      const range = answer.bends[0]?.range?.[key]
      for (const end of ['low', 'high'] as const) {
        const last = explain(arm, `bends[0].range.${key}.${end}`).at(-1)
        expect(last).toMatchObject({ unit, value: range?.[end] })
        expect(last?.inputs.map(([symbol]) => symbol)).toEqual(['weaker', 'stronger', 'typical'])
      }
      // Strengths 6 percent off move each of the three by some percent, never by a fifth.
      const typical = answer.bends[0]?.[key] ?? 0
      expect((range?.low ?? 0) / typical).toBeGreaterThan(0.8)
      expect((range?.low ?? 0) / typical).toBeLessThan(1)
      expect((range?.high ?? 0) / typical).toBeGreaterThan(1)
      expect((range?.high ?? 0) / typical).toBeLessThan(1.2)
    },
  )
})

describe('asking where a number came from', () => {
  it.each([
    ['with filler and strap', arm],
    [
      'hollow on a given die',
      { ...arm, method: { support: 'hollow' as const }, die: { surfaceRadiusMm: 230 } },
    ],
    [
      'round with sand',
      {
        ...arm,
        tube: { shape: 'round' as const, widthMm: 38.1, heightMm: 38.1, wallMm: 3 },
        method: { support: 'sand' as const },
      },
    ],
  ])('is answered for every result of a part %s, by the value itself', (_, input) => {
    const { answer, trace } = explainedSpec(input)
    for (const [path, value] of numbersOf(answer)) {
      const last = trace.chain(path).at(-1)
      expect(last?.key, path).toBe(path)
      expect(last?.value, path).toBe(value)
    }
  })

  it('leaves the answer as it is', () => {
    expect(explainedSpec(arm).answer).toEqual(bendSpec(arm))
  })

  it('hands over what a step needed before the step, down to what was entered', () => {
    const chain = explain(arm, 'bends[0].pressForceKn')
    const keys = chain.map(({ key }) => key)
    expect(keys.at(-1)).toBe('bends.0.pressForceKn')
    expect(keys).toContain('bends.0.tubeMomentNmm')
    expect(keys).toContain('material.exponent')
    expect(keys.indexOf('bends.0.externalMomentNmm')).toBeLessThan(keys.indexOf('bends.0.pressForceKn'))
    expect(new Set(keys).size).toBe(keys.length)
  })

  it('gives each step a formula, a source and a trust', () => {
    const { trace } = explainedSpec(arm)
    for (const key of trace.keys) {
      const step = trace.chain(key).at(-1)
      expect(step?.formula.length, key).toBeGreaterThan(2)
      expect(step?.source.length, key).toBeGreaterThan(2)
      expect(['exact', 'mechanics', 'screening']).toContain(step?.trust)
      for (const [symbol, value] of step?.inputs ?? [])
        expect([symbol !== '', value !== undefined], key).toEqual([true, true])
    }
  })

  it('puts in what came out of the steps before', () => {
    const { trace } = explainedSpec(arm)
    const chain = trace.chain('bends.1.externalMomentNmm')
    const sum = ['tubeMomentNmm', 'fillerMomentNmm', 'strapMomentNmm']
      .map((key) => chain.find((step) => step.key === `bends.1.${key}`)?.value ?? Number.NaN)
      .reduce((a, b) => a + b, 0)
    const tension = chain.find((step) => step.key === 'bends.1.strapTensionN')?.value ?? Number.NaN
    // M_ext = M_tube + M_filler + M_strap + T (h/2 + ts/2), by hand with h 38.1 and ts 1.5: arm 19.8.
    expect(chain.at(-1)?.value).toBeCloseTo(sum + tension * 19.8, 3)
  })

  it('names the filler only where there is one to hold the wall', () => {
    const formulaOf = (input: SpecInput, key: string) =>
      explain(input, `bends[0].${key}`).at(-1)?.formula ?? ''
    const hollow: SpecInput = { ...arm, method: { support: 'hollow' } }
    const round = (input: SpecInput): SpecInput => ({ ...input, tube: { ...input.tube, shape: 'round' } })
    expect(formulaOf(arm, 'flangeSagMm')).toMatch(/of the filler$/)
    expect(formulaOf(hollow, 'flangeSagMm')).toBe('sag of the hollow tube')
    expect(formulaOf(round(arm), 'ovalityPct')).toMatch(/of the filler$/)
    expect(formulaOf(round(hollow), 'ovalityPct')).toBe('100 (Dmax - Dmin) / D = 400 u / D')
  })

  it('is refused for what the answer does not hold', () => {
    expect(() => explain(arm, 'bends[7].pressForceKn')).toThrow(RangeError)
  })
})
