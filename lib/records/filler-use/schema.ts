import { z } from 'zod'
import { idText, plainText, type ShopUnits } from '@/lib/records/fields'
import { massText } from '@/lib/records/tooling/schema'

export const jobMoves = ['poured', 'recovered', 'lost'] as const

/** Filler that went into a job's tubes, came back out of them, or was spilt on the way. */
export const fillerUseForm = (units: ShopUnits) =>
  z.object({
    jobId: idText,
    fillerId: idText,
    kind: z.enum(jobMoves, 'Choose one'),
    massKg: massText(units, { min: 0.001, max: 2000 }),
    noteText: plainText({ max: 300 }),
  })

export type FillerUse = z.output<ReturnType<typeof fillerUseForm>>
