import { describe, expect, it } from 'vitest'
import { alloyById } from '@/lib/core/materials/alloys'
import { heatTreatmentOf, softStateOf } from '@/lib/core/temper/schedules'
import { temperWays } from '@/lib/core/temper/ways'

const alloy = (id: string) => {
  const found = alloyById(id)
  if (!found) throw new RangeError(id)
  return found
}
const stepsOf = (id: string, name: string) =>
  temperWays({ alloy: alloy(id), support: 'hollow', strap: false })
    .find(({ way }) => way === name)
    ?.steps.join(' ')

describe('the furnace steps of an alloy', () => {
  // Fahrenheit of the handbooks in Celsius by (F - 32) / 1.8: 775 is 412.8, 985 is 529.4, 970 is 521.1, 910 to 930 is
  // 487.8 to 498.9, 750 is 398.9, 350 is 176.7, 360 is 182.2, 225 is 107.2, 300 is 148.9.
  it.each([
    // Source: handbook schedules for 6061: 775 F 2 to 3 h, 50 F/h to 500 F; 985 F, water; 350 F 8 h.
    ['6061-T6', '413 °C for 2.5 h', '529 °C', '177 °C for 8 h'],
    // Source: ageing 360 F 6 h of extrusions, handbook schedules; anneal as 6061 and 970 F from memory.
    ['6063-T6', '413 °C for 2.5 h', '521 °C', '182 °C for 6 h'],
    // Source: producers' data sheets: 380 to 420 °C 1 to 2 h; 525 to 540 °C; 155 to 190 °C 4 to 16 h.
    ['6082-T6', '400 °C for 1.5 h', '525 to 540 °C', '175 °C for 8 h'],
    // From memory, after ASTM B918: 750 F; 225 F 8 h and 300 F 16 h.
    ['7005-T53', '413 °C for 2.5 h', '399 °C', '107 °C for 8 h, then 149 °C for 16 h'],
  ])('%s is annealed, quenched and aged as its schedule says', (id, anneal, solution, age) => {
    const steps = stepsOf(id, 'annealedBentTreated')
    expect(steps).toContain(`Anneal at ${anneal};`)
    expect(steps).toContain(`Solution treat at ${solution}, quench in water`)
    expect(steps).toContain(`Age at ${age}.`)
  })

  it('2024 is left four days at room temperature: it is not aged in a furnace', () => {
    // From memory: 910 to 930 F; 96 h, verified.
    const steps = stepsOf('2024-T3', 'annealedBentTreated')
    expect(steps).toContain('Solution treat at 488 to 499 °C')
    expect(steps).toContain('Leave 96 h at room temperature.')
    expect(steps).not.toContain('Age at')
  })

  it('cool slowly from the anneal, or the alloy hardens again', () => {
    // 50 F an hour is 27.8 °C an hour, 500 F is 260 °C.
    expect(stepsOf('6061-T6', 'annealedBentTreated')).toContain('cool 28 °C an hour to 260 °C, then in air')
    expect(stepsOf('6082-T6', 'annealedBentTreated')).toContain('cool 30 °C an hour to 250 °C, then in air')
  })

  it('take T4 as it is bought, and have other tube treated first', () => {
    expect(stepsOf('6061-T4', 'bentInT4ThenAged')).toMatch(/^Take the T4 tube as it is\./)
    expect(stepsOf('6061-T6', 'bentInT4ThenAged')).toMatch(/^Buy the tube in T4, or/)
    for (const id of ['7005-T53', '2024-T3']) expect(stepsOf(id, 'bentInT4ThenAged')).toBeUndefined()
  })
})

describe('a heat treatment', () => {
  it('is known for aluminium that takes one, in every form it is sold', () => {
    // Read in the table by the number its name begins with.
    expect(heatTreatmentOf({ id: '6061-T6-drawn', family: 'aluminium', heatTreatable: true })).toBe(
      heatTreatmentOf(alloy('6061-T6')),
    )
    expect(heatTreatmentOf({ id: '6005A-T61', family: 'aluminium', heatTreatable: true })?.agedTemper).toBe(
      'T61',
    )
    expect(heatTreatmentOf({ id: '6061-T6', family: 'aluminium', heatTreatable: false })).toBeUndefined()
    expect(heatTreatmentOf({ id: '6061-T6', family: 'steel', heatTreatable: true })).toBeUndefined()
    expect(heatTreatmentOf({ id: 'our own', family: 'aluminium', heatTreatable: true })).toBeUndefined()
  })
})

describe('the soft state of tube that only cold work made strong', () => {
  // From memory; 3003 at 775 F and 5052 at 650 F need no soak, copper glows dull red.
  it.each([
    ['3003-H14', 'O', /^Anneal at 413 °C; no soak/],
    ['5052-H32', 'O', /^Anneal at 343 °C; no soak/],
    ['C12200-H55', 'O60', /dull red/],
    ['1020-DOM', 'normalized', /^Normalize: 900 °C/],
    ['Ti-3Al-2.5V-CWSR', 'annealed', /about 700 °C in vacuum or argon/],
  ])('of %s is %s', (id, endTemper, step) => {
    const soft = softStateOf(alloy(id))
    expect(soft?.endTemper).toBe(endTemper)
    expect(soft?.step).toMatch(step)
    expect(soft?.note).toMatch(/no heat treatment brings it back/)
    expect(soft?.status).toBe('memory')
  })

  it('warns of titanium in a shop flame, and of no other metal', () => {
    expect(softStateOf(alloy('Ti-3Al-2.5V-CWSR'))?.note).toMatch(/Never in a shop flame/)
    expect(softStateOf(alloy('C12200-H55'))?.note).not.toMatch(/flame/)
  })

  it('comes back after bending for 4130, by normalizing', () => {
    const chromoly = alloy('4130-N')
    expect(softStateOf({ ...chromoly, temper: 'cold drawn' })).toMatchObject({
      endTemper: 'N',
      yieldMPa: chromoly.minimumYieldMPa ?? chromoly.yieldMPa,
      note: expect.stringContaining('brings the strength back'),
    })
  })

  it('is none of tube that is soft already', () => {
    for (const temper of ['O', 'o', 'O60', 'annealed', 'Normalized'])
      expect(softStateOf({ ...alloy('5052-H32'), temper })).toBeUndefined()
    expect(softStateOf({ ...alloy('5052-H32'), temper: 'H34' })).toBeDefined()
  })
})
