import { BISMUTH_RULE, type LowMeltFiller, lowMeltFiller } from '@/lib/core/materials/low-melt'
import { COMPOSITION_SLACK_PCT, type CompositionPct, sumOfParts } from '@/lib/core/materials/mixture'
import { from, type SourceStatus } from '@/lib/core/materials/provenance'

/** A low-melt alloy that is in no table, as a shop knows it: from its maker's sheet, or from its own weighing and melting. */
export type OwnFiller = Readonly<{
  id: string
  name?: string
  compositionPct: CompositionPct
  solidusC: number
  liquidusC: number
  /** Left out: the rule of mixtures. */
  densityKgM3?: number
  /** Left out, as the modulus: the 158 F eutectic's. */
  yieldMPa?: number
  elasticModulusMPa?: number
  latentHeatKJPerKg?: number
  growthNote?: string
  source?: string
  status?: Exclude<SourceStatus, 'computed'>
}>

/** Ranges an own alloy's values must be in; what melts higher takes the temper of aluminium with it. */
export const ownFillerRanges = {
  meltingC: { min: 20, max: 300 },
  densityKgM3: { min: 5000, max: 13_000 },
  yieldMPa: { min: 0.1, max: 200 },
  elasticModulusMPa: { min: 1, max: 100_000 },
  latentHeatKJPerKg: { min: 5, max: 120 },
} as const

const ranged = ['densityKgM3', 'yieldMPa', 'elasticModulusMPa', 'latentHeatKJPerKg'] as const

/**
 * What of an own alloy can't be, with what is allowed; null where all of it can.
 * Temperatures in °C, composition in percent by mass; whatever is asked is told, nothing is thrown.
 * Source: ranges of published low-melt alloys with room on both sides, common practice, no source.
 */
export function ownFillerFault(
  own: OwnFiller,
): { field: keyof OwnFiller; met: string; allowed: string } | null {
  const { meltingC } = ownFillerRanges
  const { sumPct, isWhole } = sumOfParts(own.compositionPct)
  if (!isWhole)
    return {
      field: 'compositionPct',
      met: `${Number(sumPct.toFixed(3))} percent`,
      allowed: `parts of 0 to 100 percent by mass that add up to 100, within ${COMPOSITION_SLACK_PCT}`,
    }
  for (const field of ['solidusC', 'liquidusC'] as const)
    if (!(own[field] >= meltingC.min && own[field] <= meltingC.max))
      return { field, met: `${own[field]} °C`, allowed: `${meltingC.min} to ${meltingC.max} °C` }
  if (own.liquidusC < own.solidusC)
    return {
      field: 'liquidusC',
      met: `${own.liquidusC} °C`,
      allowed: `not under ${own.solidusC} °C, where it begins to melt`,
    }
  for (const field of ranged) {
    const value = own[field]
    const { min, max } = ownFillerRanges[field]
    if (value !== undefined && !(value >= min && value <= max))
      return { field, met: String(value), allowed: `${min} to ${max}` }
  }
  return null
}

/** Bismuth by mass from which an alloy grows as it freezes, and under which it shrinks. */
const GROWS_ABOVE_PCT = 55
const SHRINKS_BELOW_PCT = 48

function growthByBismuth({ Bi = 0 }: CompositionPct): string {
  if (Bi > GROWS_ABOVE_PCT) return 'Grows on freezing (over 55 percent bismuth).'
  if (Bi < SHRINKS_BELOW_PCT)
    return 'Shrinks on freezing (under 48 percent bismuth): it can come loose in the bore.'
  return 'Next to no change on freezing (48 to 55 percent bismuth).'
}

/**
 * A shop's own low-melt alloy with everything a fill needs, its hazards told from what is in it.
 * Units in the names; composition in percent by mass. What the shop left out is worked out or taken as in the filler table.
 * Source: the shop's, with the status it gave; growth by the trade rule of bismuth content.
 * Throws RangeError on what `ownFillerFault` tells.
 */
export function ownLowMelt(own: OwnFiller): LowMeltFiller {
  const fault = ownFillerFault(own)
  if (fault) throw new RangeError(`${fault.field} of a filler: ${fault.met}; allowed: ${fault.allowed}`)
  const said = from(own.status ?? 'memory', own.source ?? 'As entered')
  return lowMeltFiller({
    id: own.id,
    name: own.name || own.id,
    compositionPct: own.compositionPct,
    compositionFrom: said,
    solidusC: own.solidusC,
    liquidusC: own.liquidusC,
    meltingFrom: said,
    ...(own.densityKgM3 !== undefined && { weighed: [own.densityKgM3, said] }),
    ...(own.yieldMPa !== undefined && { yield: [own.yieldMPa, said] }),
    ...(own.elasticModulusMPa !== undefined && { modulus: [own.elasticModulusMPa, said] }),
    ...(own.latentHeatKJPerKg !== undefined && { latentHeat: [own.latentHeatKJPerKg, said] }),
    growth: own.growthNote ? [own.growthNote, said] : [growthByBismuth(own.compositionPct), BISMUTH_RULE],
  })
}
