import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import type { EstimateGround } from '@/lib/records/estimate/rules'

/** A davit arm in a shop that has a press, one strap, a pot of filler and two bars of the tube. */
export const davitGround: EstimateGround = {
  revision: {
    shape: 'square',
    widthMm: 38.1,
    heightMm: 38.1,
    wallMm: 3.175,
    cornerRadiusMm: null,
    materialId: '6061-T6',
    bends: [{ straightBeforeMm: 400, angleDeg: 30, centrelineRadiusMm: 304.8, rotationDeg: 0 }],
    straightAfterMm: 400,
    startCut: { kind: 'square' },
    endCut: { kind: 'mitre', angleDeg: 30, rotationDeg: 0 },
    angleToleranceDeg: 1,
    lengthToleranceMm: 1.5,
    radiusToleranceMm: null,
    sectionToleranceFraction: null,
    generalTolerance: 'ISO 2768-m',
    weldedAfter: false,
    couldHurt: false,
    notesText: '',
    typicalQuantity: 6,
  },
  setup: {
    support: 'lowMelt',
    supportSpanMm: 500,
    press: {
      capacityKn: 178,
      strokeMm: 200,
      supportNoseRadiusMm: 25,
      supportFrictionCoeff: null,
      minimumSpanMm: 150,
      maximumSpanMm: 900,
    },
    die: null,
    strap: { thicknessMm: 3.175, widthMm: 38.1, yieldMPa: 248, frictionCoeff: null },
    filler: { fillerId: 'bi-158', yieldMPa: null, modulusMPa: null },
  },
  isSetupSaved: true,
  tools: {
    dieRadiiMm: [],
    strap: { thicknessMm: 3.175, widthMm: 38.1, yieldMPa: 248, frictionCoeff: null },
    pot: {
      shopNumber: 'F-1',
      name: 'Pot of the 158 F alloy',
      fillerId: 'bi-158',
      yieldMPa: null,
      modulusMPa: null,
      inPotKg: 45,
    },
  },
  shop: { pressUseFraction: 0.8, trimMm: 3, kerfMm: 2, lengthUnit: 'in', currency: 'USD' },
  ownMaterial: null,
  learned: {},
  rateSheetId: 1,
  ratesOn: '2026-03-02T12:00:00.000Z',
  rates: defaultShopRates,
  yieldRecord: null,
  tubes: [
    {
      materialId: '6061-T6',
      latestCentsPerM: 2400,
      bars: [
        { key: 'rack-1', lengthMm: 6096, isOffcut: false, centsPerM: 2400, name: 'L-0001 bar 1' },
        { key: 'rack-2', lengthMm: 1400, isOffcut: true, centsPerM: 2400, name: 'L-0001 bar 2' },
      ],
    },
  ],
  outsideQuoteCount: 0,
}
