import type { CompositionPct } from '@/lib/core/materials/mixture'
import { densityByMixtureKgM3, specificHeatByMixtureJPerKgK } from '@/lib/core/materials/mixture'
import { from, type Provenance } from '@/lib/core/materials/provenance'

export type FillerField =
  | 'compositionPct'
  | 'solidusC'
  | 'liquidusC'
  | 'densityKgM3'
  | 'publishedDensityKgM3'
  | 'yieldMPa'
  | 'elasticModulusMPa'
  | 'latentHeatKJPerKg'
  | 'solidSpecificHeatJPerKgK'
  | 'liquidSpecificHeatJPerKgK'
  | 'growthNote'

type FillerCommon = Readonly<{
  id: string
  name: string
  densityKgM3: number
  publishedDensityKgM3?: number
  yieldMPa: number
  elasticModulusMPa: number
  containsLead: boolean
  containsCadmium: boolean
  containsIndium: boolean
  hazards: readonly string[]
  growthNote: string
  maxBoreNote: string
  sources: Readonly<Partial<Record<FillerField, Provenance>>>
}>

/** A bismuth or indium alloy poured into the bore, frozen, bent with the tube and melted out again. */
export type LowMeltFiller = FillerCommon &
  Readonly<{
    kind: 'lowMelt'
    compositionPct: CompositionPct
    solidusC: number
    liquidusC: number
    latentHeatKJPerKg?: number
    solidSpecificHeatJPerKgK: number
    liquidSpecificHeatJPerKgK: number
  }>

/** Dry sand tamped in between two plugs. Its modulus is that of the pack; it carries no moment. */
export type SandFiller = FillerCommon & Readonly<{ kind: 'sand' }>

export type Filler = LowMeltFiller | SandFiller

/** What is known of a low-melt alloy, each value with where it is from. What is left out is taken or worked out, and says so. */
export type LowMeltFacts = Readonly<{
  id: string
  name: string
  compositionPct: CompositionPct
  compositionFrom: Provenance
  solidusC: number
  liquidusC: number
  meltingFrom: Provenance
  /** A published density stands beside the rule of mixtures; a weighed one takes its place. */
  published?: readonly [densityKgM3: number, Provenance]
  weighed?: readonly [densityKgM3: number, Provenance]
  tensile?: readonly [tensileMPa: number, Provenance]
  yield?: readonly [yieldMPa: number, Provenance]
  modulus?: readonly [elasticModulusMPa: number, Provenance]
  latentHeat?: readonly [kJPerKg: number, Provenance]
  liquidSpecificHeat?: readonly [jPerKgK: number, Provenance]
  growth: readonly [string, Provenance]
  maxBoreNote?: string
}>

export const YIELD_158_MPA = 26
export const TENSILE_158_MPA = 41
export const MODULUS_158_MPA = 12_700

/** How an alloy changes as it freezes, told from its bismuth. */
export const BISMUTH_RULE = from(
  'secondary',
  'Trade rule by bismuth content: over 55 percent grows on freezing, under 48 shrinks',
)
const LIQUID_OVER_SOLID_SPECIFIC_HEAT = 165 / 149

const BORE_ANY = 'No bore limit seen. Big bores chill slowly, and slow freezing leaves it coarse and brittle.'

function hazardsOf(facts: LowMeltFacts): string[] {
  const { Pb = 0, Cd = 0, In = 0 } = facts.compositionPct
  return [
    `Burns: molten at ${Number(facts.liquidusC.toFixed(1))} °C. Face shield, dry leather gloves, closed boots.`,
    'Never close both ends of a tube that holds it: trapped liquid or water bursts the tube or fires the plug.',
    ...(facts.liquidusC > 85
      ? ['Pot near or above boiling: bone-dry tube, plug and ladle. A drop of water throws molten metal.']
      : []),
    ...(Cd > 0
      ? [
          'Cadmium: no torch, no dry sanding or sweeping, never weld over residue; wash hands. Not on titanium.',
        ]
      : []),
    ...(Pb > 0
      ? ['Lead: wash hands, no food or smoke near it, label and keep the dross and first rinse water.']
      : []),
    ...(In > 0 ? ['Indium: keep dust down when skimming and cleaning.'] : []),
    'All of it must come out before welding or heat treatment; weigh in, weigh out.',
  ]
}

function yieldOf(facts: LowMeltFacts): readonly [number, Provenance] {
  if (facts.yield) return facts.yield
  if (facts.tensile) {
    const [tensileMPa, { source }] = facts.tensile
    return [
      (tensileMPa * YIELD_158_MPA) / TENSILE_158_MPA,
      from(
        'computed',
        `Tensile ${tensileMPa} MPa (${source}) times the 158 F alloy’s yield over tensile, ${YIELD_158_MPA}/${TENSILE_158_MPA}`,
      ),
    ]
  }
  return [YIELD_158_MPA, from('memory', 'No strength seen for this alloy: the 158 F alloy’s is taken')]
}

const MODULUS_TAKEN: readonly [number, Provenance] = [
  MODULUS_158_MPA,
  from('memory', 'No modulus seen for this alloy: the 158 F alloy’s is taken'),
]

/**
 * A low-melt alloy with everything a fill needs. Density, where none was weighed, and the specific heats come from the
 * composition; a strength or modulus that nobody gave is the 158 F eutectic's.
 * Source: of each value beside it, in `sources`. Throws RangeError where the parts don't add up to 100 percent.
 */
export function lowMeltFiller(facts: LowMeltFacts): LowMeltFiller {
  const { Pb = 0, Cd = 0, In = 0 } = facts.compositionPct
  const [yieldMPa, yieldSource] = yieldOf(facts)
  const solidSpecificHeatJPerKgK = specificHeatByMixtureJPerKgK(facts.compositionPct)
  const [elasticModulusMPa, modulusSource] = facts.modulus ?? MODULUS_TAKEN
  return {
    id: facts.id,
    name: facts.name,
    kind: 'lowMelt',
    compositionPct: facts.compositionPct,
    solidusC: facts.solidusC,
    liquidusC: facts.liquidusC,
    densityKgM3: facts.weighed?.[0] ?? densityByMixtureKgM3(facts.compositionPct),
    ...(facts.published && { publishedDensityKgM3: facts.published[0] }),
    yieldMPa,
    elasticModulusMPa,
    ...(facts.latentHeat && { latentHeatKJPerKg: facts.latentHeat[0] }),
    solidSpecificHeatJPerKgK,
    liquidSpecificHeatJPerKgK:
      facts.liquidSpecificHeat?.[0] ?? solidSpecificHeatJPerKgK * LIQUID_OVER_SOLID_SPECIFIC_HEAT,
    containsLead: Pb > 0,
    containsCadmium: Cd > 0,
    containsIndium: In > 0,
    hazards: hazardsOf(facts),
    growthNote: facts.growth[0],
    maxBoreNote: facts.maxBoreNote ?? BORE_ANY,
    sources: {
      compositionPct: facts.compositionFrom,
      solidusC: facts.meltingFrom,
      liquidusC: facts.meltingFrom,
      densityKgM3:
        facts.weighed?.[1] ??
        from(
          'computed',
          'Harmonic rule of mixtures by mass; real alloys run from 5 percent under to 1 percent over',
        ),
      ...(facts.published && { publishedDensityKgM3: facts.published[1] }),
      yieldMPa: yieldSource,
      elasticModulusMPa: modulusSource,
      ...(facts.latentHeat && { latentHeatKJPerKg: facts.latentHeat[1] }),
      solidSpecificHeatJPerKgK: from('computed', 'Mass-weighted mean of the elements’ specific heats'),
      liquidSpecificHeatJPerKgK:
        facts.liquidSpecificHeat?.[1] ??
        from('computed', 'Solid specific heat times the 158 F alloy’s liquid over solid, 165/149'),
      growthNote: facts.growth[1],
    },
  }
}
