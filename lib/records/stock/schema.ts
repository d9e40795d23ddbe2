import { z } from 'zod'
import { formatLength } from '@/lib/core/format'
import { MM_PER_FOOT } from '@/lib/core/units'
import {
  dayText,
  decimalText,
  idText,
  lengthText,
  moneyText,
  orEmpty,
  plainText,
  type ShopUnits,
  versionField,
  wholeText,
} from '@/lib/records/fields'
import { mostFileBytes } from '@/lib/records/file/rules'
import { tubeShapes } from '@/lib/records/part/schema'
import { stressText } from '@/lib/records/tooling/schema'

export const mostBarsAtOnce = 200
/** Longer than any tube is sold. */
const longestBarMm = 30_000

const barLength = (units: ShopUnits) => lengthText(units, { min: 10, max: longestBarMm })
const barCount = wholeText({ min: 1, max: mostBarsAtOnce })
const place = plainText({ max: 80 })

function lotFields(units: ShopUnits) {
  const outside = lengthText(units, { min: 3, max: 1000 })
  return z.object({
    materialId: plainText({ min: 1, max: 80, empty: 'Choose the material' }),
    shape: z.enum(tubeShapes, 'Choose a shape'),
    widthMm: outside,
    /** Only a rectangle's: the others are as high as they are wide. */
    heightMm: orEmpty(outside),
    wallMm: lengthText(units, { min: 0.2, max: 100 }, { gauge: true }),
    cornerRadiusMm: orEmpty(lengthText(units, { min: 0, max: 500 })),
    heatNumber: plainText({ max: 60 }),
    supplierText: plainText({ max: 120 }),
    receivedOn: dayText,
    priceCents: moneyText(units),
    pricedBy: z.enum(['m', 'ft'], 'A metre or a foot'),
    place,
    certificateYieldMPa: orEmpty(stressText(units, { min: 5, max: 3000 })),
    certificateTensileMPa: orEmpty(stressText(units, { min: 5, max: 3500 })),
    certificateElongationPct: orEmpty(decimalText({ min: 0.5, max: 90, unit: '%' })),
  })
}

type LotFields = z.output<ReturnType<typeof lotFields>>

function refuseImpossible(units: ShopUnits, lot: LotFields, context: z.RefinementCtx): void {
  const show = (mm: number) => formatLength(mm, { unit: units.lengthUnit, decimals: 4 })
  const refuse = (path: keyof LotFields, message: string) =>
    context.addIssue({ code: 'custom', path: [path], message })
  if (lot.shape === 'rectangular' && lot.heightMm === null) {
    refuse('heightMm', 'A rectangle needs its other side')
    return
  }
  const heightMm = lot.shape === 'rectangular' ? (lot.heightMm ?? lot.widthMm) : lot.widthMm
  const halfMm = Math.min(lot.widthMm, heightMm) / 2
  if (lot.wallMm >= halfMm)
    refuse('wallMm', `Allowed: less than half the smaller side, ${show(halfMm)}; met: ${show(lot.wallMm)}`)
  if (lot.shape !== 'round' && lot.cornerRadiusMm !== null && lot.cornerRadiusMm > halfMm) {
    refuse(
      'cornerRadiusMm',
      `Allowed: at most half the smaller side, ${show(halfMm)}; met: ${show(lot.cornerRadiusMm)}`,
    )
  }
  const { certificateYieldMPa: yieldMPa, certificateTensileMPa: tensileMPa } = lot
  if ((yieldMPa === null) !== (tensileMPa === null)) {
    refuse(
      yieldMPa === null ? 'certificateYieldMPa' : 'certificateTensileMPa',
      'Yield and tensile go together: the bend is computed from both',
    )
  } else if (yieldMPa !== null && tensileMPa !== null && tensileMPa <= yieldMPa) {
    refuse('certificateTensileMPa', 'Allowed: more than the yield')
  }
}

function finished<Lot extends LotFields>({ priceCents, pricedBy, ...lot }: Lot) {
  return {
    ...lot,
    heightMm: lot.shape === 'rectangular' ? (lot.heightMm ?? lot.widthMm) : lot.widthMm,
    cornerRadiusMm: lot.shape === 'round' ? null : lot.cornerRadiusMm,
    priceCentsPerM: pricedBy === 'm' ? priceCents : Math.round((priceCents * 1000) / MM_PER_FOOT),
  }
}

const bars = (units: ShopUnits) =>
  z
    .array(z.object({ barCount, lengthMm: barLength(units) }))
    .min(1, 'A lot has at least one bar')
    .max(20, 'At most 20 different lengths at once')

/** A delivery of one material in one size from one heat, and the bars that came. */
export const newLotForm = (units: ShopUnits) =>
  lotFields(units)
    .extend({ bars: bars(units) })
    .superRefine((lot, context) => refuseImpossible(units, lot, context))
    .transform(finished)
export type NewLotTyped = z.input<ReturnType<typeof newLotForm>>
export type NewLot = z.output<ReturnType<typeof newLotForm>>

export const lotForm = (units: ShopUnits) =>
  lotFields(units)
    .extend({ id: idText, version: versionField })
    .superRefine((lot, context) => refuseImpossible(units, lot, context))
    .transform(finished)
export type LotTyped = z.input<ReturnType<typeof lotForm>>
export type LotChange = z.output<ReturnType<typeof lotForm>>

/** More bars of a lot: a second bundle, or ones that were found. */
export const addBarsForm = (units: ShopUnits) =>
  z.object({ lotId: idText, barCount, lengthMm: barLength(units), place })
export type AddBars = z.output<ReturnType<typeof addBarsForm>>

const which = { id: idText, version: versionField }

/** A bar was cut into; what is left of it, if anything worth keeping, goes back on the rack. */
export const cutForm = (units: ShopUnits) =>
  z.object({
    ...which,
    leftMm: orEmpty(barLength(units)),
    place,
    noteText: plainText({ max: 200 }),
  })
export type Cut = z.output<ReturnType<typeof cutForm>>

/** A bar measured or moved again. */
export const adjustForm = (units: ShopUnits) =>
  z.object({
    ...which,
    lengthMm: barLength(units),
    place,
    noteText: plainText({ min: 1, max: 200, empty: 'Say why, for who counts next' }),
  })
export type Adjust = z.output<ReturnType<typeof adjustForm>>

export const scrapForm = z.object({
  ...which,
  noteText: plainText({ min: 1, max: 200, empty: 'Say what is wrong with it' }),
})
export type Scrap = z.output<typeof scrapForm>

export const piecePress = z.object(which)
export type PiecePress = z.output<typeof piecePress>

const textOf = (entry: FormDataEntryValue | null): string | number => (typeof entry === 'string' ? entry : '')

const certificateFile = z
  .instanceof(File, { message: 'Choose a file' })
  .refine((file) => file.size > 0, 'The file is empty, or none was chosen')
  .refine((file) => file.size <= mostFileBytes, {
    error: ({ input }) => `At most 25 MB; this one has ${((input as File).size / 1_000_000).toFixed(1)} MB`,
  })

/** A certificate as the browser posts it: whose, and the file itself. */
export const certificateForm = z
  .instanceof(FormData, { message: 'Choose a file' })
  .transform((typed) => ({ lotId: textOf(typed.get('lotId')), file: typed.get('file') as File }))
  .pipe(z.object({ lotId: idText, file: certificateFile }))
export type CertificateUpload = z.output<typeof certificateForm>

export const mostNestRows = 12

/** What is to be cut, out of what: a question only, it changes nothing. */
export const nestForm = (units: ShopUnits) =>
  z.object({
    pieces: z
      .array(z.object({ lengthMm: barLength(units), pieceCount: wholeText({ min: 1, max: 500 }) }))
      .min(1, 'Say what is to be cut')
      .max(mostNestRows, `At most ${mostNestRows} lengths`),
    /** Lengths that can be bought, priced by the bar. */
    buyable: z
      .array(z.object({ lengthMm: barLength(units), priceCents: moneyText(units) }))
      .max(4, 'At most 4 lengths'),
    kerfMm: lengthText(units, { min: 0, max: 20 }),
    endTrimMm: lengthText(units, { min: 0, max: 500 }),
    keepFromMm: lengthText(units, { min: 0, max: 10_000 }),
    /** What an offcut is worth, of what its length cost. */
    offcutWorthPct: decimalText({ min: 0, max: 100, unit: '%' }),
  })
export type NestAsked = z.output<ReturnType<typeof nestForm>>
