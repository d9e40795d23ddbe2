import { describe, expect, it } from 'vitest'
import { endShiftMm } from '@/lib/core/geometry/centreline'
import { bendSpec } from '@/lib/core/spec/bend-spec'
import { type SpecInput, SpecRefusal } from '@/lib/core/spec/contract'

const part: SpecInput = {
  tube: { shape: 'square', widthMm: 40, heightMm: 40, wallMm: 3 },
  material: { id: '6061-T6' },
  bends: [
    { straightBeforeMm: 500, angleDeg: 30, centrelineRadiusMm: 300, rotationDeg: 0 },
    { straightBeforeMm: 700, angleDeg: 45, centrelineRadiusMm: 280, rotationDeg: 90 },
  ],
  straightAfterMm: 500,
  method: { support: 'hollow' },
  press: { capacityKn: 200, supportSpanMm: 480, supportNoseRadiusMm: 20 },
}
const ask = (change: Partial<SpecInput> = {}) => bendSpec({ ...part, ...change })
const faultsOf = (change: Partial<SpecInput>) => {
  try {
    ask(change)
  } catch (cause) {
    if (cause instanceof SpecRefusal) return cause.faults
    throw cause
  }
  return []
}

describe('the defaults an answer names', () => {
  it('are those of the contract, each only where it was used', () => {
    // Friction 0.15 twice, 80 percent of the press, factor 1, no trim, no kerf, sharp extrusion, 158 F eutectic at 26 MPa and 12 700 MPa.
    const strap = { thicknessMm: 1, widthMm: 40, yieldMPa: 300 }
    const all = ask({ method: { support: 'lowMelt', strap } }).defaultsUsed
    expect(all).toEqual(
      expect.arrayContaining([
        'tube.cornerRadiusMm 0',
        'method.fillerId bi-158',
        'method.fillerYieldMPa 26',
        'method.fillerModulusMPa 12700',
        'method.strap.frictionCoeff 0.15',
        'press.supportFrictionCoeff 0.15',
        'press.useFraction 0.8',
        'springbackFactor 1',
        'trimMm 0',
        'kerfMm 0',
      ]),
    )
    const said = ask({
      tube: { ...part.tube, cornerRadiusMm: 4 },
      method: {
        support: 'lowMelt',
        fillerId: '158',
        fillerYieldMPa: 30,
        fillerModulusMPa: 12_000,
        strap: { ...strap, frictionCoeff: 0.1 },
      },
      press: { ...part.press, supportFrictionCoeff: 0.1, useFraction: 0.7 },
      springbackFactor: 1.05,
      trimMm: 4,
      kerfMm: 2,
    }).defaultsUsed
    expect(said.filter((one) => !one.startsWith('material.uniformStrain'))).toEqual([])
  })
  it('for sand are 60 MPa, and steel’s corners twice the wall but no more than half a side', () => {
    expect(ask({ method: { support: 'sand' } }).defaultsUsed).toContain('method.fillerModulusMPa 60')
    expect(ask({ method: { support: 'sand', fillerModulusMPa: 80 } }).defaultsUsed.join()).not.toContain(
      'fillerModulusMPa',
    )
    expect(ask({ material: { id: '1020-N' } }).defaultsUsed).toContain('tube.cornerRadiusMm 6')
    const thick = { shape: 'rectangular', widthMm: 20, heightMm: 40, wallMm: 6 } as const
    expect(ask({ material: { id: '1020-N' }, tube: thick }).defaultsUsed).toContain('tube.cornerRadiusMm 10')
  })
})

describe('what cannot be asked', () => {
  it('says what is missing of a material without an id, field by field', () => {
    const faults = faultsOf({ material: { family: 'steel', yieldMPa: 300 } })
    expect(faults.map(({ path }) => path)).toEqual([
      'material.elasticModulusMPa',
      'material.tensileMPa',
      'material.elongationPct',
      'material.poisson',
      'material.densityKgM3',
    ])
    expect(faults[0]?.met).toBe('nothing')
  })
  it('names the material and the filler it does not know', () => {
    expect(faultsOf({ material: { id: 'unobtainium' } })).toMatchObject([
      { path: 'material.id', met: '"unobtainium"' },
    ])
    expect(faultsOf({ method: { support: 'lowMelt', fillerId: 'sand' } })).toMatchObject([
      { path: 'method.fillerId', allowed: 'a low-melt filler of the filler table' },
    ])
    expect(faultsOf({ method: { support: 'sand', fillerId: '158' } })[0]?.allowed).toContain('a sand')
    expect(faultsOf({ method: { support: 'hollow', fillerId: 'nothing' } })[0]?.allowed).toContain('an id')
    expect(faultsOf({ method: { support: 'hollow', fillerId: '158' } })).toEqual([])
  })
  it('needs a tensile strength above the yield', () => {
    expect(faultsOf({ material: { id: '6061-T6', yieldMPa: 310, tensileMPa: 310 } })).toMatchObject([
      { path: 'material.tensileMPa', met: '310', allowed: 'above the yield, 310 MPa' },
    ])
  })
  it('is said in one line a fault', () => {
    expect(() => ask({ material: { id: '6061-T6', yieldMPa: 310, tensileMPa: 310 } })).toThrow(
      'material.tensileMPa: 310; above the yield, 310 MPa',
    )
  })
  it('names what stands in the way: span and die', () => {
    const pathOf = (change: Partial<SpecInput>) => faultsOf(change)[0]?.path
    expect(pathOf({ press: { ...part.press, supportSpanMm: 150 } })).toBe('press.supportSpanMm')
    expect(pathOf({ die: { surfaceRadiusMm: 60_000 } })).toBe('die.surfaceRadiusMm')
  })
})

describe('a round tube', () => {
  const tube = { shape: 'round', widthMm: 42.4, heightMm: 42.4, wallMm: 3.2 } as const
  it('answers with how oval it gets and no sag or widths, by Brazier’s 300 r^5 / (D R^2 t^2) percent', () => {
    const [bend] = ask({ tube }).bends
    if (!bend) throw new Error('no bend')
    const r = (42.4 - 3.2) / 2
    expect(bend.ovalityPct).toBeCloseTo((300 * r ** 5) / (42.4 * bend.loadedRadiusMm ** 2 * 3.2 ** 2), 6)
    expect(bend).not.toHaveProperty('flangeSagMm')
    expect(bend).not.toHaveProperty('widthOutsideMm')
    expect(ask().bends[0]).not.toHaveProperty('ovalityPct')
  })
  it('with sand loses what the pack gains in room besides what it squeezes', () => {
    const strap = { thicknessMm: 1, widthMm: 40, yieldMPa: 300, frictionCoeff: 0.2 }
    const sand = ask({ tube, method: { support: 'sand' } }).bends[0]
    const strapped = ask({ tube, method: { support: 'sand', strap } }).bends[0]
    expect(sand?.ovalityPct).toBeLessThan(ask({ tube }).bends[0]?.ovalityPct ?? 0)
    expect(strapped?.ovalityPct).toBeGreaterThan(0)
  })
})

describe('a die that is not the right one', () => {
  it('shifts the end by what that bend alone does, all others as drawn', () => {
    const answer = ask({ die: { surfaceRadiusMm: 250 } })
    for (const index of [0, 1]) {
      const made = part.bends.map((bend, place) =>
        place === index
          ? {
              ...bend,
              angleDeg: answer.bends[index]?.finalAngleDeg ?? 0,
              centrelineRadiusMm: answer.bends[index]?.finalRadiusMm ?? 0,
            }
          : bend,
      )
      expect(answer.bends[index]?.endShiftMm).toBeCloseTo(
        endShiftMm(part.bends, made, part.straightAfterMm),
        9,
      )
      expect(answer.bends[index]?.endShiftMm).toBeGreaterThan(0.1)
    }
    expect(ask().bends[0]).not.toHaveProperty('endShiftMm')
  })
})

describe('force and travel along the stroke', () => {
  it('begin at no angle and end at the full one, with the travel the answer gives', () => {
    const strap = { thicknessMm: 2, widthMm: 40, yieldMPa: 300 }
    for (const bend of [...ask().bends, ...ask({ method: { support: 'lowMelt', strap } }).bends]) {
      expect(bend.stroke[0]?.wrappedAngleDeg).toBe(0)
      const end = bend.stroke.at(-1)
      expect(end?.wrappedAngleDeg).toBeCloseTo(bend.wrappedAngleDeg, 9)
      expect((end?.ramTravelMm ?? 0) / bend.ramTravelMm).toBeCloseTo(1, 5)
      expect(Math.max(...bend.stroke.map(({ forceKn }) => forceKn))).toBeLessThanOrEqual(bend.pressForceKn)
    }
  })
})

describe('a press too weak', () => {
  const weak = (share: number) => ({
    ...part.press,
    capacityKn: (share * (ask().bends[0]?.pressForceKn ?? 0)) / 0.8,
  })
  it('is told the shortest span at which it has the force: asked again there, it has, and a little shorter it has not', () => {
    const bends = [{ straightBeforeMm: 500, angleDeg: 30, centrelineRadiusMm: 300, rotationDeg: 0 }]
    const press = weak(0.8)
    const [bend] = ask({ bends, press }).bends
    const spanMm = bend?.pressSpanMm ?? 0
    const forceAt = (supportSpanMm: number) =>
      ask({ bends, press: { ...press, supportSpanMm } }).bends[0]?.pressForceKn ?? 0
    const mayKn = 0.8 * press.capacityKn
    expect(spanMm).toBeGreaterThan(part.press.supportSpanMm)
    expect(forceAt(spanMm)).toBeLessThanOrEqual(mayKn * 1.0002)
    expect(forceAt(spanMm * 0.9)).toBeGreaterThan(mayKn)
  })
  it('is told that there is none where arms so long would keep the whole bend, and nothing where it has the force', () => {
    expect(ask({ press: weak(0.05) }).bends[0]?.pressSpanMm).toBeNull()
    expect(ask().bends[0]?.pressSpanMm).toBeUndefined()
  })
})

describe('lengths and filler', () => {
  it('add trim and kerf to the cut, and the filler’s mass is bore, length and density', () => {
    const plain = ask({ method: { support: 'lowMelt' } })
    const more = ask({ method: { support: 'lowMelt' }, trimMm: 12, kerfMm: 3 })
    expect(more.cutLengthMm - plain.cutLengthMm).toBeCloseTo(15, 9)
    expect(more.developedLengthMm).toBeCloseTo(plain.developedLengthMm, 9)
    const { volumeMm3 = 0, massKg, densityKgM3 = 0 } = more.filler ?? {}
    expect(volumeMm3).toBeCloseTo(34 ** 2 * more.cutLengthMm, 3)
    expect(massKg).toBeCloseTo((volumeMm3 * densityKgM3) / 1e9, 9)
    expect(more.filler?.liquidusC).toBe(70)
    expect(ask().filler).toBeUndefined()
    expect(ask({ method: { support: 'sand' } }).filler).not.toHaveProperty('liquidusC')
  })
  it('grow by what a slanted cut reaches out past the grip and half the trim, and by nothing where it does not', () => {
    const plain = ask({ trimMm: 4 })
    // No grip is needed on straights this long: 20 mm of reach less 2 mm of half the trim.
    expect([plain.gripStartMm, plain.gripEndMm]).toEqual([0, 0])
    const slanted = ask({ trimMm: 4, startReachMm: 20, endReachMm: 1.5 })
    expect(slanted.cutLengthMm - plain.cutLengthMm).toBeCloseTo(18, 9)
    expect(slanted.cutReachMm).toBeCloseTo(18, 9)
    expect(plain).not.toHaveProperty('cutReachMm')
  })
  it('weigh a metre: 444 mm² of 2700 kg/m³', () => {
    expect(ask().section.massKgPerM).toBeCloseTo((444 * 2700) / 1e6, 3)
  })
  it('warn that a low-melt filler creeps, and of walls that run into each other', () => {
    expect(ask({ method: { support: 'lowMelt' } }).warnings.join()).toMatch(/creeps/)
    expect(ask().warnings.join()).not.toMatch(/creeps/)
    const curl = [0, 1, 2, 3, 4].map((index) => ({
      straightBeforeMm: 10,
      angleDeg: 85,
      centrelineRadiusMm: 100,
      rotationDeg: 0,
      ...(index === 0 && { straightBeforeMm: 200 }),
    }))
    expect(
      ask({
        bends: curl,
        straightAfterMm: 200,
        press: { ...part.press, supportSpanMm: 600 },
      }).warnings.join(),
    ).toMatch(/runs into itself/)
  })
})

describe('the edge of the model', () => {
  const one = (change: Partial<SpecInput['bends'][number]>) => ({
    bends: [{ straightBeforeMm: 900, angleDeg: 40, centrelineRadiusMm: 300, rotationDeg: 0, ...change }],
    straightAfterMm: 900,
    press: { ...part.press, supportSpanMm: 900 },
  })
  it('is named where the springback factor makes an arm keep less than nothing', () => {
    const warned = (springbackFactor: number) => {
      const answer = ask({ ...one({}), springbackFactor })
      expect(answer.warnings.some((text) => text.includes('keeps less than nothing'))).toBe(
        (answer.bends[0]?.armKeptDeg ?? 0) < 0,
      )
      return (answer.bends[0]?.armKeptDeg ?? 0) < 0
    }
    expect([1, 1.2, 3].map(warned)).toEqual([false, false, true])
  })
  it('is named near half a turn under load, bend by bend', () => {
    const press = { ...part.press, supportSpanMm: 1000 }
    const near = ask({ ...one({ angleDeg: 147 }), press })
    expect(near.bends[0]?.loadedAngleDeg).toBeGreaterThan(165)
    expect(near.warnings.join()).toMatch(/Bend 1 stands at 1\d\d\.\d° under load/)
    expect(ask({ ...one({ angleDeg: 90 }), press }).warnings.join()).not.toMatch(/under load/)
  })
})
