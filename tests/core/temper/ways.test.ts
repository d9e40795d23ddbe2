import { describe, expect, it } from 'vitest'
import { alloyById, alloys } from '@/lib/core/materials/alloys'
import { fillerById } from '@/lib/core/materials/fillers'
import type { TemperPart, WayName } from '@/lib/core/temper/way'
import { temperWays, temperWaysRuledOut } from '@/lib/core/temper/ways'

function partOf(id: string, more: Partial<TemperPart> = {}): TemperPart {
  const alloy = alloyById(id)
  if (!alloy) throw new RangeError(id)
  return { alloy, support: 'lowMelt', strap: true, ...more }
}
const wayOf = (part: TemperPart, name: WayName) => temperWays(part).find(({ way }) => way === name)
const whyNot = (part: TemperPart, name: WayName) =>
  temperWaysRuledOut(part).find(({ way }) => way === name)?.because

describe('ways of making a part and the temper they end in', () => {
  it('weighs nine ways for every alloy: each is offered or ruled out with a reason', () => {
    for (const alloy of alloys) {
      const part = { alloy, support: 'lowMelt' as const, strap: false }
      const names = [...temperWays(part), ...temperWaysRuledOut(part)].map(({ way }) => way)
      expect(new Set(names).size, alloy.id).toBe(9)
      expect(names, alloy.id).toHaveLength(9)
      for (const { because } of temperWaysRuledOut(part)) expect(because.length).toBeGreaterThan(10)
    }
  })
  it('leaves 6061-T6 bent cold in T6 at its lowest specified strengths (ASTM B241: 241/262 MPa)', () => {
    for (const name of ['hollowCold', 'sandCold', 'lowMeltCold', 'lowMeltStrapCold'] as const) {
      expect(wayOf(partOf('6061-T6'), name)).toMatchObject({
        endTemper: 'T6',
        yieldMPa: 241,
        tensileMPa: 262,
      })
    }
  })
  it('uses none of the heat budget with the 158 alloy in a 95 °C bath', () => {
    expect(wayOf(partOf('6061-T6'), 'lowMeltStrapCold')?.exposureUsed).toBe(0)
  })
  it('counts every pour and melt-out above 149 °C, once for each filling', () => {
    // By hand: 30 minutes at 350 F of the 480 allowed, twice, is 0.125; the pour at 70 °C counts nothing.
    const part = partOf('6061-T6', {
      pour: { temperatureC: 90, minutes: 5 },
      meltOut: { temperatureC: 176.6667, minutes: 30 },
      fillings: 2,
    })
    expect(wayOf(part, 'lowMeltCold')?.exposureUsed).toBeCloseTo(0.125, 4)
    const share = (more: Partial<TemperPart>) =>
      /([\d.]+) percent of the heat budget used/.exec(
        wayOf(partOf('6061-T6', more), 'lowMeltCold')?.notes.join(' ') ?? '',
      )?.[1]
    const pour = { temperatureC: 90, minutes: 5 }
    const hour = (minutes: number) => ({ pour, meltOut: { temperatureC: 176.6667, minutes }, fillings: 1 })
    // Of the 480 minutes allowed at 350 F: 24 are 5 percent, 48 a tenth and 120 a quarter; under a tenth with a decimal.
    expect(share(hour(24))).toBe('5.0')
    expect(share(hour(120))).toBe('25')
    expect(share({})).toBe('0')
  })
  it('rules the filled ways out when a heating lies above the reheat table', () => {
    const part = partOf('6061-T6', { meltOut: { temperatureC: 260, minutes: 1 } })
    expect(whyNot(part, 'lowMeltStrapCold')).toMatch(/260/)
    expect(whyNot(part, 'hollowCold')).toBeUndefined()
  })
  it('says so beside the strengths when the heat budget is overrun', () => {
    const part = partOf('6061-T6', { meltOut: { temperatureC: 204.4, minutes: 60 } })
    expect(wayOf(part, 'lowMeltCold')?.notes.join(' ')).toMatch(/no longer hold/)
  })
  it('bends 6061 in T4 and ages it to T6; 5052, steel and titanium have no such way', () => {
    expect(wayOf(partOf('6061-T6'), 'bentInT4ThenAged')).toMatchObject({ endTemper: 'T6', yieldMPa: 241 })
    expect(wayOf(partOf('6061-T4'), 'bentInT4ThenAged')).toMatchObject({ endTemper: 'T6', yieldMPa: 241 })
    for (const id of ['5052-H32', '4130-N', 'CP-Ti-2'])
      expect(whyNot(partOf(id), 'bentInT4ThenAged')).toBeTruthy()
  })
  it('can’t bring 5052-H32, 3003-H14, drawn 1020 or cold-worked titanium back once annealed', () => {
    for (const [id, endTemper] of [
      ['5052-H32', 'O'],
      ['3003-H14', 'O'],
      ['1020-DOM', 'normalized'],
      ['Ti-3Al-2.5V-CWSR', 'annealed'],
      ['C12200-H55', 'O60'],
    ] as const) {
      const part = partOf(id)
      const way = wayOf(part, 'annealedBentTreated')
      expect(way?.endTemper, id).toBe(endTemper)
      expect(way?.yieldMPa, id).toBeLessThan(part.alloy.minimumYieldMPa ?? 0)
    }
  })
  it('ends annealed and treated 6063-T832 in T6, weaker than it was bought', () => {
    expect(wayOf(partOf('6063-T832'), 'annealedBentTreated')).toMatchObject({
      endTemper: 'T6',
      yieldMPa: 172,
    })
  })
  it('keeps a filler with cadmium out of titanium and lets one without in', () => {
    expect(whyNot(partOf('CP-Ti-2'), 'lowMeltCold')).toMatch(/cadmium/)
    const without = fillerById('174')
    expect(wayOf(partOf('CP-Ti-2', { ...(without && { filler: without }) }), 'lowMeltCold')).toBeDefined()
  })
  it('leaves the joints of mitred 6061-T6 at 115/175 MPa (EN 1999-1-1 Table 3.2b) and rules welding 2024 out', () => {
    expect(wayOf(partOf('6061-T6'), 'mitredWelded')).toMatchObject({ yieldMPa: 115, tensileMPa: 175 })
    expect(whyNot(partOf('2024-T3'), 'mitredWelded')).toMatch(/cracks/)
  })
  it('tells a part welded later to keep its welds 25 mm from the bend', () => {
    const way = wayOf(partOf('6061-T6', { weldedAfter: true }), 'lowMeltStrapCold')
    expect(way?.atWelds).toMatchObject({ weldable: true, yieldMPa: 115 })
    expect(way?.notes.join(' ')).toContain('25 mm from the bend')
  })
  it('marks the one way the part is set up for', () => {
    const chosen = (more: Partial<TemperPart>) =>
      temperWays(partOf('6061-T6', more))
        .filter(({ isChosen }) => isChosen)
        .map(({ way }) => way)
    expect(chosen({})).toEqual(['lowMeltStrapCold'])
    expect(chosen({ strap: false })).toEqual(['lowMeltCold'])
    expect(chosen({ support: 'hollow' })).toEqual(['hollowCold'])
    expect(chosen({ support: 'sand', strap: false })).toEqual(['sandCold'])
  })
  it('uses a sixth of the heat budget bending T6 hot: 5 of the 30 minutes allowed at 400 F', () => {
    expect(
      wayOf(partOf('6061-T6', { hot: { temperatureC: 204.4444, minutes: 5 } }), 'hot')?.exposureUsed,
    ).toBeCloseTo(1 / 6, 4)
  })
})

describe('bending hot', () => {
  const hot = (id: string, more: Partial<TemperPart> = {}) => wayOf(partOf(id, more), 'hot')
  it('heats each metal to its own range (from memory)', () => {
    const steps = (id: string) => hot(id)?.steps.join(' ')
    expect(steps('304')).toMatch(/1040 to 1120 °C.*pickle/)
    expect(steps('CP-Ti-2')).toMatch(/200 to 315 °C/)
    expect(steps('1020-DOM')).toMatch(/870 to 980 °C.*still air/)
    expect(steps('C12200-H55')).toMatch(/evenly to the annealing temperature/)
    expect(steps('6061-T6')).toMatch(/by crayon or thermocouple/)
  })
  it('leaves stainless annealed, titanium as it was, drawn 1020 no stronger than normalized: 35/50 ksi (ASTM A513)', () => {
    expect(hot('304')?.endTemper).toBe('annealed')
    expect(hot('CP-Ti-2')?.endTemper).toBe(alloyById('CP-Ti-2')?.temper)
    expect(hot('1020-DOM')).toMatchObject({ endTemper: 'normalized', exposureUsed: 0 })
    expect(hot('1020-DOM')?.yieldMPa).toBeLessThanOrEqual(242)
    expect(hot('1020-DOM')?.tensileMPa).toBeLessThanOrEqual(346)
  })
  it('does nothing for soft or freshly quenched aluminium, and is ruled out above the reheat table', () => {
    expect(whyNot(partOf('6061-O'), 'hot')).toMatch(/bends cold/)
    expect(whyNot(partOf('6061-T4'), 'hot')).toMatch(/starts to age/)
    expect(whyNot(partOf('6061-T6', { hot: { temperatureC: 260, minutes: 1 } }), 'hot')).toMatch(
      /table ends at 232/,
    )
  })
  it('says so where the heat budget is overrun: 40 of 30 minutes at 400 F', () => {
    const over = hot('6061-T6', { hot: { temperatureC: 204.4444, minutes: 40 } })
    expect(over?.exposureUsed).toBeCloseTo(40 / 30, 4)
    expect(over?.notes.join(' ')).toMatch(/no longer hold/)
    const within = hot('6061-T6', { hot: { temperatureC: 204.4444, minutes: 29 } })
    expect(within?.notes.join(' ')).not.toMatch(/no longer hold/)
  })
  it('says that its temperatures are from memory wherever they are', () => {
    for (const id of ['CP-Ti-2', '1020-DOM', 'C12200-H55'])
      expect(hot(id)?.notes.join(' '), id).toMatch(/from memory/)
    for (const id of ['1020-DOM', '5052-H32', 'C12200-H55'])
      expect(wayOf(partOf(id), 'annealedBentTreated')?.notes.join(' '), id).toMatch(
        /Temperatures are from memory/,
      )
  })
})
