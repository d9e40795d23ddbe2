import { z } from 'zod'
import { idText, lengthText, orEmpty, plainText, type ShopUnits } from '@/lib/records/fields'

export const stockChoice = z.object({
  jobId: idText,
  stockPieceIds: z.array(idText).min(1, 'Choose a tube').max(200),
})

export type StockChoice = z.output<typeof stockChoice>

/** Pieces sawn off one tube, and what is left of it. */
export const cutPiecesForm = (units: ShopUnits) =>
  z.object({
    jobId: idText,
    stockPieceId: idText,
    pieceIds: z.array(idText).min(1, 'Choose the pieces that are cut from it').max(2000),
    cutLengthMm: lengthText(units, { min: 5, max: 20_000 }),
    /** Empty: as reckoned from the cut length and the saw's kerf. */
    leftMm: orEmpty(lengthText(units, { min: 0, max: 20_000 })),
    place: plainText({ max: 80 }),
  })

export type CutPieces = z.output<ReturnType<typeof cutPiecesForm>>

/** A cut that was noted by mistake. */
export const undoCutForm = z.object({ jobId: idText, stockPieceId: idText })

export type UndoCut = z.output<typeof undoCutForm>
