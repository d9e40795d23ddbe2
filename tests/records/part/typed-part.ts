import { emptyPart } from '@/lib/records/part/rules'
import { newPartForm, type PartTyped } from '@/lib/records/part/schema'

export const inches = { lengthUnit: 'in', currency: 'USD' } as const
export const millimetres = { lengthUnit: 'mm', currency: 'EUR' } as const

/** A davit arm as an inch shop types it: 1-1/2 in square, 11 gauge, two bends in different planes. */
export function davitArm(customerId: number, changed: Partial<PartTyped> = {}): PartTyped {
  return {
    ...emptyPart(inches),
    customerId: String(customerId),
    name: 'Davit arm, port',
    widthMm: '1-1/2',
    wallMm: '11 ga',
    materialId: '6061-T6',
    bends: [
      { straightBeforeMm: '12 1/4"', angleDeg: '32', centrelineRadiusMm: '16', rotationDeg: '0' },
      { straightBeforeMm: '10', angleDeg: "20d30'", centrelineRadiusMm: '16', rotationDeg: '-90' },
    ],
    straightAfterMm: '1\' 2-1/2"',
    startCut: { kind: 'mitre', angleDeg: '22.5', rotationDeg: '90', onDiameterMm: '' },
    endCut: { kind: 'saddle', angleDeg: '', rotationDeg: '', onDiameterMm: '2-3/8' },
    sectionTolerancePct: '1.5',
    weldedAfter: true,
    ...changed,
  }
}

export const parsedArm = (customerId: number, changed: Partial<PartTyped> = {}) =>
  newPartForm(inches).parse(davitArm(customerId, changed))
