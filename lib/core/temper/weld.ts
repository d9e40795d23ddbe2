import type { Alloy } from '@/lib/core/materials/alloys'
import type { SourceStatus } from '@/lib/core/materials/provenance'

/** How far from a bend a weld stays, and how far its heat is taken to reach. Source: Aluminum Association one-inch rule; Dwight 1999. */
export const WELD_CLEARANCE_MM = 25

export type WeldStrength = Readonly<{
  yieldMPa: number
  tensileMPa: number
  extentMm: number
  source: string
  status: SourceStatus
  note: string
}>

export type WeldAnswer = ({ weldable: true } & WeldStrength) | Readonly<{ weldable: false; because: string }>

export type WeldAlloy = Pick<
  Alloy,
  'id' | 'family' | 'temper' | 'yieldMPa' | 'tensileMPa' | 'minimumYieldMPa' | 'minimumTensileMPa'
>

type Row = readonly [
  yieldMPa: number,
  tensileMPa: number,
  source: string,
  status: SourceStatus,
  note?: string,
]

const EN_TABLE = 'EN 1999-1-1 Table 3.2b, heat-affected zone'
const ADM = 'Aluminum Design Manual, welded minimum'

/** Strength in the zone a weld heats, MPa, by alloy id. */
const heatAffected: Readonly<Record<string, Row>> = {
  '6061-t4': [95, 150, EN_TABLE, 'verified'],
  '6061-t6': [
    115,
    175,
    EN_TABLE,
    'verified',
    'US practice asks 165 MPa tensile as welded (AWS D1.2, quoted).',
  ],
  '6061-t6-drawn': [115, 175, EN_TABLE, 'verified'],
  '6063-t4': [60, 100, `${EN_TABLE}, the 6063-T5 row`, 'secondary'],
  '6063-t5': [60, 100, EN_TABLE, 'verified'],
  '6063-t6': [65, 110, EN_TABLE, 'verified'],
  '6063-t832': [65, 110, `${EN_TABLE}, the 6063-T6 drawn row`, 'secondary'],
  '6082-t6': [125, 185, EN_TABLE, 'memory'],
  '6005a-t61': [115, 165, `${EN_TABLE}, the 6005A-T6 open-profile row`, 'verified'],
  '3003-o': [34, 97, ADM, 'memory'],
  '3003-h14': [34, 97, ADM, 'memory'],
  '5052-o': [66, 172, ADM, 'memory'],
  '5052-h32': [66, 172, ADM, 'memory'],
  '7005-t53': [
    165,
    276,
    ADM,
    'memory',
    'After 30 days of ageing in the shop; EN 1999 gives 7020-T6 205/280 MPa.',
  ],
  '1020-dom': [
    241,
    345,
    'ASTM A513, normalized 1020',
    'secondary',
    'The drawn strength goes where the weld heats it.',
  ],
  '1020-dom-sr': [
    241,
    345,
    'ASTM A513, normalized 1020',
    'secondary',
    'The drawn strength goes where the weld heats it.',
  ],
  '1026-dom': [
    241,
    345,
    'ASTM A513, normalized 1020 taken for 1026',
    'secondary',
    'The drawn strength goes where the weld heats it.',
  ],
  '4130-n': [
    345,
    483,
    'ASTM A513, normalized 4130',
    'secondary',
    'Air hardens beside the weld: cool slowly, stress relieve.',
  ],
  'ti-3al-2.5v-cwsr': [
    483,
    620,
    'ASTM B338, annealed',
    'secondary',
    'The cold-worked strength goes where the weld heats it.',
  ],
  'c12200-h55': [62, 205, 'ASTM B75 O60', 'verified', 'Brazing leaves it soft.'],
  'c12200-o60': [62, 205, 'ASTM B75 O60', 'verified'],
}

/**
 * What is left of the tube beside a weld.
 * Source: EN 1999-1-1 Table 3.2b and the standards named in each row. Steel, stainless and titanium that is not cold worked keeps its lowest
 * specified strength (common practice). Valid: MIG or TIG with interpass control; the zone is taken 25 mm or three walls wide, whichever is more.
 */
export function weldStrength(alloy: WeldAlloy, wallMm = 0): WeldAnswer {
  const extentMm = Math.max(WELD_CLEARANCE_MM, 3 * wallMm)
  const key = alloy.id.toLowerCase()
  if (key.startsWith('2024')) {
    return { weldable: false, because: '2024 cracks when fusion welded: rivet or bolt it.' }
  }
  const found = heatAffected[key]
  if (found) {
    const [yieldMPa, tensileMPa, source, status, note = ''] = found
    return { weldable: true, yieldMPa, tensileMPa, extentMm, source, status, note }
  }
  const yieldMPa = alloy.minimumYieldMPa ?? alloy.yieldMPa
  const tensileMPa = alloy.minimumTensileMPa ?? alloy.tensileMPa
  if (alloy.family === 'aluminium' && alloy.temper !== 'O') {
    return {
      weldable: false,
      because: `No welded strength is known for ${alloy.id || 'this alloy'}: enter one before it is welded.`,
    }
  }
  const note =
    alloy.family === 'titanium' ? 'Only under argon, inside and out; a blue or white weld is scrap.' : ''
  return {
    weldable: true,
    yieldMPa,
    tensileMPa,
    extentMm,
    source: 'The tube’s own strength, common practice',
    status: 'memory',
    note,
  }
}
