import type { Provenance, SourceStatus } from '@/lib/core/materials/provenance'
import type { TubeStandard } from '@/lib/core/materials/tube-tolerance'

export type AlloyFamily = 'aluminium' | 'steel' | 'stainless' | 'titanium' | 'copper'

export type AlloyField =
  | 'elasticModulusMPa'
  | 'poisson'
  | 'densityKgM3'
  | 'yieldMPa'
  | 'tensileMPa'
  | 'minimumYieldMPa'
  | 'minimumTensileMPa'
  | 'elongationPct'
  | 'uniformStrain'
  | 'reductionOfAreaPct'

/**
 * One alloy in one temper and form, as tube.
 * yieldMPa and tensileMPa are typical values, for springback and press force; the minimum ones are the specification's,
 * for what a part may be designed on, and absent where the specification sets only a maximum (annealed tube).
 * elongationPct is on 50 mm, the specification's minimum where it sets one, because tearing is judged against it.
 */
export type Alloy = Readonly<{
  id: string
  name: string
  family: AlloyFamily
  temper: string
  form: string
  elasticModulusMPa: number
  poisson: number
  densityKgM3: number
  yieldMPa: number
  tensileMPa: number
  minimumYieldMPa?: number
  minimumTensileMPa?: number
  elongationPct: number
  uniformStrain?: number
  reductionOfAreaPct?: number
  heatTreatable: boolean
  tubeTolerance: TubeStandard
  notes: readonly string[]
  sources: Readonly<Partial<Record<AlloyField, Provenance>>>
}>

type Sourced = Readonly<{ source: string; status: SourceStatus }>
type Strengths = Sourced & Readonly<{ yieldMPa: number; tensileMPa: number }>

type Physical = Readonly<{
  elasticModulusMPa: readonly [number, Sourced]
  poisson: readonly [number, Sourced]
  densityKgM3: readonly [number, Sourced]
}>

type Row = Readonly<{
  id: string
  name: string
  family: AlloyFamily
  temper: string
  form: string
  physical: Physical
  typical?: Strengths
  minimum?: Strengths
  elongation: Sourced & Readonly<{ pct: number }>
  heatTreatable: boolean
  tubeTolerance: TubeStandard
  notes?: readonly string[]
}>

const verified = (source: string): Sourced => ({ source, status: 'verified' })
const secondary = (source: string): Sourced => ({ source, status: 'secondary' })
const memory = (source: string): Sourced => ({ source, status: 'memory' })

const strengths = (yieldMPa: number, tensileMPa: number, sourced: Sourced): Strengths => ({
  yieldMPa,
  tensileMPa,
  ...sourced,
})
const elongation = (pct: number, sourced: Sourced) => ({ pct, ...sourced })

const AA_TYPICAL = memory('Aluminum Association, Aluminum Standards and Data, typical mechanical properties')
const DATA_SHEET_6061 = secondary('Producers’ data sheets for 6061')
const B210 = memory('ASTM B210/B210M drawn tube')
const B221 = secondary('ASTM B221/B221M extruded tube, as quoted in trade tables')
const B241 = verified('ASTM B241/B241M-12 Table 1')
const A513 = secondary('ASTM A513 tensile table, as quoted in trade tables')
const A500 = secondary('ASTM A500/A500M, as quoted in trade tables')
const B338 = secondary('ASTM B338 and B265, as quoted in trade tables')
const B75 = verified('ASTM B75/B75M Table 2')
const CDA_TYPICAL = memory('Copper Development Association, typical properties of C12200 tube')

const aluminium = (elasticModulusMPa: number, densityKgM3: number, sourced: Sourced): Physical => ({
  elasticModulusMPa: [elasticModulusMPa, sourced],
  poisson: [0.33, memory('Aluminum Association, Aluminum Standards and Data (EN 1999-1-1 uses 0.3)')],
  densityKgM3: [densityKgM3, sourced],
})

const AL_6061 = aluminium(68_900, 2700, DATA_SHEET_6061)
const AL_6063 = aluminium(68_900, 2690, memory('Aluminum Association, Aluminum Standards and Data'))
const AL_6082 = aluminium(70_000, 2700, memory('EN 1999-1-1 and producers’ data sheets'))
const AL_6005A = aluminium(70_000, 2700, verified('EN 1999-1-1, values for any aluminium alloy'))
const AL_3003 = aluminium(68_900, 2730, memory('Aluminum Association, Aluminum Standards and Data'))
const AL_5052 = aluminium(70_300, 2680, memory('Aluminum Association, Aluminum Standards and Data'))
const AL_7005 = aluminium(72_000, 2780, memory('Aluminum Association, Aluminum Standards and Data'))
const AL_2024 = aluminium(73_000, 2780, memory('Aluminum Association, Aluminum Standards and Data'))

const STEEL: Physical = {
  elasticModulusMPa: [
    205_000,
    secondary('BS 5950 and handbooks; EN 1993-1-1 uses 210 000, AISC 360 200 000'),
  ],
  poisson: [0.3, secondary('EN 1993-1-1, 3.2.6')],
  densityKgM3: [7850, secondary('EN 1991-1-1 Table A.4')],
}
const STAINLESS_304: Physical = {
  elasticModulusMPa: [193_000, memory('ASM Handbook vol. 1, stainless steels')],
  poisson: [0.29, memory('ASM Handbook vol. 1, stainless steels')],
  densityKgM3: [8000, memory('ASM Handbook vol. 1, stainless steels')],
}
const TITANIUM_2: Physical = {
  elasticModulusMPa: [103_000, secondary('Producers’ data sheets for grade 2: 14.9 million psi')],
  poisson: [0.34, memory('ASM Handbook vol. 2, titanium')],
  densityKgM3: [4510, memory('ASM Handbook vol. 2, titanium')],
}
const TITANIUM_9: Physical = {
  elasticModulusMPa: [100_000, memory('Published between 90 000 and 107 000; the middle is taken')],
  poisson: [0.3, memory('ASM Handbook vol. 2, titanium')],
  densityKgM3: [4480, secondary('Producers’ data sheets for Ti-3Al-2.5V')],
}
const COPPER: Physical = {
  elasticModulusMPa: [117_000, memory('Copper Development Association, C12200')],
  poisson: [0.34, memory('Copper Development Association, C12200')],
  densityKgM3: [8940, memory('Copper Development Association, C12200')],
}

const NO_MINIMUM = 'The specification sets a highest strength for annealed tube and no lowest.'
const H_TUBE = 'h35.2-extruded'
const D_TUBE = 'h35.2-drawn'

const rows: readonly Row[] = [
  {
    id: '6061-O',
    name: '6061 annealed',
    family: 'aluminium',
    temper: 'O',
    form: 'drawn or extruded tube',
    physical: AL_6061,
    typical: strengths(55, 124, DATA_SHEET_6061),
    elongation: elongation(15, memory('ASTM B210/B210M')),
    heatTreatable: true,
    tubeTolerance: D_TUBE,
    notes: [NO_MINIMUM],
  },
  {
    id: '6061-T4',
    name: '6061 solution treated, naturally aged',
    family: 'aluminium',
    temper: 'T4',
    form: 'extruded tube',
    physical: AL_6061,
    typical: strengths(145, 241, AA_TYPICAL),
    minimum: strengths(110, 179, B221),
    elongation: elongation(16, B221),
    heatTreatable: true,
    tubeTolerance: H_TUBE,
  },
  {
    id: '6061-T6',
    name: '6061 solution treated, aged',
    family: 'aluminium',
    temper: 'T6',
    form: 'extruded tube',
    physical: AL_6061,
    typical: strengths(276, 310, DATA_SHEET_6061),
    minimum: strengths(241, 262, B241),
    elongation: elongation(8, B241),
    heatTreatable: true,
    tubeTolerance: H_TUBE,
  },
  {
    id: '6061-T6-drawn',
    name: '6061 solution treated, aged, drawn',
    family: 'aluminium',
    temper: 'T6',
    form: 'drawn tube',
    physical: AL_6061,
    typical: strengths(276, 310, DATA_SHEET_6061),
    minimum: strengths(241, 290, B210),
    elongation: elongation(8, B210),
    heatTreatable: true,
    tubeTolerance: D_TUBE,
    notes: ['Elongation 8 to 14 percent by wall in the specification; the lowest is used.'],
  },
  {
    id: '6063-T4',
    name: '6063 solution treated, naturally aged',
    family: 'aluminium',
    temper: 'T4',
    form: 'extruded tube',
    physical: AL_6063,
    typical: strengths(90, 172, AA_TYPICAL),
    minimum: strengths(69, 131, B221),
    elongation: elongation(14, B221),
    heatTreatable: true,
    tubeTolerance: H_TUBE,
  },
  {
    id: '6063-T5',
    name: '6063 cooled from the press, aged',
    family: 'aluminium',
    temper: 'T5',
    form: 'extruded tube',
    physical: AL_6063,
    typical: strengths(145, 186, AA_TYPICAL),
    minimum: strengths(110, 152, B221),
    elongation: elongation(8, B221),
    heatTreatable: true,
    tubeTolerance: H_TUBE,
  },
  {
    id: '6063-T6',
    name: '6063 solution treated, aged',
    family: 'aluminium',
    temper: 'T6',
    form: 'extruded tube',
    physical: AL_6063,
    typical: strengths(214, 241, AA_TYPICAL),
    minimum: strengths(172, 207, B241),
    elongation: elongation(8, B241),
    heatTreatable: true,
    tubeTolerance: H_TUBE,
  },
  {
    id: '6063-T832',
    name: '6063 aged and cold drawn',
    family: 'aluminium',
    temper: 'T832',
    form: 'drawn tube',
    physical: AL_6063,
    typical: strengths(269, 290, AA_TYPICAL),
    minimum: strengths(241, 276, B210),
    elongation: elongation(5, B210),
    heatTreatable: true,
    tubeTolerance: D_TUBE,
    notes: ['Part of the strength is cold work: it can’t be had again by heat treatment after bending.'],
  },
  {
    id: '6082-T6',
    name: '6082 solution treated, aged',
    family: 'aluminium',
    temper: 'T6',
    form: 'extruded tube',
    physical: AL_6082,
    minimum: strengths(262, 310, B241),
    elongation: elongation(8, B241),
    heatTreatable: true,
    tubeTolerance: H_TUBE,
    notes: ['EN 755-2 tube to 5 mm wall: 250/290 MPa (from memory).'],
  },
  {
    id: '6005A-T61',
    name: '6005A solution treated, aged',
    family: 'aluminium',
    temper: 'T61',
    form: 'extruded tube',
    physical: AL_6005A,
    minimum: strengths(241, 262, B241),
    elongation: elongation(8, B241),
    heatTreatable: true,
    tubeTolerance: H_TUBE,
  },
  {
    id: '3003-O',
    name: '3003 annealed',
    family: 'aluminium',
    temper: 'O',
    form: 'drawn tube',
    physical: AL_3003,
    typical: strengths(41, 110, AA_TYPICAL),
    minimum: strengths(34, 97, B210),
    elongation: elongation(20, B210),
    heatTreatable: false,
    tubeTolerance: D_TUBE,
  },
  {
    id: '3003-H14',
    name: '3003 half hard',
    family: 'aluminium',
    temper: 'H14',
    form: 'drawn tube',
    physical: AL_3003,
    typical: strengths(145, 152, AA_TYPICAL),
    minimum: strengths(117, 138, B210),
    elongation: elongation(3, B210),
    heatTreatable: false,
    tubeTolerance: D_TUBE,
  },
  {
    id: '5052-O',
    name: '5052 annealed',
    family: 'aluminium',
    temper: 'O',
    form: 'drawn tube',
    physical: AL_5052,
    typical: strengths(90, 193, AA_TYPICAL),
    minimum: strengths(69, 172, B210),
    elongation: elongation(15, B210),
    heatTreatable: false,
    tubeTolerance: D_TUBE,
  },
  {
    id: '5052-H32',
    name: '5052 quarter hard, stabilised',
    family: 'aluminium',
    temper: 'H32',
    form: 'drawn tube',
    physical: AL_5052,
    typical: strengths(193, 228, AA_TYPICAL),
    minimum: strengths(159, 214, B210),
    elongation: elongation(5, B210),
    heatTreatable: false,
    tubeTolerance: D_TUBE,
  },
  {
    id: '7005-T53',
    name: '7005 press quenched, aged in two steps',
    family: 'aluminium',
    temper: 'T53',
    form: 'extruded tube',
    physical: AL_7005,
    typical: strengths(345, 393, AA_TYPICAL),
    minimum: strengths(303, 345, memory('ASTM B221/B221M')),
    elongation: elongation(10, memory('ASTM B221/B221M')),
    heatTreatable: true,
    tubeTolerance: H_TUBE,
  },
  {
    id: '2024-T3',
    name: '2024 solution treated, cold worked',
    family: 'aluminium',
    temper: 'T3',
    form: 'drawn tube',
    physical: AL_2024,
    typical: strengths(345, 483, AA_TYPICAL),
    minimum: strengths(290, 441, secondary('ASTM B210/B210M, as quoted in trade tables')),
    elongation: elongation(10, B210),
    heatTreatable: true,
    tubeTolerance: D_TUBE,
  },
  {
    id: '1020-DOM',
    name: '1020 drawn over mandrel',
    family: 'steel',
    temper: 'as drawn',
    form: 'A513 type 5',
    physical: STEEL,
    minimum: strengths(414, 483, A513),
    elongation: elongation(5, A513),
    heatTreatable: false,
    tubeTolerance: 'a513-5',
    notes: ['A distributor prints 10 percent elongation; the standard’s table 5 is used.'],
  },
  {
    id: '1020-DOM-SR',
    name: '1020 drawn over mandrel, stress relieved',
    family: 'steel',
    temper: 'stress relieved',
    form: 'A513 type 5 SR',
    physical: STEEL,
    minimum: strengths(379, 448, A513),
    elongation: elongation(10, A513),
    heatTreatable: false,
    tubeTolerance: 'a513-5',
  },
  {
    id: '1020-N',
    name: '1020 welded, normalized',
    family: 'steel',
    temper: 'normalized',
    form: 'A513 type 1 or 2, N',
    physical: STEEL,
    minimum: strengths(241, 345, A513),
    elongation: elongation(25, A513),
    heatTreatable: false,
    tubeTolerance: 'a513-1',
  },
  {
    id: '1020-AW',
    name: '1020 as welded',
    family: 'steel',
    temper: 'as welded',
    form: 'A513 type 1 or 2',
    physical: STEEL,
    minimum: strengths(262, 359, A513),
    elongation: elongation(12, A513),
    heatTreatable: false,
    tubeTolerance: 'a513-1',
  },
  {
    id: '1026-DOM',
    name: '1026 drawn over mandrel',
    family: 'steel',
    temper: 'as drawn',
    form: 'A513 type 5',
    physical: STEEL,
    minimum: strengths(483, 552, A513),
    elongation: elongation(5, A513),
    heatTreatable: false,
    tubeTolerance: 'a513-5',
  },
  {
    id: '4130-N',
    name: '4130 normalized',
    family: 'steel',
    temper: 'N',
    form: 'seamless aircraft tube, wall to 4.7 mm',
    physical: STEEL,
    minimum: strengths(517, 655, memory('AMS 6360 and MIL-T-6736 condition N')),
    elongation: elongation(10, memory('AMS 6360 and MIL-T-6736 condition N')),
    heatTreatable: true,
    tubeTolerance: 'assumed-10-percent',
    notes: ['Mechanical tube to A513 is much weaker normalized: 345/483 MPa. Go by the certificate.'],
  },
  ...(
    [
      ['A500-B-round', 'A500 grade B, round', 'B', 'round structural tube', 290, 400, 23],
      ['A500-C-round', 'A500 grade C, round', 'C', 'round structural tube', 315, 425, 21],
      ['A500-B-shaped', 'A500 grade B, square or rectangular', 'B', 'shaped structural tube', 315, 400, 23],
      ['A500-C-shaped', 'A500 grade C, square or rectangular', 'C', 'shaped structural tube', 345, 425, 21],
    ] as const
  ).map(
    ([id, name, temper, form, yieldMPa, tensileMPa, pct]): Row => ({
      id,
      name,
      family: 'steel',
      temper,
      form,
      physical: STEEL,
      minimum: strengths(yieldMPa, tensileMPa, A500),
      elongation: elongation(pct, A500),
      heatTreatable: false,
      tubeTolerance: 'a500',
      notes:
        temper === 'B' ? ['Under 0.180 in wall the elongation asked is 61 t + 12 percent, t in inches.'] : [],
    }),
  ),
  {
    id: '304',
    name: '304 stainless',
    family: 'stainless',
    temper: 'annealed',
    form: 'welded mechanical tube, A554',
    physical: STAINLESS_304,
    typical: strengths(290, 579, memory('ASM Handbook vol. 1, annealed 304')),
    minimum: strengths(207, 517, secondary('ASTM A554, as quoted in trade tables')),
    elongation: elongation(35, secondary('ASTM A554, as quoted in trade tables')),
    heatTreatable: false,
    tubeTolerance: 'a554',
  },
  {
    id: 'CP-Ti-2',
    name: 'Commercially pure titanium, grade 2',
    family: 'titanium',
    temper: 'annealed',
    form: 'B338 tube',
    physical: TITANIUM_2,
    typical: strengths(345, 485, memory('Producers’ data sheets, typical for grade 2')),
    minimum: strengths(275, 345, B338),
    elongation: elongation(20, B338),
    heatTreatable: false,
    tubeTolerance: 'b338',
    notes: ['The specification lets the yield run from 275 to 450 MPa: go by the certificate.'],
  },
  {
    id: 'Ti-3Al-2.5V',
    name: 'Ti-3Al-2.5V, grade 9, annealed',
    family: 'titanium',
    temper: 'annealed',
    form: 'B338 tube',
    physical: TITANIUM_9,
    minimum: strengths(483, 620, B338),
    elongation: elongation(15, B338),
    heatTreatable: false,
    tubeTolerance: 'b338',
  },
  {
    id: 'Ti-3Al-2.5V-CWSR',
    name: 'Ti-3Al-2.5V, cold worked, stress relieved',
    family: 'titanium',
    temper: 'CWSR',
    form: 'seamless hydraulic tube',
    physical: TITANIUM_9,
    minimum: strengths(724, 862, secondary('AMS 4944 / 4946 class, as quoted in trade tables')),
    elongation: elongation(10, secondary('AMS 4944 / 4946 class, as quoted in trade tables')),
    heatTreatable: false,
    tubeTolerance: 'b338',
  },
  {
    id: 'C12200-O60',
    name: 'C12200 copper, soft',
    family: 'copper',
    temper: 'O60',
    form: 'B75 tube',
    physical: COPPER,
    typical: strengths(69, 220, CDA_TYPICAL),
    minimum: strengths(62, 205, B75),
    elongation: elongation(40, CDA_TYPICAL),
    heatTreatable: false,
    tubeTolerance: 'assumed-10-percent',
  },
  {
    id: 'C12200-H55',
    name: 'C12200 copper, light drawn',
    family: 'copper',
    temper: 'H55',
    form: 'B75 tube',
    physical: COPPER,
    typical: strengths(220, 275, CDA_TYPICAL),
    minimum: strengths(205, 250, B75),
    elongation: elongation(25, CDA_TYPICAL),
    heatTreatable: false,
    tubeTolerance: 'assumed-10-percent',
  },
]

const TYPICAL_IS_MINIMUM =
  'No typical strength seen: the lowest allowed is used, so real tube springs back further and takes more force.'

function buildAlloy(row: Row): Alloy {
  const { physical, minimum } = row
  const typical = row.typical ?? minimum
  if (!typical) throw new RangeError(`${row.id} has neither a typical nor a lowest strength`)
  const provenance = ({ source, status }: Sourced): Provenance => ({ source, status })
  const typicalFrom: Provenance = row.typical
    ? provenance(row.typical)
    : { source: `${typical.source}: the lowest allowed, for want of a typical value`, status: typical.status }
  return {
    id: row.id,
    name: row.name,
    family: row.family,
    temper: row.temper,
    form: row.form,
    elasticModulusMPa: physical.elasticModulusMPa[0],
    poisson: physical.poisson[0],
    densityKgM3: physical.densityKgM3[0],
    yieldMPa: typical.yieldMPa,
    tensileMPa: typical.tensileMPa,
    ...(minimum && { minimumYieldMPa: minimum.yieldMPa, minimumTensileMPa: minimum.tensileMPa }),
    elongationPct: row.elongation.pct,
    heatTreatable: row.heatTreatable,
    tubeTolerance: row.tubeTolerance,
    notes: [...(row.notes ?? []), ...(row.typical ? [] : [TYPICAL_IS_MINIMUM])],
    sources: {
      elasticModulusMPa: physical.elasticModulusMPa[1],
      poisson: physical.poisson[1],
      densityKgM3: physical.densityKgM3[1],
      yieldMPa: typicalFrom,
      tensileMPa: typicalFrom,
      ...(minimum && { minimumYieldMPa: provenance(minimum), minimumTensileMPa: provenance(minimum) }),
      elongationPct: provenance(row.elongation),
    },
  }
}

/** The tube alloys the shop can choose from; a certificate's values for a lot take over from these. */
export const alloys: readonly Alloy[] = rows.map(buildAlloy)

const searchKey = (id: string): string =>
  id
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, '-')
const byKey: ReadonlyMap<string, Alloy> = new Map(alloys.map((alloy) => [searchKey(alloy.id), alloy]))

/** The alloy of that id, capitals and spaces aside (`6061 t6` is `6061-T6`), or undefined where there is none. */
export function alloyById(id: string): Alloy | undefined {
  return byKey.get(searchKey(id))
}
