import { findSetUps, type SetUp, type SetUpsFound } from '@/lib/core/spec/setup-finder'
import { type PartToBend, type Pour, pouredId, type ShopTools } from '@/lib/core/spec/shop-tools'
import type { LengthUnit } from '@/lib/core/units'
import { compareWays } from '@/lib/core/ways/compare-ways'
import type { WaysQuestion } from '@/lib/core/ways/question'
import type { WayAnswer } from '@/lib/core/ways/way-answer'
import { type WayBasis, wayBasis } from '@/lib/core/ways/way-basis'
import type { EstimateGround } from '@/lib/records/estimate/rules'
import type { ShopUnits } from '@/lib/records/fields'
import { isSandPot, pourFrom } from '@/lib/records/filler-alloy/rules'
import { methodText } from '@/lib/records/lesson/rules'
import { lengthForField, type RevisionFacts, type SpecOverrides, specInputOf } from '@/lib/records/part/rules'
import type { Tooling } from '@/lib/records/setup/rules'
import type { SetupTyped } from '@/lib/records/setup/schema'

/** The question about the ways of making a revision; null where the shop has no press to ask it for. */
export function waysQuestionOf(ground: EstimateGround): WaysQuestion | null {
  const { revision, setup, tools, shop } = ground
  if (!setup) return null
  const { strap, pot } = tools
  return {
    spec: specInputOf(revision, setup, shop, ground.ownMaterial ? { material: ground.ownMaterial } : {}),
    angleToleranceDeg: revision.angleToleranceDeg,
    springbackFactorOf: ({ support, strap: held }) =>
      ground.learned[methodText({ support, strap: held !== undefined })]?.factor,
    dieRadiiMm: tools.dieRadiiMm,
    spanLimits: { lowMm: setup.press.minimumSpanMm, highMm: setup.press.maximumSpanMm },
    outsideQuoteCount: ground.outsideQuoteCount,
    couldHurt: revision.couldHurt,
    ...(strap && {
      strap: {
        thicknessMm: strap.thicknessMm,
        widthMm: strap.widthMm,
        yieldMPa: strap.yieldMPa,
        ...(strap.frictionCoeff !== null && { frictionCoeff: strap.frictionCoeff }),
      },
    }),
    ...(pot && {
      lowMelt: pourFrom(pot),
      fillerStockKg: pot.inPotKg,
    }),
  }
}

/** Every way of making the revision here, ready to be costed. `answered` spares working the ways out again. */
export function wayBases(ground: EstimateGround, answered?: readonly WayAnswer[]): WayBasis[] {
  const question = waysQuestionOf(ground)
  if (!question) return []
  return (answered ?? compareWays(question))
    .filter(({ way }) => way !== 'outside')
    .map((answer) => wayBasis(question, answer))
}

type ShopAllowances = { pressUseFraction: number; trimMm: number; kerfMm: number }

/** What the shop knows of the tube beyond the tables. */
export type Known = {
  /** Its own values of the material, over the table's. */
  material?: SpecOverrides['material']
  /** What finished bends taught, by how the tube was held: see `methodText`. */
  learned: Readonly<Record<string, { factor: number }>>
}

/** The part alone, as the set-up finder takes it. */
export function partToBend(
  revision: RevisionFacts,
  press: Tooling['presses'][number],
  shop: ShopAllowances,
  known: Known,
): PartToBend {
  const bare = {
    support: 'hollow',
    supportSpanMm: press.maximumSpanMm,
    press,
    die: null,
    strap: null,
  } as const
  const input = specInputOf(
    revision,
    { ...bare, filler: null },
    shop,
    known.material ? { material: known.material } : {},
  )
  return {
    tube: input.tube,
    material: input.material,
    bends: input.bends,
    straightAfterMm: input.straightAfterMm,
    springbackFactorOf: ({ support, strap }) =>
      known.learned[methodText({ support, strap: strap !== undefined })]?.factor,
    ...(input.sectionToleranceFraction !== undefined && {
      sectionToleranceFraction: input.sectionToleranceFraction,
    }),
  }
}

/** Each alloy once, with the values of the first pot that holds it: the one a set-up found is laid out with. */
function lowMeltsIn(pots: Tooling['fillers']): Pour[] {
  const melting = pots.filter((pot) => !isSandPot(pot))
  return melting
    .filter((pot, index) => melting.findIndex(({ fillerId }) => fillerId === pot.fillerId) === index)
    .map(pourFrom)
}

/** What the shop has in use, by the ids of its rows. */
export function shopToolsOf(tooling: Tooling, shop: Pick<ShopAllowances, 'pressUseFraction'>): ShopTools {
  const inUse = <Row extends { retired: boolean }>(rows: readonly Row[]) => rows.filter((row) => !row.retired)
  const fillers = inUse(tooling.fillers)
  return {
    presses: inUse(tooling.presses).map((press) => ({
      id: String(press.id),
      capacityKn: press.capacityKn,
      spanMinMm: press.minimumSpanMm,
      spanMaxMm: press.maximumSpanMm,
      noseRadiusMm: press.supportNoseRadiusMm,
      useFraction: shop.pressUseFraction,
      ...(press.supportFrictionCoeff !== null && { supportFrictionCoeff: press.supportFrictionCoeff }),
      ...(press.strokeMm !== null && { strokeMm: press.strokeMm }),
    })),
    dies: inUse(tooling.dies).map((die) => ({
      id: String(die.id),
      surfaceRadiusMm: die.surfaceRadiusMm,
      ...(die.grooveWidthMm !== null && { grooveWidthMm: die.grooveWidthMm }),
    })),
    straps: inUse(tooling.straps).map((strap) => ({
      id: String(strap.id),
      thicknessMm: strap.thicknessMm,
      widthMm: strap.widthMm,
      yieldMPa: strap.yieldMPa,
      ...(strap.frictionCoeff !== null && { frictionCoeff: strap.frictionCoeff }),
    })),
    lowMelts: lowMeltsIn(fillers),
    hasSand: fillers.some(isSandPot),
  }
}

/** The set-ups the shop can make this revision with, best first; null where it has no press. */
export function setUpsFor(
  revision: RevisionFacts,
  tooling: Tooling,
  shop: ShopAllowances,
  known: Known,
): SetUpsFound | null {
  const press = tooling.presses.find(({ retired }) => !retired)
  if (!press || revision.bends.length === 0) return null
  return findSetUps(partToBend(revision, press, shop, known), shopToolsOf(tooling, shop))
}

/** A span laid out with a rule: up to the next quarter inch or 5 mm, but not past what the press takes. */
export function laidOutSpanMm(spanMm: number, highMm: number, unit: LengthUnit): number {
  const stepMm = unit === 'in' ? 6.35 : 5
  const up = Math.ceil(spanMm / stepMm - 1e-9) * stepMm
  return up <= highMm ? up : spanMm
}

/**
 * A set-up found, as the set-up form holds it. One die stands in a set-up: where the bends need different ones, or one to
 * make, none is named.
 */
export function typedSetUp(
  found: SetUp,
  tooling: Tooling,
  save: { revisionId: number; version: number; units: ShopUnits },
): SetupTyped {
  const press = tooling.presses.find(({ id }) => String(id) === found.pressId)
  const { method } = found
  const pot =
    method.support === 'hollow'
      ? undefined
      : tooling.fillers.find(
          (one) =>
            !one.retired && (method.support === 'sand' ? isSandPot(one) : one.fillerId === pouredId(method)),
        )
  const dieIds = new Set(found.dies.map(({ dieId }) => dieId))
  const [dieId] = dieIds
  return {
    revisionId: String(save.revisionId),
    version: save.version,
    support: method.support,
    pressId: found.pressId,
    supportSpanMm: lengthForField(
      laidOutSpanMm(found.spanMm, press?.maximumSpanMm ?? found.spanMm, save.units.lengthUnit),
      save.units.lengthUnit,
    ),
    dieId: dieIds.size === 1 && dieId != null ? dieId : '',
    strapId: found.strapId ?? '',
    fillerId: pot ? String(pot.id) : '',
  }
}
