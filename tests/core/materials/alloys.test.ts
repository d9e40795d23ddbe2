import { describe, expect, it } from 'vitest'
import { alloyById, alloys } from '@/lib/core/materials/alloys'
import { mpaFromKsi } from '@/lib/core/units'

describe('alloys', () => {
  it('lists at least twenty alloy-tempers, each under its own id', () => {
    expect(alloys.length).toBeGreaterThanOrEqual(20)
    expect(new Set(alloys.map((alloy) => alloy.id.toLowerCase())).size).toBe(alloys.length)
  })
  it.each([
    // ASTM B241 Table 1, B221, A513, A500, A554, B338, B75: lowest tensile and yield in ksi, elongation percent.
    ['6061-T6', 38, 35, 8],
    ['6063-T6', 30, 25, 8],
    ['6063-T5', 22, 16, 8],
    ['6082-T6', 45, 38, 8],
    ['6005A-T61', 38, 35, 8],
    ['1020-DOM', 70, 60, 5],
    ['1020-N', 50, 35, 25],
    ['1026-DOM', 80, 70, 5],
    ['A500-B-shaped', 58, 46, 23],
    ['A500-B-round', 58, 42, 23],
    ['A500-C-shaped', 62, 50, 21],
    ['304', 75, 30, 35],
    ['Ti-3Al-2.5V', 90, 70, 15],
    ['Ti-3Al-2.5V-CWSR', 125, 105, 10],
    ['2024-T3', 64, 42, 10],
    ['7005-T53', 50, 44, 10],
  ])(
    'holds the lowest strengths of %s: %d/%d ksi, %d percent, to the rounding of the standard’s MPa column',
    (id, tensileKsi, yieldKsi, pct) => {
      const alloy = alloyById(id)
      expect(Math.abs((alloy?.minimumTensileMPa ?? 0) - mpaFromKsi(tensileKsi))).toBeLessThan(3)
      expect(Math.abs((alloy?.minimumYieldMPa ?? 0) - mpaFromKsi(yieldKsi))).toBeLessThan(3)
      expect(alloy?.elongationPct).toBe(pct)
    },
  )
  it('gives 6061-T6 its typical 45/40 ksi for springback and force (producers’ data sheets)', () => {
    const alloy = alloyById('6061-T6')
    expect(alloy?.tensileMPa).toBeCloseTo(mpaFromKsi(45), 0)
    expect(alloy?.yieldMPa).toBeCloseTo(mpaFromKsi(40), 0)
  })
  it('finds an alloy with capitals, spaces and underscores aside, and nothing for an unknown one', () => {
    expect(alloyById(' 6061 t6')?.id).toBe('6061-T6')
    expect(alloyById('a500_b_SHAPED')?.id).toBe('A500-B-shaped')
    expect(alloyById('6061-T9')).toBeUndefined()
    expect(alloyById('')).toBeUndefined()
  })
  it('keeps tensile over yield, typical at or over the minimum, and a source for every number', () => {
    for (const alloy of alloys) {
      expect(alloy.tensileMPa, alloy.id).toBeGreaterThan(alloy.yieldMPa)
      expect(alloy.yieldMPa, alloy.id).toBeGreaterThanOrEqual(alloy.minimumYieldMPa ?? 0)
      expect(alloy.tensileMPa, alloy.id).toBeGreaterThanOrEqual(alloy.minimumTensileMPa ?? 0)
      for (const field of [
        'elasticModulusMPa',
        'poisson',
        'densityKgM3',
        'yieldMPa',
        'tensileMPa',
        'elongationPct',
      ] as const) {
        expect(alloy.sources[field]?.source, `${alloy.id} ${field}`).toBeTruthy()
      }
      expect(alloy.sources.minimumYieldMPa !== undefined, alloy.id).toBe(alloy.minimumYieldMPa !== undefined)
    }
  })
  it('says so where the lowest strength stands in for an unknown typical one', () => {
    expect(alloyById('1020-DOM')?.notes.join(' ')).toContain('No typical strength seen')
    expect(alloyById('6061-T6')?.notes.join(' ')).not.toContain('No typical strength seen')
  })
})
