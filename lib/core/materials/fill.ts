import type { LowMeltFiller } from '@/lib/core/materials/low-melt'
import { STANDARD_GRAVITY_M_PER_S2 } from '@/lib/core/units'

const DEFAULT_ROOM_C = 20
const WATER_SPECIFIC_HEAT_KJ_PER_KG_K = 4.19
const FILLER_CONDUCTIVITY_W_PER_M_K = 18
const SUPERHEAT_ALLOWANCE_K = 50

function requirePositive(value: number, what: string): void {
  if (!(value > 0) || !Number.isFinite(value))
    throw new RangeError(`${what} must be more than 0, not ${value}`)
}

/**
 * Mass of filler in a bore.
 *   m = density * bore area * length
 * Source: definition. Valid: a bore filled full; density from a weighed slug, else the rule of mixtures (5 percent under to 1 over).
 */
export function fillMassKg(fill: { boreAreaMm2: number; lengthMm: number; densityKgM3: number }): number {
  requirePositive(fill.boreAreaMm2, 'bore area, mm²')
  requirePositive(fill.lengthMm, 'filled length, mm')
  requirePositive(fill.densityKgM3, 'density, kg/m³')
  return fill.boreAreaMm2 * fill.lengthMm * fill.densityKgM3 * 1e-9
}

/**
 * Pressure at the foot of a standing column of molten filler, in kPa.
 *   p = density * g * height
 * Source: hydrostatics.
 */
export function headPressureKPa(column: { heightMm: number; densityKgM3: number }): number {
  requirePositive(column.heightMm, 'column height, mm')
  requirePositive(column.densityKgM3, 'density, kg/m³')
  return (column.densityKgM3 * STANDARD_GRAVITY_M_PER_S2 * column.heightMm) / 1e6
}

/** Push of that column on the plug at the bottom, in newtons: pressure times bore area. */
export function plugForceN(column: { heightMm: number; densityKgM3: number; boreAreaMm2: number }): number {
  requirePositive(column.boreAreaMm2, 'bore area, mm²')
  return (headPressureKPa(column) * column.boreAreaMm2) / 1000
}

/**
 * Heat to bring a kilogram of filler from room temperature to molten.
 *   q = c_solid (T_solidus - T_0) + L + c_liquid (T_1 - T_liquidus), and the mean of both specific heats across a melting range
 * Source: calorimetry. Valid: T_1 at or above the liquidus; needs a known latent heat.
 */
export function fillerHeatKJPerKg(
  filler: LowMeltFiller,
  to: { temperatureC: number; fromC?: number },
): number {
  const { solidusC, liquidusC, latentHeatKJPerKg } = filler
  const fromC = to.fromC ?? DEFAULT_ROOM_C
  if (latentHeatKJPerKg === undefined) {
    throw new RangeError(`no latent heat is known for ${filler.name}: its melting heat can’t be worked out`)
  }
  if (to.temperatureC < liquidusC) {
    throw new RangeError(
      `${filler.name} is not all molten at ${to.temperatureC} °C: it takes ${liquidusC} °C`,
    )
  }
  if (fromC > solidusC) throw new RangeError(`${filler.name} is already melting at ${fromC} °C`)
  const meanSpecificHeat = (filler.solidSpecificHeatJPerKgK + filler.liquidSpecificHeatJPerKgK) / 2
  const sensibleJPerKg =
    filler.solidSpecificHeatJPerKgK * (solidusC - fromC) +
    meanSpecificHeat * (liquidusC - solidusC) +
    filler.liquidSpecificHeatJPerKgK * (to.temperatureC - liquidusC)
  return sensibleJPerKg / 1000 + latentHeatKJPerKg
}

/**
 * Heat to bring filler and tube together from room temperature to molten, in kJ.
 *   Q = m_filler q + m_tube c_tube (T_1 - T_0)
 * Source: calorimetry. Losses of the bath left out.
 */
export function meltHeatKJ(load: {
  filler: LowMeltFiller
  fillerMassKg: number
  tubeMassKg: number
  tubeSpecificHeatJPerKgK: number
  temperatureC: number
  fromC?: number
}): number {
  const { filler, temperatureC } = load
  const fromC = load.fromC ?? DEFAULT_ROOM_C
  const tubeKJ = (load.tubeMassKg * load.tubeSpecificHeatJPerKgK * (temperatureC - fromC)) / 1000
  return load.fillerMassKg * fillerHeatKJPerKg(filler, { temperatureC, fromC }) + tubeKJ
}

/** Water that gives up this heat while it cools by so many kelvin, in kg (4.19 kJ/kgK). */
export function waterForHeatKg(heatKJ: number, coolingK: number): number {
  requirePositive(coolingK, 'cooling of the bath, K')
  return heatKJ / (WATER_SPECIFIC_HEAT_KJ_PER_KG_K * coolingK)
}

/** Minutes a heater of this power takes to make up this heat, losses left out. */
export function heaterMinutes(heatKJ: number, heaterKw: number): number {
  requirePositive(heaterKw, 'heater power, kW')
  return heatKJ / heaterKw / 60
}

/** Specific heat of tube metals, J/kgK. Source: open periodic-table data set, of the base metal. */
export const tubeSpecificHeatJPerKgK = {
  aluminium: 897,
  steel: 450,
  stainless: 450,
  titanium: 524,
  copper: 385,
} as const

/** Film coefficients between bath and tube, W/m²K. From memory: order of magnitude only. */
export const bathFilm = { still: 300, moving: 600, stirred: 1000 } as const

/** Time for melting or freezing: what the film takes, what the metal takes, and their sum. Trust: screening. */
export type PhaseChangeTime = Readonly<{ filmMinutes: number; metalMinutes: number; minutes: number }>

function phaseChangeTime(bore: {
  filler: LowMeltFiller
  boreRadiusMm: number
  outsideRadiusMm: number
  filmWPerM2K: number
  driveK: number
  densityKgM3?: number
}): PhaseChangeTime {
  const { filler, driveK, filmWPerM2K } = bore
  requirePositive(bore.boreRadiusMm, 'bore radius, mm')
  requirePositive(filmWPerM2K, 'film coefficient, W/m²K')
  if (!(bore.outsideRadiusMm > bore.boreRadiusMm))
    throw new RangeError('the outside must be bigger than the bore')
  if (filler.latentHeatKJPerKg === undefined) {
    throw new RangeError(`no latent heat is known for ${filler.name}: its melting time can’t be worked out`)
  }
  const densityKgM3 = bore.densityKgM3 ?? filler.densityKgM3
  const latentJPerKg = filler.latentHeatKJPerKg * 1000
  const boreRadiusM = bore.boreRadiusMm / 1000
  const outsideRadiusM = bore.outsideRadiusMm / 1000
  const heatJPerKg = latentJPerKg + filler.solidSpecificHeatJPerKgK * SUPERHEAT_ALLOWANCE_K
  const filmS = (densityKgM3 * heatJPerKg * boreRadiusM ** 2) / (2 * filmWPerM2K * outsideRadiusM * driveK)
  const metalS =
    (densityKgM3 * latentJPerKg * boreRadiusM ** 2) / (4 * FILLER_CONDUCTIVITY_W_PER_M_K * driveK)
  return { filmMinutes: filmS / 60, metalMinutes: metalS / 60, minutes: (filmS + metalS) / 60 }
}

/**
 * Time until the filler in a tube lying in a bath is molten. Allow twice as long for draining.
 *   film:  density (L + 50 K c_solid) R^2 / (2 h R_o (T_bath - T_m))
 *   metal: density L R^2 / (4 k (T_bath - T_m)),  k 18 W/mK (from memory)
 * Source: lumped film and one-phase conduction (Stefan), worked out; film coefficients from memory. Valid: fully immersed round tube,
 * for others the radius of the circle of equal area; bath above the liquidus. Screening.
 */
export function meltOutTime(bore: {
  filler: LowMeltFiller
  boreRadiusMm: number
  outsideRadiusMm: number
  bathC: number
  filmWPerM2K: number
  densityKgM3?: number
}): PhaseChangeTime {
  const driveK = bore.bathC - bore.filler.liquidusC
  if (!(driveK > 0)) {
    throw new RangeError(
      `${bore.filler.name} doesn’t melt in a bath at ${bore.bathC} °C: it takes ${bore.filler.liquidusC} °C`,
    )
  }
  return phaseChangeTime({ ...bore, driveK })
}

/**
 * Time until the filler has frozen through in cold water: the melt-out formula with the temperatures the other way round.
 * Source: as melt-out. Practice is 15 to 30 minutes in cold running water by diameter (trade sheet); take the longer. Screening.
 */
export function chillTime(bore: {
  filler: LowMeltFiller
  boreRadiusMm: number
  outsideRadiusMm: number
  waterC: number
  filmWPerM2K: number
  densityKgM3?: number
}): PhaseChangeTime {
  const driveK = bore.filler.solidusC - bore.waterC
  if (!(driveK > 0)) {
    throw new RangeError(
      `${bore.filler.name} doesn’t freeze in water at ${bore.waterC} °C: it freezes at ${bore.filler.solidusC} °C`,
    )
  }
  return phaseChangeTime({ ...bore, driveK })
}

/** Planning loss of filler per pour and melt-out, as a fraction of the fill. From memory, low confidence: weigh in, weigh out. */
export const FILLER_LOSS_FRACTION = { low: 0.01, high: 0.03 } as const

/** True where the bath that melts this filler out can be open water with 15 K to spare below 100 °C. */
export function meltsInOpenWater(filler: Pick<LowMeltFiller, 'liquidusC'>): boolean {
  return filler.liquidusC + 15 <= 100
}
