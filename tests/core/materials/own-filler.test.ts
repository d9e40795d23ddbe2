import { describe, expect, it } from 'vitest'
import { fillerById } from '@/lib/core/materials/fillers'
import { type OwnFiller, ownFillerFault, ownLowMelt } from '@/lib/core/materials/own-filler'

/** Eutectic tin-lead solder: 63 and 37 percent, 183 °C, 8.4 g/cm³. Source: IPC J-STD-006 names it Sn63Pb37A; values from memory. */
const solder: OwnFiller = {
  id: 'Sn63Pb37',
  compositionPct: { Sn: 63, Pb: 37 },
  solidusC: 183,
  liquidusC: 183,
}
const faultOf = (change: Partial<OwnFiller>) => ownFillerFault({ ...solder, ...change })

describe('a low-melt alloy of the shop’s own', () => {
  it('weighs by its parts until a slug was weighed', () => {
    // By hand: 100 / (63/7365 + 37/11340) = 8463 kg/m³, within 1 percent of the 8400 printed for the solder.
    expect(ownLowMelt(solder).densityKgM3).toBeCloseTo(8462.6, 1)
    expect(Math.abs(ownLowMelt(solder).densityKgM3 / 8400 - 1)).toBeLessThan(0.01)
    const weighed = ownLowMelt({ ...solder, densityKgM3: 8410, source: 'Slug of March', status: 'verified' })
    expect(weighed.densityKgM3).toBe(8410)
    expect(weighed.sources.densityKgM3).toEqual({ source: 'Slug of March', status: 'verified' })
    expect(ownLowMelt(solder).sources.densityKgM3?.status).toBe('computed')
  })

  it('says of each value whose it is, and which are only taken from another alloy', () => {
    const bare = ownLowMelt(solder)
    // The 158 F eutectic: 26 MPa and 12.7 GPa, encyclopedia entry.
    expect([bare.yieldMPa, bare.elasticModulusMPa]).toEqual([26, 12_700])
    expect([bare.sources.yieldMPa, bare.sources.elasticModulusMPa]).toMatchObject([
      { status: 'memory', source: expect.stringContaining('158') },
      { status: 'memory', source: expect.stringContaining('158') },
    ])
    const known = ownLowMelt({
      ...solder,
      yieldMPa: 30,
      elasticModulusMPa: 31_000,
      latentHeatKJPerKg: 37,
      source: 'Maker’s sheet',
      status: 'secondary',
    })
    expect([known.yieldMPa, known.elasticModulusMPa, known.latentHeatKJPerKg]).toEqual([30, 31_000, 37])
    for (const field of ['yieldMPa', 'elasticModulusMPa', 'latentHeatKJPerKg', 'liquidusC'] as const)
      expect(known.sources[field]).toEqual({ source: 'Maker’s sheet', status: 'secondary' })
    expect(bare.latentHeatKJPerKg).toBeUndefined()
  })

  it('warns by what is in it', () => {
    const warned = (compositionPct: OwnFiller['compositionPct']) =>
      ownLowMelt({ ...solder, compositionPct }).hazards.join(' ')
    expect(warned({ Sn: 63, Pb: 37 })).toMatch(/^Burns: molten at 183.*Lead: /)
    expect(warned({ Sn: 63, Pb: 37 })).not.toMatch(/Cadmium|Indium/)
    expect(warned({ Bi: 60, Cd: 40 })).toMatch(/Cadmium: /)
    expect(warned({ Bi: 33, In: 67 })).toMatch(/Indium: /)
    expect(ownLowMelt(solder)).toMatchObject({
      containsLead: true,
      containsCadmium: false,
      containsIndium: false,
    })
  })

  // The trade's rule by bismuth content: over 55 percent grows, under 48 shrinks.
  it.each([
    [{ Bi: 56, Sn: 44 }, 'Grows'],
    [{ Bi: 55, Sn: 45 }, 'Next to no change'],
    [{ Bi: 48, Sn: 52 }, 'Next to no change'],
    [{ Bi: 47, Sn: 53 }, 'Shrinks'],
    [{ Sn: 63, Pb: 37 }, 'Shrinks'],
  ])('of %j it is told how it changes as it freezes', (compositionPct, words) => {
    expect(ownLowMelt({ ...solder, compositionPct }).growthNote).toMatch(new RegExp(`^${words}`))
  })

  it('of the parts of a table alloy is that alloy in all that is worked out', () => {
    const table = fillerById('281')
    if (table?.kind !== 'lowMelt') throw new Error('no such alloy')
    const own = ownLowMelt({ ...solder, compositionPct: table.compositionPct, growthNote: table.growthNote })
    expect(own).toMatchObject({
      kind: 'lowMelt',
      name: 'Sn63Pb37',
      densityKgM3: table.densityKgM3,
      solidSpecificHeatJPerKgK: table.solidSpecificHeatJPerKgK,
      liquidSpecificHeatJPerKgK: table.liquidSpecificHeatJPerKgK,
      growthNote: table.growthNote,
    })
  })

  it('may round as printed tables do, and no further', () => {
    expect(faultOf({ compositionPct: { Sn: 63, Pb: 37.2 } })).toBeNull()
    expect(faultOf({ compositionPct: { Sn: 63, Pb: 36.8 } })).toBeNull()
    expect(faultOf({ compositionPct: { Sn: 63, Pb: 37.3 } })).toMatchObject({
      field: 'compositionPct',
      met: '100.3 percent',
    })
    expect(faultOf({ compositionPct: { Sn: 63, Pb: 36.7 } })).toMatchObject({ field: 'compositionPct' })
    expect(faultOf({ compositionPct: { Sn: 110, Pb: -10 } })).toMatchObject({ field: 'compositionPct' })
    expect(faultOf({ compositionPct: {} })).toMatchObject({ field: 'compositionPct', met: '0 percent' })
  })

  it.each([
    [{ solidusC: 19 }, 'solidusC', '20 to 300 °C'],
    [{ solidusC: 301, liquidusC: 301 }, 'solidusC', '20 to 300 °C'],
    [{ liquidusC: 301 }, 'liquidusC', '20 to 300 °C'],
    [{ liquidusC: 182 }, 'liquidusC', 'not under 183 °C, where it begins to melt'],
    [{ liquidusC: Number.NaN }, 'liquidusC', '20 to 300 °C'],
    [{ densityKgM3: 4999 }, 'densityKgM3', '5000 to 13000'],
    [{ densityKgM3: 13_001 }, 'densityKgM3', '5000 to 13000'],
    [{ yieldMPa: 0 }, 'yieldMPa', '0.1 to 200'],
    [{ elasticModulusMPa: 0.5 }, 'elasticModulusMPa', '1 to 100000'],
    [{ latentHeatKJPerKg: 121 }, 'latentHeatKJPerKg', '5 to 120'],
  ])('that has %j is refused at its field with what is allowed', (change, field, allowed) => {
    expect(faultOf(change)).toMatchObject({ field, allowed })
    expect(() => ownLowMelt({ ...solder, ...change })).toThrow(RangeError)
  })

  it('at the ends of the ranges is taken', () => {
    for (const change of [
      { solidusC: 20, liquidusC: 300 },
      { densityKgM3: 5000, yieldMPa: 0.1, elasticModulusMPa: 1, latentHeatKJPerKg: 5 },
      { densityKgM3: 13_000, yieldMPa: 200, elasticModulusMPa: 100_000, latentHeatKJPerKg: 120 },
    ])
      expect(faultOf(change)).toBeNull()
  })
})
