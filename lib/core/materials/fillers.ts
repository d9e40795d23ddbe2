import type { ElementSymbol } from '@/lib/core/materials/mixture'
import { densityByMixtureKgM3, specificHeatByMixtureJPerKgK } from '@/lib/core/materials/mixture'
import type { Provenance, SourceStatus } from '@/lib/core/materials/provenance'

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
    compositionPct: Readonly<Partial<Record<ElementSymbol, number>>>
    solidusC: number
    liquidusC: number
    latentHeatKJPerKg?: number
    solidSpecificHeatJPerKgK: number
    liquidSpecificHeatJPerKgK: number
  }>

/** Dry sand tamped in between two plugs. Its modulus is that of the pack; it carries no moment. */
export type SandFiller = FillerCommon & Readonly<{ kind: 'sand' }>

export type Filler = LowMeltFiller | SandFiller

type Row = Readonly<{
  number: string
  name: string
  compositionPct: Readonly<Partial<Record<ElementSymbol, number>>>
  compositionFrom: Provenance
  solidusC: number
  liquidusC: number
  meltingFrom: Provenance
  published?: readonly [densityKgM3: number, Provenance]
  tensile?: readonly [tensileMPa: number, Provenance]
  latentHeat?: readonly [kJPerKg: number, Provenance]
  liquidSpecificHeat?: readonly [jPerKgK: number, Provenance]
  growth: readonly [string, Provenance]
  maxBoreNote?: string
}>

const from = (status: SourceStatus, source: string): Provenance => ({ source, status })
const ENCYCLOPEDIA = from('secondary', 'Encyclopedia table of fusible alloys (ASTM B774 family)')
const FRONTIERS = from('verified', 'Frontiers in Energy, review of low-melting metals, Table 1')
const TRADE = from('secondary', 'Trade tables of fusible alloys')
const MEMORY = from('memory', 'Trade tables of fusible alloys')
const LBE = from('verified', 'OECD-NEA Handbook on lead-bismuth eutectic, correlations')
const BI_RULE = from(
  'secondary',
  'Trade rule by bismuth content: over 55 percent grows on freezing, under 48 shrinks',
)

const YIELD_158_MPA = 26
const TENSILE_158_MPA = 41
const MODULUS_158_MPA = 12_700
const LIQUID_OVER_SOLID_SPECIFIC_HEAT = 165 / 149

const GROWS_ON = 'Bismuth with lead keeps growing in the solid: most of it in the first day, some for weeks.'
const BORE_ANY = 'No bore limit seen. Big bores chill slowly, and slow freezing leaves it coarse and brittle.'

const rows: readonly Row[] = [
  {
    number: '117',
    name: '117 F eutectic (Bi-Pb-Sn-Cd-In)',
    compositionPct: { Bi: 44.7, Pb: 22.6, Sn: 8.3, Cd: 5.3, In: 19.1 },
    compositionFrom: ENCYCLOPEDIA,
    solidusC: 47.2,
    liquidusC: 47.2,
    meltingFrom: ENCYCLOPEDIA,
    published: [8860, TRADE],
    tensile: [37, TRADE],
    latentHeat: [30, from('memory', 'Reported between 14 and 37 kJ/kg; 30 is taken')],
    growth: ['Grows, back to nothing in 30 minutes, then 0.02 percent small at 2 hours.', TRADE],
  },
  {
    number: '136',
    name: '136 F eutectic (Bi-Pb-Sn-In)',
    compositionPct: { Bi: 49, Pb: 18, Sn: 12, In: 21 },
    compositionFrom: FRONTIERS,
    solidusC: 58,
    liquidusC: 58,
    meltingFrom: FRONTIERS,
    published: [8580, TRADE],
    tensile: [43, TRADE],
    latentHeat: [27.07, FRONTIERS],
    growth: ['Grows, back to nothing in 1 hour, then 0.02 percent small at 5 hours.', TRADE],
  },
  {
    number: '158',
    name: '158 F eutectic (Bi-Pb-Sn-Cd)',
    compositionPct: { Bi: 50, Pb: 26.7, Sn: 13.3, Cd: 10 },
    compositionFrom: FRONTIERS,
    solidusC: 70,
    liquidusC: 70,
    meltingFrom: FRONTIERS,
    published: [9600, from('secondary', 'Encyclopedia entry for the alloy; 9380 also printed (from memory)')],
    tensile: [TENSILE_158_MPA, MEMORY],
    latentHeat: [30.35, FRONTIERS],
    liquidSpecificHeat: [165, MEMORY],
    growth: ['Grows: about 0.25 percent at 2 minutes, 0.51 at 1 to 24 hours, 0.57 at 500 hours.', MEMORY],
    maxBoreNote: 'Trade limit: tube up to 44 mm (1-3/4 in) outside diameter; bigger bores chill too slowly.',
  },
  {
    number: '158-190',
    name: '158-190 F (Bi-Pb-Sn-Cd)',
    compositionPct: { Bi: 42.5, Pb: 37.7, Sn: 11.3, Cd: 8.5 },
    compositionFrom: ENCYCLOPEDIA,
    solidusC: 70,
    liquidusC: 88,
    meltingFrom: from('verified', 'ASM Alloy Digest Bi-37'),
    published: [9430, MEMORY],
    tensile: [37, MEMORY],
    growth: [
      'Shrinks at once, back to nothing in about 1 hour, then grows to about 0.25 percent.',
      from('verified', 'ASM Alloy Digest Bi-37; final figure from memory'),
    ],
  },
  {
    number: '174',
    name: '174 F eutectic (Bi-Sn-In)',
    compositionPct: { Bi: 57, Sn: 17, In: 26 },
    compositionFrom: FRONTIERS,
    solidusC: 79,
    liquidusC: 79,
    meltingFrom: FRONTIERS,
    published: [8540, MEMORY],
    latentHeat: [32.47, FRONTIERS],
    growth: ['Grows on freezing (over 55 percent bismuth).', BI_RULE],
  },
  {
    number: '203',
    name: '203 F eutectic (Bi-Pb-Sn)',
    compositionPct: { Bi: 52.5, Pb: 32, Sn: 15.5 },
    compositionFrom: from('secondary', 'Published formulary; the journal table’s row does not sum'),
    solidusC: 95,
    liquidusC: 95,
    meltingFrom: FRONTIERS,
    published: [9690, MEMORY],
    latentHeat: [21.64, FRONTIERS],
    growth: [`Nearly neutral on freezing. ${GROWS_ON}`, BI_RULE],
  },
  {
    number: '255',
    name: '255 F eutectic (Bi-Pb)',
    compositionPct: { Bi: 55.5, Pb: 44.5 },
    compositionFrom: from('verified', 'Hansen, Constitution of Binary Alloys'),
    solidusC: 124,
    liquidusC: 124,
    meltingFrom: LBE,
    published: [10_520, MEMORY],
    tensile: [44, MEMORY],
    latentHeat: [38.6, LBE],
    liquidSpecificHeat: [148, LBE],
    growth: [
      'Shrinks 0.08 percent at 2 minutes, back to nothing at 30 minutes, 0.22 percent grown at 500 hours.',
      MEMORY,
    ],
    maxBoreNote: 'Trade choice above 44 mm (1-3/4 in) outside diameter. Can’t be melted out in open water.',
  },
  {
    number: '281',
    name: '281 F eutectic (Bi-Sn)',
    compositionPct: { Bi: 58, Sn: 42 },
    compositionFrom: TRADE,
    solidusC: 138.5,
    liquidusC: 138.5,
    meltingFrom: from('secondary', 'Bi-Sn phase diagram: eutectic 138 to 140 C'),
    published: [8560, MEMORY],
    tensile: [55, MEMORY],
    latentHeat: [44.8, MEMORY],
    growth: ['About 0.05 percent, then steady.', MEMORY],
    maxBoreNote: 'No bore limit seen. Can’t be melted out in open water: oil or an oven, with dry tube.',
  },
  {
    number: '281-338',
    name: '281-338 F (Bi-Sn)',
    compositionPct: { Bi: 40, Sn: 60 },
    compositionFrom: TRADE,
    solidusC: 138,
    liquidusC: 170,
    meltingFrom: TRADE,
    published: [8120, MEMORY],
    tensile: [55, MEMORY],
    growth: ['About 0.01 percent small: no growth to speak of.', MEMORY],
    maxBoreNote: 'No bore limit seen. Can’t be melted out in open water: oil or an oven, with dry tube.',
  },
  {
    number: 'fields',
    name: 'Field’s metal (In-Bi-Sn)',
    compositionPct: { Bi: 32.5, Sn: 16.5, In: 51 },
    compositionFrom: ENCYCLOPEDIA,
    solidusC: 60,
    liquidusC: 62,
    meltingFrom: FRONTIERS,
    published: [7880, MEMORY],
    latentHeat: [24.3, FRONTIERS],
    growth: ['Shrinks on freezing (under 48 percent bismuth).', BI_RULE],
  },
  {
    number: 'roses',
    name: 'Rose’s metal (Bi-Pb-Sn)',
    compositionPct: { Bi: 50, Pb: 28, Sn: 22 },
    compositionFrom: FRONTIERS,
    solidusC: 94,
    liquidusC: 98,
    meltingFrom: FRONTIERS,
    latentHeat: [17.55, FRONTIERS],
    growth: [
      'Next to no change on freezing, slight shrinking as it cools.',
      from('secondary', 'Encyclopedia entry for the alloy'),
    ],
  },
]

function hazardsOf(row: Row): string[] {
  const { Pb = 0, Cd = 0, In = 0 } = row.compositionPct
  return [
    `Burns: molten at ${row.liquidusC} °C. Face shield, dry leather gloves, closed boots.`,
    'Never close both ends of a tube that holds it: trapped liquid or water bursts the tube or fires the plug.',
    ...(row.liquidusC > 85
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

const yieldFrom = (row: Row): readonly [number, Provenance] => {
  if (row.number === '158')
    return [
      YIELD_158_MPA,
      from(
        'secondary',
        'Encyclopedia entry for the 158 F eutectic: 26.2 MPa (3.8 ksi); slow is soft, fast is brittle',
      ),
    ]
  if (row.tensile) {
    const source = `Tensile ${row.tensile[0]} MPa (${row.tensile[1].source}) times the 158 F alloy’s yield over tensile, ${YIELD_158_MPA}/${TENSILE_158_MPA}`
    return [(row.tensile[0] * YIELD_158_MPA) / TENSILE_158_MPA, from('computed', source)]
  }
  return [YIELD_158_MPA, from('memory', 'No strength seen for this alloy: the 158 F alloy’s is taken')]
}

function buildLowMelt(row: Row): LowMeltFiller {
  const { Pb = 0, Cd = 0, In = 0 } = row.compositionPct
  const [yieldMPa, yieldSource] = yieldFrom(row)
  const solidSpecificHeatJPerKgK = specificHeatByMixtureJPerKgK(row.compositionPct)
  const is158 = row.number === '158'
  return {
    id: `bi-${row.number}`,
    name: row.name,
    kind: 'lowMelt',
    compositionPct: row.compositionPct,
    solidusC: row.solidusC,
    liquidusC: row.liquidusC,
    densityKgM3: densityByMixtureKgM3(row.compositionPct),
    ...(row.published && { publishedDensityKgM3: row.published[0] }),
    yieldMPa,
    elasticModulusMPa: MODULUS_158_MPA,
    ...(row.latentHeat && { latentHeatKJPerKg: row.latentHeat[0] }),
    solidSpecificHeatJPerKgK,
    liquidSpecificHeatJPerKgK:
      row.liquidSpecificHeat?.[0] ?? solidSpecificHeatJPerKgK * LIQUID_OVER_SOLID_SPECIFIC_HEAT,
    containsLead: Pb > 0,
    containsCadmium: Cd > 0,
    containsIndium: In > 0,
    hazards: hazardsOf(row),
    growthNote: row.growth[0],
    maxBoreNote: row.maxBoreNote ?? BORE_ANY,
    sources: {
      compositionPct: row.compositionFrom,
      solidusC: row.meltingFrom,
      liquidusC: row.meltingFrom,
      densityKgM3: from(
        'computed',
        'Harmonic rule of mixtures by mass; real alloys run from 5 percent under to 1 percent over',
      ),
      ...(row.published && { publishedDensityKgM3: row.published[1] }),
      yieldMPa: yieldSource,
      elasticModulusMPa: is158
        ? from('secondary', 'Encyclopedia entry for the 158 F eutectic: 12.7 GPa')
        : from('memory', 'No modulus seen for this alloy: the 158 F alloy’s is taken'),
      ...(row.latentHeat && { latentHeatKJPerKg: row.latentHeat[1] }),
      solidSpecificHeatJPerKgK: from('computed', 'Mass-weighted mean of the elements’ specific heats'),
      liquidSpecificHeatJPerKgK:
        row.liquidSpecificHeat?.[1] ??
        from('computed', 'Solid specific heat times the 158 F alloy’s liquid over solid, 165/149'),
      growthNote: row.growth[1],
    },
  }
}

/** Packed dry sand. Density and modulus of the pack are from memory; the modulus is the default the flattening model uses. */
export const drySand: SandFiller = {
  id: 'dry-sand',
  name: 'Dry sand, packed',
  kind: 'sand',
  densityKgM3: 1650,
  yieldMPa: 0,
  elasticModulusMPa: 60,
  containsLead: false,
  containsCadmium: false,
  containsIndium: false,
  hazards: [
    'Silica dust: no dry sweeping or blowing out; mask rated for silica.',
    'Bone dry if the tube will be heated: steam between two plugs bursts the tube.',
    'Plugs can let go under the press: stand out of line with the ends.',
  ],
  growthNote: 'Does not grow; the pack loosens as the tube lengthens.',
  maxBoreNote:
    'No bore limit. Tamp from the bottom, about an hour; it can’t be packed evenly enough for full support.',
  sources: {
    densityKgM3: from('memory', 'Packed dry quartz sand, common practice'),
    elasticModulusMPa: from('memory', 'Model default for a tamped pack, no source'),
  },
}

export const lowMeltFillers: readonly LowMeltFiller[] = rows.map(buildLowMelt)

/** Everything a bore can be filled with. */
export const fillers: readonly Filler[] = [...lowMeltFillers, drySand]

const searchKey = (id: string): string =>
  id
    .trim()
    .toLowerCase()
    .replace(/['’]/g, '')
    .replace(/[\s_-]+/g, '-')
const byKey: ReadonlyMap<string, Filler> = new Map(
  fillers.flatMap((filler) => [
    [searchKey(filler.id), filler],
    [searchKey(filler.id).replace(/^bi-/, ''), filler],
  ]),
)

/** The filler of that id; `158` is `bi-158`, `sand` is dry sand. Undefined where there is none. */
export function fillerById(id: string): Filler | undefined {
  const key = searchKey(id)
  return key === 'sand' ? drySand : byKey.get(key)
}

const eutectic158 = lowMeltFillers.find((filler) => filler.id === 'bi-158')
if (!eutectic158) throw new RangeError('the 158 F eutectic is missing from the filler table')

/** The 158 F eutectic: yield 26 MPa, modulus 12 700 MPa, unless the part says otherwise. */
export const defaultFiller: LowMeltFiller = eutectic158
