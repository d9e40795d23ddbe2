import { describe, expect, it } from 'vitest'
import type { OwnFiller } from '@/lib/core/materials/own-filler'
import { bendSpec } from '@/lib/core/spec/bend-spec'
import type { SpecInput, SpecMethod } from '@/lib/core/spec/contract'
import { findSetUps } from '@/lib/core/spec/setup-finder'
import { methodsOf, pouredAlloy, pouredId } from '@/lib/core/spec/shop-tools'
import { compareWays } from '@/lib/core/ways/compare-ways'

const rail = (method: SpecMethod, materialId = '6061-T6'): SpecInput => ({
  tube: { shape: 'square', widthMm: 38.1, heightMm: 38.1, wallMm: 3.175 },
  material: { id: materialId },
  bends: [{ straightBeforeMm: 300, angleDeg: 30, centrelineRadiusMm: 400, rotationDeg: 0 }],
  straightAfterMm: 300,
  method,
  press: { capacityKn: 178, supportSpanMm: 470, supportNoseRadiusMm: 19 },
})
const alloy = (change: Partial<OwnFiller> = {}): OwnFiller => ({
  id: 'quay mix',
  compositionPct: { Bi: 57, Sn: 43 },
  solidusC: 138,
  liquidusC: 140,
  ...change,
})
const filledWith = (ownFiller: OwnFiller, materialId?: string) =>
  bendSpec(rail({ support: 'lowMelt', ownFiller }, materialId))
const temperOf = (ownFiller: OwnFiller) =>
  filledWith(ownFiller).temper.find(({ way }) => way === 'lowMeltCold')
const faultsOf = (method: SpecMethod) => {
  try {
    bendSpec(rail(method))
  } catch (error) {
    return (error as { faults: unknown[] }).faults
  }
  return []
}

describe('a bend filled with an alloy of the shop’s own', () => {
  it('is answered with the alloy’s name, weight and melting, and takes its values for no default', () => {
    const { filler, defaultsUsed } = filledWith(
      alloy({ densityKgM3: 8700, yieldMPa: 20, elasticModulusMPa: 15_000 }),
    )
    expect(filler).toMatchObject({ id: 'quay mix', liquidusC: 140, densityKgM3: 8700 })
    // By hand: the bore of a square tube with sharp corners is (38.1 - 2 * 3.175)^2 = 1008.06 mm².
    const cutLengthMm = filledWith(alloy()).cutLengthMm
    expect(filler?.massKg).toBeCloseTo((1008.0625 * cutLengthMm * 8700) / 1e9, 6)
    expect(defaultsUsed.join()).not.toMatch(/filler/)
    expect(filledWith(alloy()).defaultsUsed.join()).toMatch(/fillerYieldMPa 26.*fillerModulusMPa 12700/)
  })

  it('bends as one filled with the table’s alloy of the same strength, and what was measured of the pot counts over it', () => {
    const own = filledWith(alloy({ yieldMPa: 13, elasticModulusMPa: 9000 }))
    const same = bendSpec(
      rail({ support: 'lowMelt', fillerId: 'bi-158', fillerYieldMPa: 13, fillerModulusMPa: 9000 }),
    )
    expect(own.bends).toEqual(same.bends)
    const measured = bendSpec(
      rail({
        support: 'lowMelt',
        ownFiller: alloy({ yieldMPa: 50, elasticModulusMPa: 50_000 }),
        fillerYieldMPa: 13,
        fillerModulusMPa: 9000,
      }),
    )
    expect(measured.bends).toEqual(same.bends)
  })

  it('spends of the heat budget by where the alloy melts', () => {
    // Poured at 160 °C for 5 minutes, melted out at 155 °C for 30. At 300 F (149 °C) 100 hours are allowed, at 325 F (163 °C) 50:
    // between them less than 35 minutes of 50 hours and more than 35 of 100. Reheat table: Aluminum Association, from memory.
    const used = temperOf(alloy())?.exposureUsed ?? 0
    expect(used).toBeGreaterThan(35 / 6000)
    expect(used).toBeLessThan(35 / 3000)
    expect(temperOf(alloy({ solidusC: 70, liquidusC: 70 }))?.exposureUsed).toBe(0)
  })

  it('is warned of where pour and melt-out take the temper', () => {
    // All molten at 190 °C: 30 minutes at 205 °C, of which the table allows under 30 (400 F is 204.4 °C).
    expect(filledWith(alloy({ solidusC: 190, liquidusC: 190 })).warnings.join()).toMatch(
      /heat budget is used up/,
    )
    expect(filledWith(alloy()).warnings.join()).not.toMatch(/heat budget/)
  })

  it('is warned of where no time is allowed at such a heat, or the alloy cracks the tube', () => {
    // Tin melts at 231.9 °C; nothing is allowed at 252.
    expect(
      filledWith(alloy({ compositionPct: { Sn: 100 }, solidusC: 232, liquidusC: 232 })).warnings.join(),
    ).toMatch(/This filler can’t go into this tube: no time is allowed/)
    // Cadmium on titanium: embrittlement, MIL-STD-1568 and the like forbid it.
    const withCadmium = alloy({ compositionPct: { Bi: 60, Cd: 40 } })
    expect(filledWith(withCadmium, 'Ti-3Al-2.5V').warnings.join()).toMatch(
      /can’t go into this tube:.*cadmium/,
    )
    expect(filledWith(alloy(), 'Ti-3Al-2.5V').warnings.join()).not.toMatch(/can’t go into/)
    expect(bendSpec(rail({ support: 'hollow' }, 'Ti-3Al-2.5V')).warnings.join()).not.toMatch(/can’t go into/)
  })

  it.each([
    ['both a table alloy and an own one', { fillerId: 'bi-158', ownFiller: alloy() }, 'method.fillerId'],
    [
      'parts that don’t add up',
      { ownFiller: alloy({ compositionPct: { Bi: 50 } }) },
      'method.ownFiller.compositionPct',
    ],
    [
      'an alloy molten before it begins to melt',
      { ownFiller: alloy({ liquidusC: 130 }) },
      'method.ownFiller.liquidusC',
    ],
    ['a density of nothing', { ownFiller: alloy({ densityKgM3: 10 }) }, 'method.ownFiller.densityKgM3'],
  ])('is refused with %s', (_what, method, path) => {
    expect(faultsOf({ support: 'lowMelt', ...method })).toMatchObject([{ path }])
  })

  it('is refused as sand', () => {
    expect(faultsOf({ support: 'sand', ownFiller: alloy() })).toMatchObject([{ path: 'method.ownFiller' }])
  })
})

describe('the alloy in the pot', () => {
  const wordOf = (lowMelt: Parameters<typeof pouredAlloy>[0] | undefined, materialId: string) =>
    compareWays({
      spec: rail({ support: 'hollow' }, materialId),
      angleToleranceDeg: 0.5,
      ...(lowMelt && { lowMelt }),
    }).find(({ way }) => way === 'lowMelt')

  it('is the one that the ways of making a part are weighed with', () => {
    expect(wordOf(undefined, 'Ti-3Al-2.5V')?.because).toMatch(/cadmium/)
    expect(wordOf({ fillerId: 'bi-174' }, 'Ti-3Al-2.5V')?.because).not.toMatch(/cadmium/)
    expect(wordOf({ ownFiller: alloy() }, 'Ti-3Al-2.5V')?.because).not.toMatch(/cadmium/)
    expect(wordOf({ ownFiller: alloy({ compositionPct: { Bi: 60, Cd: 40 } }) }, 'Ti-3Al-2.5V')).toMatchObject(
      {
        word: 'no',
        because: expect.stringMatching(/^quay mix has cadmium/),
      },
    )
  })

  it('says once that the heat budget is used up', () => {
    const warnings =
      wordOf({ ownFiller: alloy({ solidusC: 190, liquidusC: 190 }) }, '6061-T6')?.warnings ?? []
    expect(warnings.filter((warning) => /heat budget/.test(warning))).toHaveLength(1)
  })

  it('is no set-up where it can’t go into the tube, and the finder says why', () => {
    const cracking = alloy({ compositionPct: { Bi: 60, Cd: 40 } })
    const part = {
      tube: { shape: 'round', widthMm: 25.4, heightMm: 25.4, wallMm: 1.65 },
      material: { id: 'Ti-3Al-2.5V' },
      bends: [{ straightBeforeMm: 300, angleDeg: 30, centrelineRadiusMm: 300, rotationDeg: 0 }],
      straightAfterMm: 300,
    } as const
    const found = (ownFiller: OwnFiller) =>
      findSetUps(part, {
        presses: [{ id: 'PR-1', capacityKn: 196, spanMinMm: 150, spanMaxMm: 900, noseRadiusMm: 20 }],
        dies: [],
        straps: [],
        hasSand: false,
        lowMelts: [{ ownFiller }],
      })
    const filled = ({ setUps }: ReturnType<typeof found>) =>
      setUps.filter(({ method }) => method.support === 'lowMelt')
    expect(filled(found(alloy()))).toHaveLength(1)
    expect(filled(found(cracking))).toEqual([])
    expect(found(cracking).blocked.find(({ method }) => method.support === 'lowMelt')?.because).toMatch(
      /cadmium/,
    )
  })

  it('goes into the set-ups that are looked for, by its name', () => {
    const pour = { ownFiller: alloy(), fillerYieldMPa: 18 }
    const tools = { presses: [], dies: [], straps: [], hasSand: false, lowMelts: [pour] }
    expect(methodsOf(tools).map(({ method }) => method)).toEqual([
      { support: 'hollow' },
      { support: 'lowMelt', ...pour },
    ])
    expect([pouredId(pour), pouredId({ fillerId: 'bi-158' }), pouredId({})]).toEqual([
      'quay mix',
      'bi-158',
      undefined,
    ])
    expect(pouredAlloy(pour)?.name).toBe('quay mix')
    expect(pouredAlloy({ fillerId: 'bi-158' })?.id).toBe('bi-158')
    expect(pouredAlloy({})).toBeUndefined()
  })
})
