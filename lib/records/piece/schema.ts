import { z } from 'zod'
import { idText } from '@/lib/records/fields'

export const stockChoice = z.object({
  jobId: idText,
  stockPieceIds: z.array(idText).min(1, 'Choose a tube').max(200),
})

export type StockChoice = z.output<typeof stockChoice>

export const assignStockForm = z.object({
  jobId: idText,
  stockPieceId: idText,
  pieceIds: z.array(idText).min(1, 'Choose the pieces that are cut from it').max(2000),
})

export type AssignStock = z.output<typeof assignStockForm>
