import { operationKeys } from '@/lib/core/cost/operation'
import { makePlan } from '@/lib/records/job/rules'
import { operationPlan } from '@/lib/records/operation/rules'
import type { ReleasePapers } from '@/lib/records/release/rules'
import type { JobPapers } from '@/lib/records/traveller/rules'

/** An invented davit arm on an invented set-up. */
const revision: JobPapers['revision'] = {
  letter: 'A',
  shape: 'square',
  widthMm: 38.1,
  heightMm: 38.1,
  wallMm: 3.175,
  cornerRadiusMm: null,
  materialId: '6061-T6',
  straightAfterMm: 400,
  startCut: { kind: 'square' },
  endCut: { kind: 'mitre', angleDeg: 22.5 },
  angleToleranceDeg: 1,
  lengthToleranceMm: 2,
  radiusToleranceMm: null,
  sectionToleranceFraction: null,
  generalTolerance: 'ISO 2768-m',
  weldedAfter: false,
  couldHurt: true,
  notesText: '',
  typicalQuantity: 6,
  bends: [
    { straightBeforeMm: 400, angleDeg: 32, centrelineRadiusMm: 300, rotationDeg: 0 },
    { straightBeforeMm: 500, angleDeg: 20, centrelineRadiusMm: 300, rotationDeg: 90 },
  ],
  part: { number: 'P-0001', name: 'Davit arm, port', customerRef: 'KHW-104' },
}

const plan = makePlan({
  way: 'lowMeltStrap',
  revision: { ...revision, bends: revision.bends.map((bend, index) => ({ ...bend, position: index + 1 })) },
  setup: {
    support: 'lowMelt',
    supportSpanMm: 500,
    press: {
      shopNumber: 'PR-1',
      name: '50 t shop press',
      capacityKn: 490,
      strokeMm: null,
      supportNoseRadiusMm: 25,
      supportFrictionCoeff: null,
    },
    die: null,
    strap: {
      shopNumber: 'ST-1',
      thicknessMm: 3,
      widthMm: 38,
      lengthMm: 900,
      yieldMPa: 250,
      frictionCoeff: null,
      place: '',
    },
    filler: {
      shopNumber: 'F-1',
      name: '158 F pot',
      fillerId: 'bi-158',
      lotText: '',
      yieldMPa: null,
      modulusMPa: null,
    },
  },
  shop: { pressUseFraction: 0.8, trimMm: 3, kerfMm: 2, lengthUnit: 'in' },
  materialEntry: null,
  certificate: null,
  factor: { value: 1, sd: 0.15, text: 'no bend measured yet' },
  madeAt: '2026-11-20T12:00:00Z',
})

const worked = [
  'saw',
  'deburr',
  'mark',
  'cleanBore',
  'fill',
  'setUpPress',
  'trial',
  'bend',
  'meltOut',
  'inspect',
]

export function jobPapers(pieceCount = 6): JobPapers & { id: number } {
  return {
    id: 4,
    number: 'J-0004',
    quantity: pieceCount,
    dueOn: new Date('2026-12-18T00:00:00Z'),
    travellerIssue: 3,
    plan,
    customer: { name: 'Kestrel Harbour Works', addressText: '1 Quay\nSaltmarsh' },
    quoteLine: { quote: { number: 'Q-0001' } },
    revision,
    operations: operationKeys
      .filter((key) => worked.includes(key))
      .map((key, index) => ({
        position: index + 1,
        key,
        name: `Step ${key}`,
        ...operationPlan(key, plan),
        plannedSetUpMinutes: 10,
        plannedRunMinutesPerPiece: 5,
      })),
    pieces: Array.from({ length: pieceCount }, (_, index) => ({
      number: index + 1,
      status: 'open',
      scanCode: `abcdefghijklmnopqrst${String(index + 1).padStart(4, '0')}`,
      stockPiece: null,
    })),
    stockPieces: [],
  }
}

export function releasePapers(pieceCount = 6): ReleasePapers {
  const numbers = Array.from({ length: pieceCount }, (_, index) => index + 1)
  return {
    id: 2,
    number: 'R-0002',
    at: new Date('2026-11-25T15:00:00Z'),
    statementText: 'Says what was measured.\nHandle with care.',
    by: { name: 'Mara Quill' },
    snapshot: {
      pieces: numbers.map((piece) => ({
        number: piece,
        stockPiece: { lot: { number: 'L-0003', heatNumber: '88121' } },
        bendRecords: [1, 2].map((bendPosition) => ({
          bendPosition,
          tryNumber: 1,
          verdict: 'pass' as const,
          angleFinalDeg: bendPosition === 1 ? 32.2 : 19.9,
          radiusMm: null,
          gaugeText: 'protractor 1',
          gaugeUncertaintyDeg: 0.2,
          at: '2026-11-24T15:00:00Z',
          by: { name: 'Jon' },
          faults: [],
        })),
      })),
    },
    job: {
      id: 4,
      number: 'J-0004',
      quantity: 8,
      plan,
      customer: { name: 'Kestrel Harbour Works', addressText: '1 Quay\nSaltmarsh' },
      quoteLine: null,
      revision: { letter: 'A', materialId: '6061-T6', part: { id: 1, ...revision.part } },
      releases: [
        { id: 2, number: 'R-0002', pieces: Array.from({ length: pieceCount }, () => ({})) },
        { id: 3, number: 'R-0003', pieces: [{}] },
      ],
    },
    pieces: numbers.map((piece) => ({
      number: piece,
      bendRecords: [1, 2].map((bendPosition) => ({
        bendPosition,
        tryNumber: 1,
        look: 'clean' as const,
        dyePenetrant: 'clear' as const,
      })),
      faults: [],
    })),
  }
}

export const paperShop = (paper: 'letter' | 'a4') => ({
  name: 'Tidewrack Fabrication',
  addressText: '',
  contactText: '',
  lengthUnit: 'in' as const,
  paper,
  timeZone: 'America/New_York',
})

export const printing = (paper: 'letter' | 'a4') => ({
  shop: paperShop(paper),
  origin: 'https://shop.test',
  by: 'Mara Quill',
  atIso: '2026-11-25T15:00:00Z',
})
