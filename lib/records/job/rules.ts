import { type Support, type WayKey, wayKeys, waySupport } from '@/lib/core/cost/ways'
import { cutReach } from '@/lib/core/drawing/end-cut'
import type { EndCut } from '@/lib/core/drawing/part'
import { alloyById } from '@/lib/core/materials/alloys'
import { rememberedSpec } from '@/lib/core/spec/bend-spec'
import {
  type SpecAnswer,
  type SpecInput,
  type SpecMaterial,
  SpecRefusal,
  type SpecTube,
} from '@/lib/core/spec/contract'
import { sawnLengthMm } from '@/lib/core/spec/lengths'
import type { LengthUnit } from '@/lib/core/units'
import { mitredBuild } from '@/lib/core/ways/mitred'
import { type PotFacts, pourFrom } from '@/lib/records/filler-alloy/rules'
import { methodText, sectionText } from '@/lib/records/lesson/rules'

export type PlanTube = {
  shape: 'square' | 'rectangular' | 'round'
  widthMm: number
  heightMm: number
  wallMm: number
  cornerRadiusMm: number | null
}

/** A revision as the plan is made from it. */
export type PlannedRevision = PlanTube & {
  letter: string
  materialId: string
  straightAfterMm: number
  startCut: unknown
  endCut: unknown
  angleToleranceDeg: number
  lengthToleranceMm: number
  radiusToleranceMm: number | null
  sectionToleranceFraction: number | null
  /** The class that counts for what has no tolerance of its own. */
  generalTolerance?: string
  weldedAfter: boolean
  couldHurt: boolean
  bends: readonly {
    position: number
    straightBeforeMm: number
    angleDeg: number
    centrelineRadiusMm: number
    rotationDeg: number
  }[]
}

/** The set-up with the equipment it names. */
export type PlannedSetup = {
  support: Support
  supportSpanMm: number
  press: {
    shopNumber: string
    name: string
    capacityKn: number
    strokeMm: number | null
    supportNoseRadiusMm: number
    supportFrictionCoeff: number | null
  }
  die: { shopNumber: string; surfaceRadiusMm: number; place: string } | null
  strap: {
    shopNumber: string
    thicknessMm: number
    widthMm: number
    lengthMm: number
    yieldMPa: number
    frictionCoeff: number | null
    place: string
  } | null
  filler:
    | (PotFacts & {
        shopNumber: string
        name: string
        lotText: string
      })
    | null
}

export type PlannedShop = { pressUseFraction: number; trimMm: number; kerfMm: number; lengthUnit: LengthUnit }

/** What a lot's certificate says instead of the table. */
export type CertificateValues = {
  yieldMPa?: number | null
  tensileMPa?: number | null
  elongationPct?: number | null
}

export type PlanFactor = { value: number; sd: number; text: string }

/** The straights that a mitred part is welded from. */
export type MitredPlan = {
  /** Over the long points, in order from the start. */
  longLengthsMm: number[]
  /** Off square at each corner. */
  sawAnglesDeg: number[]
  /** Off the bar for one piece: all straights and a kerf at each corner. */
  cutLengthMm: number
}

/** The bend spec in and out, the set-up by its shop numbers and the tolerances, as they stood when the traveller was made. */
export type JobPlan = {
  madeAt: string
  way: WayKey
  input: SpecInput | null
  spec: SpecAnswer | null
  /** Why there is no spec, in the shop's words. */
  refusal: string
  factor: PlanFactor
  method: string
  sectionText: string
  /** Of the tube as it is bent, which a way may anneal or buy softer: what bends teach is kept by it. */
  materialId: string
  /** The shop's values of it over the table's, as the part is drawn. */
  material: SpecMaterial
  setUp: PlannedSetup | null
  tolerances: {
    angleDeg: number
    lengthMm: number
    radiusMm: number | null
    sectionFraction: number | null
    penetrant: boolean
    /** 'ISO 2768-m'; plans made before this was kept don't have it. */
    general?: string
  }
  /** What of the material came from a lot's certificate: 'lot L-0003, heat 88121'. */
  certificateText: string
  /** Where the part is welded from straights; plans made before this was kept don't have it. */
  mitred?: MitredPlan | null
  /** Of every issue but the first: what is other than in the one before, and who made it. */
  issue?: { changes: string[]; byText: string }
}

export function isWay(text: string): text is WayKey {
  return (wayKeys as readonly string[]).includes(text)
}

/** The way that a set-up makes a part in. */
export function wayOfSetup(setup: { support: Support; strap: unknown }): WayKey {
  if (setup.support === 'lowMelt') return setup.strap ? 'lowMeltStrap' : 'lowMelt'
  return setup.support
}

/** The temper the tube is bent in, where the way changes it before bending. */
export function bentMaterialId(way: WayKey, materialId: string): string {
  const temper = way === 't4ThenAged' ? 'T4' : way === 'annealedThenSolutionAged' ? 'O' : null
  const softer = temper && `${materialId.split('-')[0]}-${temper}`
  return softer && alloyById(softer) ? softer : materialId
}

const ownKeys = [
  'family',
  'elasticModulusMPa',
  'yieldMPa',
  'tensileMPa',
  'uniformStrain',
  'elongationPct',
  'reductionOfAreaPct',
  'poisson',
  'densityKgM3',
] as const

/** The material as the spec takes it: the shop's own entry over the table's, a certificate's values over both. */
function materialOf(materialId: string, entry: unknown, certificate: CertificateValues | null): SpecMaterial {
  const kept = typeof entry === 'object' && entry !== null ? (entry as Record<string, unknown>) : {}
  const own = Object.fromEntries(
    ownKeys.flatMap((key) => (kept[key] === undefined || kept[key] === null ? [] : [[key, kept[key]]])),
  ) as SpecMaterial
  const { yieldMPa, tensileMPa, elongationPct } = certificate ?? {}
  const pair = yieldMPa && tensileMPa && tensileMPa > yieldMPa ? { yieldMPa, tensileMPa } : {}
  return {
    ...(alloyById(materialId) && { id: materialId }),
    ...own,
    ...pair,
    ...(elongationPct && { elongationPct }),
  }
}

export type PlanParts = {
  way: WayKey
  revision: PlannedRevision
  setup: PlannedSetup | null
  shop: PlannedShop
  materialEntry: unknown
  certificate: (CertificateValues & { text: string }) | null
  factor: PlanFactor
  madeAt: string
}

export function specTube({ shape, widthMm, heightMm, wallMm, cornerRadiusMm }: PlanTube): SpecTube {
  return {
    shape,
    widthMm,
    heightMm,
    wallMm,
    ...(shape !== 'round' && cornerRadiusMm !== null && { cornerRadiusMm }),
  }
}

/** How far a slanted cut reaches out, where it does. */
function reachOf(name: 'startReachMm' | 'endReachMm', revision: PlannedRevision, cut: unknown) {
  const { outMm } = cutReach(revision, endCut(cut))
  return outMm > 0 ? { [name]: outMm } : {}
}

function mitredPlan({ way, revision, shop }: PlanParts): MitredPlan | null {
  if (way !== 'mitredWelded' || revision.bends.length === 0) return null
  const { pieces, joints, totalLongMm } = mitredBuild(revision, revision.bends, revision.straightAfterMm)
  return {
    longLengthsMm: pieces.map(({ longLengthMm }) => longLengthMm),
    sawAnglesDeg: joints.map(({ sawAngleDeg }) => sawAngleDeg),
    cutLengthMm: totalLongMm + joints.length * shop.kerfMm,
  }
}

/** What comes off a bar for one piece, the saw's kerf not counted; null where the plan says no length. */
export function sawnForPieceMm(plan: Pick<JobPlan, 'spec' | 'input' | 'mitred'>): number | null {
  if (plan.spec) return sawnLengthMm(plan.spec, plan.input?.kerfMm ?? 0)
  return plan.mitred?.cutLengthMm ?? null
}

/** The question that the core is asked for this job; null where the way bends nothing here. */
function specInput(parts: PlanParts): SpecInput | null {
  const { way, revision, setup, shop } = parts
  if (!setup || way === 'outside' || way === 'mitredWelded' || revision.bends.length === 0) return null
  const { support, strap } = waySupport(way, { support: setup.support, strap: setup.strap !== null })
  const materialId = bentMaterialId(way, revision.materialId)
  const { press, filler } = setup
  return {
    tube: specTube(revision),
    material: materialOf(
      materialId,
      parts.materialEntry,
      materialId === revision.materialId ? parts.certificate : null,
    ),
    bends: revision.bends.map(({ straightBeforeMm, angleDeg, centrelineRadiusMm, rotationDeg }) => ({
      straightBeforeMm,
      angleDeg,
      centrelineRadiusMm,
      rotationDeg,
    })),
    straightAfterMm: revision.straightAfterMm,
    method: {
      support,
      ...(strap &&
        setup.strap && {
          strap: {
            thicknessMm: setup.strap.thicknessMm,
            widthMm: setup.strap.widthMm,
            yieldMPa: setup.strap.yieldMPa,
            ...(setup.strap.frictionCoeff !== null && { frictionCoeff: setup.strap.frictionCoeff }),
          },
        }),
      ...(support !== 'hollow' && filler && pourFrom(filler)),
    },
    press: {
      capacityKn: press.capacityKn,
      supportSpanMm: setup.supportSpanMm,
      supportNoseRadiusMm: press.supportNoseRadiusMm,
      ...(press.supportFrictionCoeff !== null && { supportFrictionCoeff: press.supportFrictionCoeff }),
      ...(press.strokeMm !== null && { strokeMm: press.strokeMm }),
      useFraction: shop.pressUseFraction,
    },
    ...(setup.die && { die: { surfaceRadiusMm: setup.die.surfaceRadiusMm } }),
    springbackFactor: parts.factor.value,
    trimMm: shop.trimMm,
    kerfMm: shop.kerfMm,
    ...reachOf('startReachMm', revision, revision.startCut),
    ...reachOf('endReachMm', revision, revision.endCut),
    ...(revision.sectionToleranceFraction !== null && {
      sectionToleranceFraction: revision.sectionToleranceFraction,
    }),
    weldedAfter: revision.weldedAfter,
  }
}

/** What holds bore and tension face while this way bends, as lessons are kept by it. */
export function methodOf(way: WayKey, setup: PlannedSetup | null): string {
  return methodText(
    waySupport(way, { ...(setup && { support: setup.support }), strap: setup?.strap != null }),
  )
}

/** What the job is made to. A part the model has no answer for still gets a plan, which says so. */
export function makePlan(parts: PlanParts): JobPlan {
  const { way, revision, setup, factor } = parts
  const input = specInput(parts)
  let spec: SpecAnswer | null = null
  let refusal = ''
  if (!input) {
    const bendsHere = way !== 'outside' && way !== 'mitredWelded' && revision.bends.length > 0
    refusal = bendsHere ? 'No set-up is chosen for this part, so there are no set-points.' : ''
  } else {
    try {
      spec = rememberedSpec(input)
    } catch (cause) {
      if (!(cause instanceof SpecRefusal)) throw cause
      refusal = cause.message
    }
  }
  return {
    madeAt: parts.madeAt,
    way,
    input,
    spec,
    refusal,
    factor,
    method: methodOf(way, setup),
    sectionText: sectionText(revision),
    materialId: bentMaterialId(way, revision.materialId),
    material: materialOf(revision.materialId, parts.materialEntry, parts.certificate),
    setUp: setup,
    tolerances: {
      angleDeg: revision.angleToleranceDeg,
      lengthMm: revision.lengthToleranceMm,
      radiusMm: revision.radiusToleranceMm,
      sectionFraction: revision.sectionToleranceFraction,
      penetrant: revision.couldHurt,
      ...(revision.generalTolerance && { general: revision.generalTolerance }),
    },
    certificateText: parts.certificate?.text ?? '',
    mitred: mitredPlan(parts),
  }
}

/** An end cut as it was kept; anything unreadable is a square cut. */
export function endCut(kept: unknown): EndCut {
  const kind = typeof kept === 'object' && kept !== null ? (kept as { kind?: unknown }).kind : undefined
  return kind === 'mitre' || kind === 'saddle' ? (kept as EndCut) : { kind: 'square' }
}
