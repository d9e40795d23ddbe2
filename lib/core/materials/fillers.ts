import {
  BISMUTH_RULE,
  type Filler,
  type LowMeltFacts,
  type LowMeltFiller,
  lowMeltFiller,
  MODULUS_158_MPA,
  type SandFiller,
  TENSILE_158_MPA,
  YIELD_158_MPA,
} from '@/lib/core/materials/low-melt'
import { from } from '@/lib/core/materials/provenance'

type Row = Omit<LowMeltFacts, 'id'> & { readonly number: string }

const ENCYCLOPEDIA = from('secondary', 'Encyclopedia table of fusible alloys (ASTM B774 family)')
const FRONTIERS = from('verified', 'Frontiers in Energy, review of low-melting metals, Table 1')
const TRADE = from('secondary', 'Trade tables of fusible alloys')
const MEMORY = from('memory', 'Trade tables of fusible alloys')
const LBE = from('verified', 'OECD-NEA Handbook on lead-bismuth eutectic, correlations')

const GROWS_ON = 'Bismuth with lead keeps growing in the solid: most of it in the first day, some for weeks.'

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
    yield: [
      YIELD_158_MPA,
      from(
        'secondary',
        'Encyclopedia entry for the 158 F eutectic: 26.2 MPa (3.8 ksi); slow is soft, fast is brittle',
      ),
    ],
    modulus: [MODULUS_158_MPA, from('secondary', 'Encyclopedia entry for the 158 F eutectic: 12.7 GPa')],
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
    growth: ['Grows on freezing (over 55 percent bismuth).', BISMUTH_RULE],
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
    growth: [`Nearly neutral on freezing. ${GROWS_ON}`, BISMUTH_RULE],
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
    growth: ['Shrinks on freezing (under 48 percent bismuth).', BISMUTH_RULE],
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

export const lowMeltFillers: readonly LowMeltFiller[] = rows.map(({ number, ...facts }) =>
  lowMeltFiller({ ...facts, id: `bi-${number}` }),
)

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
