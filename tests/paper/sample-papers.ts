import type { FirstArticleData } from '@/app/_paper/first-article-document'
import type { InspectionData } from '@/app/_paper/inspection-document'
import type { LabelData } from '@/app/_paper/label-document'
import type { MeasuredRow } from '@/app/_paper/measured-table'
import type { NumbersData } from '@/app/_paper/numbers-document'
import type { PackingData } from '@/app/_paper/packing-document'
import type { QuoteData } from '@/app/_paper/quote-document'
import type { RequestData } from '@/app/_paper/request-document'
import type { TemplateData } from '@/app/_paper/template-document'
import { bendCheckTemplate } from '@/lib/core/templates/bend-check'
import { dieProfileTemplate } from '@/lib/core/templates/die-profile'
import { endWrapTemplate } from '@/lib/core/templates/end-wrap'
import { scribingStripTemplate } from '@/lib/core/templates/scribing-strip'
import { ELEVATION, ISSUE, PLAN, TRAVELLER } from './sample'

const SHOP = {
  name: 'Tidewrack Fabrication',
  addressLines: ['Slip 4, Netmakers Quay', 'Port Averil'],
  phone: '555 0142',
  email: 'office@tidewrack.test',
  taxNumber: 'TX-00-4471',
}
const CLUB = {
  name: 'Saltmarsh Rowing Club',
  contactName: 'Ines Łukaszewicz',
  addressLines: ['The Boathouse', 'Saltmarsh Lane'],
}

export const QUOTE: QuoteData = {
  ...ISSUE,
  letterhead: SHOP,
  customer: CLUB,
  quoteNumber: 'Q-2026-058',
  customerReference: 'SRC mail of 2 March',
  issuedOn: '9 March 2026',
  validUntil: '8 April 2026',
  currency: 'USD',
  locale: 'en-US',
  lines: [
    {
      lineNumber: 1,
      partNumber: 'TW-1170',
      partRevision: 'C',
      description:
        'Rigger frame, main stay, 38.1 × 38.1 × 3.18 mm square, 6061-T6, two bends, ends mitred 22.5°',
      note: 'Bent cold with a melted-in filler, which is weighed back out of every piece.',
      breaks: [
        { quantityPieces: 1, unitPriceCents: 41250, amountCents: 41250, leadTimeText: '15 working days' },
        { quantityPieces: 6, unitPriceCents: 18900, amountCents: 113400, leadTimeText: '18 working days' },
        { quantityPieces: 20, unitPriceCents: 14380, amountCents: 287600, leadTimeText: '30 working days' },
      ],
    },
    {
      lineNumber: 2,
      partNumber: 'TW-1171',
      partRevision: 'A',
      description: 'Back stay, Ø25.4 × 1.65 mm round, 6061-T6, one bend 15°, end saddled to Ø38',
      breaks: [
        { quantityPieces: 6, unitPriceCents: 7450, amountCents: 44700, leadTimeText: '18 working days' },
      ],
    },
  ],
  taxNote: 'Sales tax is added where it applies.',
  terms: [
    'Payment 30 days from invoice; work starts on your written order or your acceptance on the link.',
    'Prices hold for the drawing revision named and the quantities named.',
    'Delivery is from our quay; carriage at cost.',
  ],
  whatIsChecked: [
    'Every bend is measured for angle and radius on the empty, cold piece; the record comes with the goods.',
    'We check shape and workmanship, not the design: whether the part may carry its load is for you, local codes and a licensed engineer.',
  ],
  changesSinceLastRevision: ['Item 1: break of 20 pieces added.', 'Item 2: saddle instead of a square end.'],
  acceptUrl: 'http://office.tidewrack.test/quotes/view/9f2c71d0b6',
}

const RULE =
  'a reading passes when it lies inside the limits by at least the guard band U, fails when it lies outside them by at least U, and is “cannot say” between (ISO 14253-1, U with k = 2)'

const row = (pieceNumber: string, bend: number, more: Partial<MeasuredRow>): MeasuredRow => ({
  characteristicNumber: String(bend),
  pieceNumber,
  where: `bend ${bend}`,
  characteristic: 'angle',
  unit: 'deg',
  low: bend === 1 ? 31 : 14,
  high: bend === 1 ? 33 : 16,
  measured: bend === 1 ? 32.2 : 15.3,
  expandedUncertainty: 0.2,
  gaugeText: 'G-07 protractor',
  verdict: 'pass',
  ...more,
})

export const ROWS: readonly MeasuredRow[] = [1, 2, 3, 4, 5, 6].flatMap((piece) => [
  row(`J-0412/${piece}`, 1, piece === 3 ? { measured: 32.9, verdict: 'cannotSay' } : {}),
  row(`J-0412/${piece}`, 1, {
    characteristicNumber: '1r',
    characteristic: 'radius',
    unit: 'mm',
    low: 245,
    high: 255,
    measured: 251.4,
    expandedUncertainty: 1,
    gaugeText: 'T-02 template',
  }),
  row(
    `J-0412/${piece}`,
    2,
    piece === 5
      ? { measured: 16.6, verdict: 'conceded' }
      : piece === 6
        ? { measured: 17.1, verdict: 'fail' }
        : {},
  ),
])

export const INSPECTION: InspectionData = {
  ...ISSUE,
  shopName: SHOP.name,
  recordNumber: 'IR-0412',
  jobNumber: 'J-0412',
  customerName: CLUB.name,
  orderNumber: 'SRC 2026-31',
  partNumber: 'TW-1170',
  partRevision: 'C',
  partTitle: 'Rigger frame, main stay',
  drawingNumber: 'SRC-RF-02 sheet 1',
  materialText: '6061-T6 extrusion',
  heatNumbers: ['H 77A-4410'],
  pieceNumbers: [1, 2, 3, 4, 5, 6].map((piece) => `J-0412/${piece}`),
  decisionRule: RULE,
  rows: ROWS,
  concessions: [
    {
      pieceNumber: 'J-0412/5',
      what: 'bend 2 is 16.6° where 14 to 16° is asked',
      why: 'The stay is trimmed to fit at assembly.',
      decidedBy: 'I. Łukaszewicz for the customer',
      decidedOn: '24 March 2026',
    },
  ],
  whatWasChecked: [
    'Angle and radius of every bend of every piece, on the empty cold tube.',
    'Outside of every bend with dye penetrant; bore looked through; filler weighed in and out.',
  ],
  whatWasNotChecked: ['Strength, fatigue life, welds made afterwards, fit to parts not in our hands.'],
  inspectedBy: 'R. Tan',
  inspectedOn: '24 March 2026',
  releasedBy: 'M. Osei',
  releasedOn: '25 March 2026',
}

export const FIRST_ARTICLE: FirstArticleData = {
  ...ISSUE,
  paper: 'a4',
  shopName: SHOP.name,
  reportNumber: 'FA-0412',
  jobNumber: 'J-0412',
  customerName: CLUB.name,
  partNumber: 'TW-1170',
  partRevision: 'C',
  partTitle: 'Rigger frame, main stay',
  drawingNumber: 'SRC-RF-02 sheet 1',
  pieceNumber: 'J-0412/1',
  reason: 'first order of this revision',
  drawings: [ELEVATION, PLAN],
  accountability: [
    {
      what: 'Tube',
      specification: '6061-T6, ASTM B221',
      lotNumber: 'H 77A-4410',
      proof: 'EN 10204 3.1, on file',
    },
    { what: 'Filler', specification: 'alloy 158', lotNumber: 'F-009', proof: '12.43 kg in, 12.38 kg out' },
  ],
  rows: ROWS.slice(0, 4),
  decisionRule: RULE,
  verdict: 'pass',
  openNonconformances: [],
  preparedBy: 'R. Tan',
  preparedOn: '18 March 2026',
}

export const REQUEST: RequestData = {
  ...ISSUE,
  paper: 'a4',
  letterhead: SHOP,
  source: { name: 'Kestrel Mandrel Works', contactName: 'Sales', addressLines: ['9 Foundry Row', 'Inland'] },
  requestNumber: 'A-0093',
  askedOn: '3 March 2026',
  replyBy: '12 March 2026',
  lengthUnit: 'mm',
  partNumber: 'TW-1170',
  partRevision: 'C',
  partTitle: 'Rigger frame, main stay',
  tubeText: '38.1 × 38.1 × 3.18 mm square',
  materialText: '6061-T6 extrusion',
  endTemperText: 'T6',
  drawings: [ELEVATION, PLAN],
  bends: [
    { bendNumber: 1, straightBeforeMm: 447.3, rotationDeg: 0, angleDeg: 32, centrelineRadiusMm: 250 },
    { bendNumber: 2, straightBeforeMm: 224.8, rotationDeg: 90, angleDeg: 15, centrelineRadiusMm: 250 },
  ],
  straightAfterMm: 327.6,
  developedLengthMm: 1204.8,
  pointsMm: [
    [0, 0, 0],
    [519, 0, 0],
    [798.2, 174.5, 0],
    [1103.1, 365, 96.3],
  ],
  tolerances: ['Angles ±1.0°.', 'Centreline radius ±5 mm.', 'Faces in the bend flat to 0.5 mm.'],
  requirements: [
    'Certificate EN 10204 3.1 with the heat number.',
    'No wrinkles, no die marks deeper than 0.1 mm.',
  ],
  quantitiesPieces: [1, 5, 20],
  deliverTo: 'Netmakers Quay, Port Averil',
}

export const PACKING: PackingData = {
  ...ISSUE,
  letterhead: SHOP,
  shipTo: CLUB,
  packingNumber: 'P-0207',
  jobNumber: 'J-0412',
  orderNumber: 'SRC 2026-31',
  shippedOn: '26 March 2026',
  carrierText: 'own van',
  lines: [
    {
      partNumber: 'TW-1170',
      partRevision: 'C',
      description: 'Rigger frame, main stay',
      orderedPieces: 6,
      shippedPieces: 5,
      owedPieces: 1,
      pieceNumbers: [1, 2, 3, 4, 5].map((piece) => `J-0412/${piece}`),
      heatNumbers: ['H 77A-4410'],
    },
  ],
  packages: [
    {
      packageNumber: '1 of 1',
      contents: '5 stays, wrapped, ends capped',
      massKg: 9.4,
      sizeText: '1300 × 400 × 200 mm',
    },
  ],
  enclosed: ['Inspection record IR-0412', 'Certificate for heat H 77A-4410'],
}

export const LABELS: LabelData = {
  ...ISSUE,
  shopName: SHOP.name,
  stock: { kind: 'sheet', widthMm: 90, heightMm: 36 },
  labels: [1, 2, 3, 4, 5, 6].map((piece) => ({
    headline: `J-0412/${piece}`,
    lines: ['TW-1170 rev C', 'heat H 77A-4410', 'Saltmarsh Rowing Club', 'due 27 March 2026'],
    scanUrl: `http://bench.tidewrack.test/bench/pieces/J-0412/${piece}`,
  })),
}

export const NUMBERS: NumbersData = {
  ...ISSUE,
  shopName: SHOP.name,
  belongsTo: 'TW-1170 rev C, bend 1',
  modelVersion: '1',
  defaultsUsed: ['strap friction 0.15', 'springback factor 1'],
  chains: [
    {
      name: 'Second moment of area of the tube',
      valueText: '94 300 mm⁴',
      formula: 'I = (b h³ - (b - 2t)(h - 2t)³) / 12',
      inputs: [
        { name: 'width b', valueText: '38.1 mm', from: 'part revision C' },
        { name: 'height h', valueText: '38.1 mm', from: 'part revision C' },
        { name: 'wall t', valueText: '3.18 mm', from: 'lot L-0231, measured' },
      ],
      source: 'textbook mechanics of materials, section properties',
      trust: 'exact',
    },
    {
      name: 'Angle to expect at the press',
      valueText: '35.1°',
      formula: 'M_tube - E I x + M_filler - 2 M_f(x/2) = 0;  dk1 = c x ≤ dk',
      inputs: [
        {
          name: 'springback factor c',
          valueText: '0.97',
          from: '14 bends of 6061-T6, this section and method',
        },
      ],
      source: 'elastic unloading of a composite section',
      trust: 'mechanics',
      note: 'The filling creeps: hours change it.',
    },
  ],
}

export const TEMPLATES: TemplateData = {
  ...ISSUE,
  shopName: SHOP.name,
  belongsTo: 'J-0412, TW-1170 rev C',
  templates: [
    bendCheckTemplate({
      finalAngleDeg: 32,
      finalRadiusMm: 250,
      tubeHeightMm: 38.1,
      angleToleranceDeg: 1,
      name: 'Bend 1',
    }),
    dieProfileTemplate({ surfaceRadiusMm: 176.5, wrappedAngleDeg: 41, grooveWidthMm: 38.6, name: 'D-14' }),
    endWrapTemplate({
      tube: { shape: 'square', widthMm: 38.1, heightMm: 38.1, cornerRadiusMm: 3 },
      cut: { kind: 'mitre', angleDeg: 22.5, rotationDeg: 30 },
      end: 'datum',
      isBent: true,
      name: 'datum end',
    }),
    endWrapTemplate({
      tube: { shape: 'round', widthMm: 48.3, heightMm: 48.3 },
      cut: { kind: 'mitre', angleDeg: 45 },
      end: 'far',
      isBent: true,
      name: 'far end',
    }),
    endWrapTemplate({
      tube: { shape: 'round', widthMm: 48.3, heightMm: 48.3 },
      cut: { kind: 'saddle', onDiameterMm: 60.3, angleDeg: 60 },
      end: 'far',
      isBent: false,
      name: 'far end',
    }),
    endWrapTemplate({
      tube: { shape: 'square', widthMm: 38.1, heightMm: 38.1, cornerRadiusMm: 3 },
      cut: { kind: 'saddle', onDiameterMm: 60.3, angleDeg: 90 },
      end: 'far',
      isBent: true,
      name: 'far end',
    }),
    scribingStripTemplate({ blankLengthMm: 1310.4, marks: TRAVELLER.marks, name: 'TW-1170' }),
  ],
}
