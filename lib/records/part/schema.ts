import { z } from 'zod'
import type { EndCut } from '@/lib/core/drawing/part'
import {
  angleText,
  decimalText,
  idText,
  lengthText,
  orEmpty,
  plainText,
  type ShopUnits,
  versionField,
  wholeText,
} from '@/lib/records/fields'

export const tubeShapes = ['square', 'rectangular', 'round'] as const

/** What counts for every dimension without a tolerance of its own. Source: ISO 2768-1:1989, ISO 13920:1996 (BF: lengths and angles by class). */
export const generalTolerances = [
  'ISO 2768-f',
  'ISO 2768-m',
  'ISO 2768-c',
  'ISO 2768-v',
  'ISO 13920-A',
  'ISO 13920-B',
  'ISO 13920-C',
  'ISO 13920-D',
] as const

export const mostBends = 100
const longestMm = 100_000

const mitreAngle = angleText({ min: 0.1, max: 79.9 })
const saddleAngle = orEmpty(angleText({ min: 15, max: 90 }))
const turn = orEmpty(angleText({ min: -360, max: 360 }))

type CutTyped = {
  kind: 'square' | 'mitre' | 'saddle'
  angleDeg: string
  rotationDeg: string
  onDiameterMm: string
}

/** An end cut: the fields of the kinds that were not chosen keep what was typed and count for nothing. */
function endCut(units: ShopUnits): z.ZodType<EndCut, CutTyped> {
  const diameter = lengthText(units, { min: 1, max: 5000 })
  const text = z.string().max(64, 'Too long')
  return z
    .object({
      kind: z.enum(['square', 'mitre', 'saddle'], 'Choose a cut'),
      angleDeg: text,
      rotationDeg: text,
      onDiameterMm: text,
    })
    .transform((typed, context): EndCut => {
      const take = <Value>(key: keyof CutTyped, field: z.ZodType<Value, string>): Value => {
        const read = field.safeParse(typed[key])
        if (read.success) return read.data
        for (const { message } of read.error.issues)
          context.addIssue({ code: 'custom', path: [key], message })
        return z.NEVER
      }
      if (typed.kind === 'square') return { kind: 'square' }
      if (typed.kind === 'mitre') {
        return {
          kind: 'mitre',
          angleDeg: take('angleDeg', mitreAngle),
          rotationDeg: take('rotationDeg', turn) ?? 0,
        }
      }
      return {
        kind: 'saddle',
        onDiameterMm: take('onDiameterMm', diameter),
        angleDeg: take('angleDeg', saddleAngle) ?? 90,
        rotationDeg: take('rotationDeg', turn) ?? 0,
      }
    })
}

const identityFields = {
  customerId: idText,
  name: plainText({ min: 1, max: 120, empty: 'What is the part called?' }),
  customerRef: plainText({ max: 80 }),
}

function tubeFields(units: ShopUnits) {
  const outside = lengthText(units, { min: 3, max: 1000 })
  return {
    shape: z.enum(tubeShapes, 'Choose a shape'),
    widthMm: outside,
    /** Only a rectangle's: the others are as high as they are wide. */
    heightMm: orEmpty(outside),
    wallMm: lengthText(units, { min: 0.2, max: 100 }, { gauge: true }),
    cornerRadiusMm: orEmpty(lengthText(units, { min: 0, max: 500 })),
    materialId: plainText({ min: 1, max: 80, empty: 'Choose the material' }),
  }
}

export function bendFields(units: ShopUnits) {
  return z.object({
    straightBeforeMm: lengthText(units, { min: 0, max: longestMm }),
    angleDeg: angleText({ min: 0.1, max: 179.9 }),
    centrelineRadiusMm: lengthText(units, { min: 1, max: longestMm }),
    rotationDeg: angleText({ min: -360, max: 360 }),
  })
}

function toleranceFields(units: ShopUnits) {
  return {
    angleToleranceDeg: angleText({ min: 0.05, max: 45 }),
    lengthToleranceMm: lengthText(units, { min: 0.01, max: 1000 }),
    radiusToleranceMm: orEmpty(lengthText(units, { min: 0.01, max: 10_000 })),
    sectionTolerancePct: orEmpty(decimalText({ min: 0.1, max: 50, unit: '%' })),
    generalTolerance: z.enum(generalTolerances, 'Choose a class'),
  }
}

/** What is to be made: tube, bends, ends, tolerances. */
function partShape(units: ShopUnits) {
  return z.object({
    ...identityFields,
    ...tubeFields(units),
    bends: z
      .array(bendFields(units))
      .min(1, 'A part has at least one bend')
      .max(mostBends, `At most ${mostBends} bends`),
    straightAfterMm: lengthText(units, { min: 0, max: longestMm }),
    startCut: endCut(units),
    endCut: endCut(units),
    ...toleranceFields(units),
    weldedAfter: z.boolean(),
    couldHurt: z.boolean(),
    notesText: plainText({ max: 4000 }),
    typicalQuantity: wholeText({ min: 1, max: 1_000_000 }),
  })
}

type Shape = z.output<ReturnType<typeof partShape>>

/** What no field can say alone: the wall within the tube, the radius round it, the first bend in the drawing's plane. */
function refuseImpossible(units: ShopUnits, part: Shape, context: z.RefinementCtx): void {
  const show = (mm: number) =>
    units.lengthUnit === 'in' ? `${Number((mm / 25.4).toFixed(4))} in` : `${Number(mm.toFixed(3))} mm`
  const refuse = (path: (string | number)[], message: string) =>
    context.addIssue({ code: 'custom', path, message })
  if (part.shape === 'rectangular' && part.heightMm === null) {
    refuse(['heightMm'], 'A rectangle needs its height, the side in the plane of the bend')
    return
  }
  const heightMm = part.shape === 'rectangular' ? (part.heightMm ?? part.widthMm) : part.widthMm
  const halfMm = Math.min(part.widthMm, heightMm) / 2
  if (part.wallMm >= halfMm)
    refuse(['wallMm'], `Allowed: less than half the smaller side, ${show(halfMm)}; met: ${show(part.wallMm)}`)
  if (part.cornerRadiusMm !== null && part.cornerRadiusMm > halfMm) {
    refuse(
      ['cornerRadiusMm'],
      `Allowed: at most half the smaller side, ${show(halfMm)}; met: ${show(part.cornerRadiusMm)}`,
    )
  }
  for (const [index, bend] of part.bends.entries()) {
    if (bend.centrelineRadiusMm <= heightMm / 2) {
      refuse(
        ['bends', index, 'centrelineRadiusMm'],
        `Allowed: more than half the tube’s height, ${show(heightMm / 2)}; met: ${show(bend.centrelineRadiusMm)}`,
      )
    }
  }
  if ((part.bends[0]?.rotationDeg ?? 0) !== 0)
    refuse(['bends', 0, 'rotationDeg'], 'The first bend sets the plane: its rotation is 0')
}

function finished(part: Shape) {
  const { sectionTolerancePct, ...rest } = part
  return {
    ...rest,
    heightMm: part.shape === 'rectangular' ? (part.heightMm ?? part.widthMm) : part.widthMm,
    cornerRadiusMm: part.shape === 'round' ? null : part.cornerRadiusMm,
    sectionToleranceFraction: sectionTolerancePct === null ? null : sectionTolerancePct / 100,
  }
}

export const newPartForm = (units: ShopUnits) =>
  partShape(units)
    .superRefine((part, context) => refuseImpossible(units, part, context))
    .transform(finished)

export type PartTyped = z.input<ReturnType<typeof newPartForm>>
export type NewPart = z.output<ReturnType<typeof newPartForm>>

/** `version` is the part's: it rises with every change of the part or of its revisions. */
export const partForm = (units: ShopUnits) =>
  partShape(units)
    .extend({ id: idText, version: versionField })
    .superRefine((part, context) => refuseImpossible(units, part, context))
    .transform((part) => ({ ...finished(part), id: part.id, version: part.version }))

export type PartChange = z.output<ReturnType<typeof partForm>>

/** One press about one part: put it away or bring it back. */
export const partPress = z.object({ id: idText, version: versionField })
export type PartPress = z.output<typeof partPress>
