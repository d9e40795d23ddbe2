import { fillerById } from '@/lib/core/materials/fillers'
import type { Filler, LowMeltFiller } from '@/lib/core/materials/low-melt'
import { type CompositionPct, densityByMixtureKgM3, sumOfParts } from '@/lib/core/materials/mixture'
import { type OwnFiller, ownFillerFault, ownLowMelt } from '@/lib/core/materials/own-filler'
import { shopFormat } from '@/lib/core/shop-format'
import type { Pour } from '@/lib/core/spec/shop-tools'
import { readNumber } from '@/lib/core/typed/number'
import type { LengthUnit } from '@/lib/core/units'
import { withoutUnit } from '@/lib/records/fields'
import {
  type FillerAlloyTyped,
  fillerAlloyKept,
  fillerMetals,
  type NewFillerAlloy,
} from '@/lib/records/filler-alloy/schema'

/** What was typed, as the core takes an alloy that is in no table. */
export function ownFillerOf(typed: NewFillerAlloy): OwnFiller {
  const { densityKgM3, yieldMPa, elasticModulusMPa, latentHeatKJPerKg } = typed
  return {
    id: typed.id,
    ...(typed.name && { name: typed.name }),
    compositionPct: Object.fromEntries(
      fillerMetals.flatMap(([symbol, field]) => (typed[field] ? [[symbol, typed[field]]] : [])),
    ),
    solidusC: typed.solidusC,
    liquidusC: typed.liquidusC,
    ...(densityKgM3 !== null && { densityKgM3 }),
    ...(yieldMPa !== null && { yieldMPa }),
    ...(elasticModulusMPa !== null && { elasticModulusMPa }),
    ...(latentHeatKJPerKg !== null && { latentHeatKJPerKg }),
    ...(typed.growthNote && { growthNote: typed.growthNote }),
    source: typed.sourceText,
    status: typed.status,
  }
}

/** An alloy as it is kept; null for one that an older version kept otherwise: it is left out, not guessed at. */
export function keptAlloy(data: unknown): { values: NewFillerAlloy; own: OwnFiller } | null {
  const read = fillerAlloyKept.safeParse(data)
  if (!read.success) return null
  const own = ownFillerOf(read.data)
  return ownFillerFault(own) ? null : { values: read.data, own }
}

/** What the parts typed so far add up to, and what such an alloy weighs once they are the whole of it. */
export function partsTyped(typed: Pick<FillerAlloyTyped, (typeof fillerMetals)[number][1]>): {
  sumPct: number
  densityKgM3: number | null
} {
  const compositionPct: CompositionPct = Object.fromEntries(
    fillerMetals.flatMap(([symbol, field]) => {
      const read = readNumber(withoutUnit(typed[field], '%'))
      return read.ok && read.value > 0 ? [[symbol, read.value]] : []
    }),
  )
  const { sumPct, isWhole } = sumOfParts(compositionPct)
  return { sumPct, densityKgM3: isWhole ? densityByMixtureKgM3(compositionPct) : null }
}

/** What is in a pot, and what the shop measured of it. */
export type PotFacts = {
  fillerId: string
  /** The alloy itself where it is the shop's own. */
  own?: OwnFiller
  yieldMPa: number | null
  modulusMPa: number | null
  densityKgM3?: number | null
}

/** What a plan was made with of an alloy of the shop's own, value by value, so that two plans can be compared. */
export function toldOfOwn(own: OwnFiller | undefined, unit: LengthUnit): (readonly [string, string])[] {
  const alloy = own && ownLowMelt(own)
  const shown = shopFormat(unit)
  const told = (text: (of: LowMeltFiller) => string) => (alloy ? text(alloy) : 'the table’s')
  return [
    [
      'what the filler is made of',
      told(({ compositionPct }) =>
        fillerMetals
          .flatMap(([symbol]) => (compositionPct[symbol] ? [`${symbol} ${compositionPct[symbol]} %`] : []))
          .join(', '),
      ),
    ],
    ['where the filler begins to melt', told(({ solidusC }) => shown.temperature(solidusC))],
    ['where the filler is all molten', told(({ liquidusC }) => shown.temperature(liquidusC))],
    ['density of the filler', told(({ densityKgM3 }) => `${Math.round(densityKgM3)} kg/m³`)],
    ['yield of the filler', told(({ yieldMPa }) => shown.stress(yieldMPa))],
    ['modulus of the filler', told(({ elasticModulusMPa }) => shown.stress(elasticModulusMPa))],
  ]
}

/** The alloy, or the sand, in a pot; undefined where nobody knows it any more. */
export function alloyInPot({ fillerId, own }: Pick<PotFacts, 'fillerId' | 'own'>): Filler | undefined {
  return own ? ownLowMelt(own) : fillerById(fillerId)
}

export const isSandPot = (pot: Pick<PotFacts, 'fillerId' | 'own'>): boolean =>
  alloyInPot(pot)?.kind === 'sand'

/** A pot as a bend spec takes it: what was measured of it counts over its alloy's values. Sand carries no moment and has no yield. */
export function pourFrom(pot: PotFacts): Pour {
  return {
    ...(pot.own ? { ownFiller: pot.own } : { fillerId: pot.fillerId }),
    ...(pot.yieldMPa !== null && !isSandPot(pot) && { fillerYieldMPa: pot.yieldMPa }),
    ...(pot.modulusMPa !== null && { fillerModulusMPa: pot.modulusMPa }),
    ...(pot.densityKgM3 && { fillerDensityKgM3: pot.densityKgM3 }),
  }
}

type PotRow = { ownAlloy: { data: unknown } | null }

/**
 * A pot's row with its own alloy read. One of a table's alloy is left as it always was, so that the mark of what an
 * estimate or a decision was made from stays the same.
 */
export function withOwn<Row extends PotRow>({
  ownAlloy,
  ...row
}: Row): Omit<Row, 'ownAlloy'> & { own?: OwnFiller } {
  const own = ownAlloy && keptAlloy(ownAlloy.data)?.own
  return own ? { ...row, own } : row
}

/** What a pot's row has to be read with for `withOwn`. */
export const ownAlloyColumns = { ownAlloy: { select: { data: true } } } as const
