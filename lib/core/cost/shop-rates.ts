import type { LearningCurve } from '@/lib/core/cost/learning'
import type { PriceRounding } from '@/lib/core/cost/money'
import { defaultOperationTimes, type OperationTimes } from '@/lib/core/cost/operation-times'
import type { ThreePoint } from '@/lib/core/cost/spread'
import type { WorkCentre } from '@/lib/core/cost/work-centres'

export type HeatTreatment = 'anneal' | 'age' | 'solutionAge'

/** What an outside heat treater charges for one kind of treatment. */
export interface HeatTreatRate {
  readonly centsPerKg: number
  readonly minimumLotCents: number
  readonly freightCents: number
  readonly days: ThreePoint
}

/** Everything about money and time that the shop sets. Cents are minor units of the shop's currency. */
export interface ShopRates {
  readonly labourCentsPerH: Readonly<Record<WorkCentre, number>>
  readonly times: OperationTimes
  readonly allowanceFraction: number
  readonly learning: LearningCurve
  readonly overheadFactor: number
  readonly contingencyFraction: number
  readonly marginPpm: number
  readonly priceRounding: PriceRounding
  readonly fillerCentsPerKg: number
  readonly fillerLossFraction: ThreePoint
  readonly sandCentsPerLitre: number
  readonly sandLossFraction: ThreePoint
  readonly consumablesPerJobCents: number
  readonly consumablesPerPieceCents: number
  readonly boreOilCentsPerM: number
  readonly weldConsumablesCentsPerM: number
  readonly dyePenetrantCentsPerBend: number
  readonly materialScrapFraction: number
  readonly freightInCents: number
  readonly heatTreat: Readonly<Record<HeatTreatment, HeatTreatRate>>
  readonly firstPassYieldFraction: number
  readonly dieMakeMinutes: ThreePoint
  readonly dieMaterialCents: number
  readonly strapMakeMinutes: ThreePoint
  readonly strapMaterialCents: number
  readonly hoursPerDay: number
  readonly queueDays: ThreePoint
  readonly endTrimMm: number
  readonly keepOffcutFromMm: number
  readonly offcutValueFraction: number
}

/** What a new shop starts from: invented round figures in cents, to be replaced by its own. */
export const defaultShopRates: ShopRates = {
  labourCentsPerH: {
    office: 6000,
    bench: 6500,
    saw: 6500,
    press: 7500,
    filling: 7000,
    oven: 6500,
    welding: 8500,
    inspection: 7000,
    toolmaking: 8000,
  },
  times: defaultOperationTimes,
  allowanceFraction: 0.15,
  learning: { model: 'unit', rateFraction: 0.9 },
  overheadFactor: 0.35,
  contingencyFraction: 0.05,
  marginPpm: 300_000,
  priceRounding: { stepCents: 100, direction: 'up' },
  fillerCentsPerKg: 5500,
  fillerLossFraction: { low: 0.01, likely: 0.02, high: 0.05 },
  sandCentsPerLitre: 150,
  sandLossFraction: { low: 0.02, likely: 0.05, high: 0.15 },
  consumablesPerJobCents: 800,
  consumablesPerPieceCents: 150,
  boreOilCentsPerM: 40,
  weldConsumablesCentsPerM: 900,
  dyePenetrantCentsPerBend: 120,
  materialScrapFraction: 0,
  freightInCents: 4500,
  heatTreat: {
    anneal: {
      centsPerKg: 600,
      minimumLotCents: 15_000,
      freightCents: 4000,
      days: { low: 3, likely: 5, high: 8 },
    },
    age: {
      centsPerKg: 500,
      minimumLotCents: 12_500,
      freightCents: 4000,
      days: { low: 2, likely: 4, high: 7 },
    },
    solutionAge: {
      centsPerKg: 1200,
      minimumLotCents: 25_000,
      freightCents: 4000,
      days: { low: 4, likely: 7, high: 12 },
    },
  },
  firstPassYieldFraction: 0.85,
  dieMakeMinutes: { low: 60, likely: 120, high: 240 },
  dieMaterialCents: 6000,
  strapMakeMinutes: { low: 20, likely: 40, high: 80 },
  strapMaterialCents: 1500,
  hoursPerDay: 8,
  queueDays: { low: 1, likely: 3, high: 8 },
  endTrimMm: 5,
  keepOffcutFromMm: 300,
  offcutValueFraction: 0.5,
}

/** What each setting means, for the settings screen. Amounts are invented starting figures unless a source is named. */
export const shopRateNotes: Readonly<Record<keyof ShopRates, { meaning: string; source: string }>> = {
  labourCentsPerH: {
    meaning: 'What an hour at each work centre costs the shop: wage and its on-costs',
    source: 'invented starting figure',
  },
  times: { meaning: 'Times behind each operation', source: 'named on each time' },
  allowanceFraction: {
    meaning:
      'Personal time, fatigue and delay, added once to every minute of work as a share of the job time',
    source: 'flat 15 percent is common practice, no source; ILO-type tables give 13 to 15 for bench work',
  },
  learning: {
    meaning:
      'How hand work gets faster over the run: 0.9 means the 2nd, 4th, 8th piece each take 90 percent of the one at half the count',
    source:
      'fabrication about 0.90, from memory of published lists; use the shop\u2019s own after two timed runs',
  },
  overheadFactor: {
    meaning: 'Rent, power, insurance and idle time, as a share of labour',
    source: 'invented starting figure',
  },
  contingencyFraction: {
    meaning: 'Set aside for what nobody thought of, a share of everything before it',
    source: 'invented starting figure',
  },
  marginPpm: {
    meaning:
      'Profit as a share of the price, in millionths (300000 = 30 percent of the price = 42.9 percent on cost)',
    source: 'invented starting figure',
  },
  priceRounding: { meaning: 'Step that a price is rounded to, and which way', source: 'shop\u2019s choice' },
  fillerCentsPerKg: {
    meaning: 'What a kilogram of filler alloy costs to replace',
    source: 'invented starting figure',
  },
  fillerLossFraction: {
    meaning: 'Share of the filler that does not come back from a pour: dross, drips, residue',
    source: 'common practice, no source; the ledger replaces it',
  },
  sandCentsPerLitre: { meaning: 'What a litre of dry sand costs', source: 'invented starting figure' },
  sandLossFraction: { meaning: 'Share of the sand lost each time', source: 'common practice, no source' },
  consumablesPerJobCents: {
    meaning: 'Rags, tape, plugs, marking out, once a job',
    source: 'invented starting figure',
  },
  consumablesPerPieceCents: {
    meaning: 'Blade, abrasive, gloves, each start',
    source: 'invented starting figure',
  },
  boreOilCentsPerM: {
    meaning: 'Bore oil and degreaser, a metre of tube filled',
    source: 'invented starting figure',
  },
  weldConsumablesCentsPerM: {
    meaning: 'Wire, gas and tungsten, a metre of weld',
    source: 'invented starting figure',
  },
  dyePenetrantCentsPerBend: {
    meaning: 'Cleaner, penetrant and developer, each bend',
    source: 'invented starting figure',
  },
  materialScrapFraction: {
    meaning: 'Material lost beyond kerf and ends, a share of what is bought',
    source: 'shop\u2019s choice; nesting already counts kerf and ends',
  },
  freightInCents: { meaning: 'Freight on a delivery of tube', source: 'invented starting figure' },
  heatTreat: {
    meaning:
      'An outside heat treater\u2019s price a kilogram, least charge a lot, freight both ways and days away',
    source: 'invented starting figure',
  },
  firstPassYieldFraction: {
    meaning: 'Share of starts that end good the first time, until the shop\u2019s own record replaces it',
    source: 'common practice, no source',
  },
  dieMakeMinutes: { meaning: 'Sawing and finishing a radius die', source: 'common practice, no source' },
  dieMaterialCents: { meaning: 'Material of a radius die', source: 'invented starting figure' },
  strapMakeMinutes: { meaning: 'Cutting and bending a strap', source: 'common practice, no source' },
  strapMaterialCents: { meaning: 'Material of a strap', source: 'invented starting figure' },
  hoursPerDay: { meaning: 'Hours a day the shop can give to one job', source: 'shop\u2019s choice' },
  queueDays: { meaning: 'Working days before a new job is begun', source: 'shop\u2019s choice' },
  endTrimMm: {
    meaning: 'Cut off each bar before the first piece, to square it',
    source: 'common practice, no source',
  },
  keepOffcutFromMm: {
    meaning: 'A leftover from this length on goes back to the rack',
    source: 'shop\u2019s choice',
  },
  offcutValueFraction: {
    meaning: 'What an offcut is worth beside new tube of the same length',
    source: 'shop\u2019s choice',
  },
}
