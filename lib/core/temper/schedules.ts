import type { Alloy } from '@/lib/core/materials/alloys'
import { alloyById } from '@/lib/core/materials/alloys'
import type { SourceStatus } from '@/lib/core/materials/provenance'
import { celsiusFromFahrenheit } from '@/lib/core/units'

export type Soak = Readonly<{ temperatureC: number; hours: number }>

/**
 * How an alloy is heat treated: to soft, to solution and quench, and aged to full strength.
 * Source: handbook and standard schedules named in each row (ASTM B918 says its own are typical and may not suit every part).
 */
export type HeatTreatment = Readonly<{
  anneal: Soak
  annealCooling: string
  solutionC: readonly [low: number, high: number]
  ageNaturallyHours: number
  age: readonly Soak[]
  agedTemper: string
  agedYieldMPa: number
  agedTensileMPa: number
  bendsInT4: boolean
  source: string
  status: SourceStatus
}>

const SLOW_COOLING = 'cool 28 °C an hour to 260 °C, then in air'
const f = celsiusFromFahrenheit

function agedTo(id: string): Pick<HeatTreatment, 'agedTemper' | 'agedYieldMPa' | 'agedTensileMPa'> {
  const alloy = alloyById(id)
  if (!alloy) throw new RangeError(`${id} is missing from the alloy table`)
  return {
    agedTemper: alloy.temper,
    agedYieldMPa: alloy.minimumYieldMPa ?? alloy.yieldMPa,
    agedTensileMPa: alloy.minimumTensileMPa ?? alloy.tensileMPa,
  }
}

const byBase: Readonly<Record<string, HeatTreatment>> = {
  '6061': {
    anneal: { temperatureC: f(775), hours: 2.5 },
    annealCooling: SLOW_COOLING,
    solutionC: [f(985), f(985)],
    ageNaturallyHours: 96,
    age: [{ temperatureC: f(350), hours: 8 }],
    ...agedTo('6061-T6'),
    bendsInT4: true,
    source: 'Handbook schedules for 6061 (also 160 °C for 18 h)',
    status: 'verified',
  },
  '6063': {
    anneal: { temperatureC: f(775), hours: 2.5 },
    annealCooling: SLOW_COOLING,
    solutionC: [f(970), f(970)],
    ageNaturallyHours: 96,
    age: [{ temperatureC: f(360), hours: 6 }],
    ...agedTo('6063-T6'),
    bendsInT4: true,
    source: 'Handbook schedules for 6063; only the ageing was read',
    status: 'memory',
  },
  '6082': {
    anneal: { temperatureC: 400, hours: 1.5 },
    annealCooling: 'cool 30 °C an hour to 250 °C, then in air',
    solutionC: [525, 540],
    ageNaturallyHours: 192,
    age: [{ temperatureC: 175, hours: 8 }],
    ...agedTo('6082-T6'),
    bendsInT4: true,
    source: 'Producers’ data sheets: ageing 155 to 190 °C, 4 to 16 h; 175 °C, 8 h taken',
    status: 'secondary',
  },
  '6005a': {
    anneal: { temperatureC: f(775), hours: 2.5 },
    annealCooling: SLOW_COOLING,
    solutionC: [525, 540],
    ageNaturallyHours: 96,
    age: [{ temperatureC: f(360), hours: 6 }],
    ...agedTo('6005A-T61'),
    bendsInT4: true,
    source: 'Ageing read; anneal and solution taken from 6061 and 6082',
    status: 'memory',
  },
  '7005': {
    anneal: { temperatureC: f(775), hours: 2.5 },
    annealCooling: SLOW_COOLING,
    solutionC: [f(750), f(750)],
    ageNaturallyHours: 72,
    age: [
      { temperatureC: f(225), hours: 8 },
      { temperatureC: f(300), hours: 16 },
    ],
    ...agedTo('7005-T53'),
    bendsInT4: false,
    source: 'ASTM B918 and ASM Handbook schedules for 7005',
    status: 'memory',
  },
  '2024': {
    anneal: { temperatureC: f(775), hours: 2.5 },
    annealCooling: SLOW_COOLING,
    solutionC: [f(910), f(930)],
    ageNaturallyHours: 96,
    age: [],
    agedTemper: 'T42',
    agedYieldMPa: 276,
    agedTensileMPa: 441,
    bendsInT4: false,
    source: 'Handbook schedule for 2024; T42 strengths of ASTM B210',
    status: 'memory',
  },
}

/** The alloy number an id begins with: `6061` of `6061-T6-drawn`. */
export const baseOf = (alloy: Pick<Alloy, 'id'>): string => (alloy.id.split('-')[0] ?? '').toLowerCase()

/** The heat treatment of a heat-treatable aluminium, or undefined where none is known. */
export function heatTreatmentOf(
  alloy: Pick<Alloy, 'id' | 'family' | 'heatTreatable'>,
): HeatTreatment | undefined {
  return alloy.family === 'aluminium' && alloy.heatTreatable ? byBase[baseOf(alloy)] : undefined
}

/** What a metal that hardens only by cold work becomes when it is annealed, and how that is done. */
export type SoftState = Readonly<{
  step: string
  endTemper: string
  yieldMPa: number
  tensileMPa: number
  note: string
  status: SourceStatus
}>

type SoftAlloy = Pick<
  Alloy,
  | 'id'
  | 'family'
  | 'temper'
  | 'heatTreatable'
  | 'yieldMPa'
  | 'tensileMPa'
  | 'minimumYieldMPa'
  | 'minimumTensileMPa'
>

const SOFT_TEMPER = /^(O|O60|annealed|normalized)$/i

/**
 * The soft state of tube that heat treatment can’t make strong again; undefined where it is soft already or none is known.
 * Source: schedules from memory; strengths are the soft temper’s row in the alloy table.
 */
export function softStateOf(alloy: SoftAlloy): SoftState | undefined {
  if (SOFT_TEMPER.test(alloy.temper)) return undefined
  const strengthsOf = (id: string) => {
    const soft = alloyById(id)
    if (!soft) return undefined
    return {
      endTemper: soft.temper,
      yieldMPa: soft.minimumYieldMPa ?? soft.yieldMPa,
      tensileMPa: soft.minimumTensileMPa ?? soft.tensileMPa,
    }
  }
  const soft = (id: string, step: string, note: string): SoftState | undefined => {
    const strengths = strengthsOf(id)
    return strengths && { ...strengths, step, note, status: 'memory' }
  }
  const base = baseOf(alloy)
  const keepsNothing = 'The strength came from cold work; no heat treatment brings it back.'
  if (base === '3003') return soft('3003-O', 'Anneal at 413 °C; no soak needed.', keepsNothing)
  if (base === '5052') return soft('5052-O', 'Anneal at 343 °C; no soak needed.', keepsNothing)
  if (alloy.family === 'copper')
    return soft('C12200-O60', 'Heat to dull red, 400 to 650 °C, and cool.', keepsNothing)
  if (alloy.family === 'titanium') {
    return soft(
      'Ti-3Al-2.5V',
      'Anneal at about 700 °C in vacuum or argon.',
      `${keepsNothing} Never in a shop flame: hot titanium soaks up air and goes brittle.`,
    )
  }
  if (base === '1020' || base === '1026')
    return soft('1020-N', 'Normalize: 900 °C, cool in still air.', keepsNothing)
  if (base === '4130') {
    return {
      step: 'Anneal at about 840 °C and cool slowly; after bending normalize at about 900 °C in still air.',
      endTemper: 'N',
      yieldMPa: alloy.minimumYieldMPa ?? alloy.yieldMPa,
      tensileMPa: alloy.minimumTensileMPa ?? alloy.tensileMPa,
      note: 'Normalizing brings the strength back; prove it by hardness.',
      status: 'memory',
    }
  }
  return undefined
}
