import { z } from 'zod'
import {
  decimalText,
  idText,
  lengthText,
  orEmpty,
  plainText,
  type ShopUnits,
  versionField,
} from '@/lib/records/fields'

/** An outside bender: who they are and what they can bend. */
export const newSourceForm = (units: ShopUnits) =>
  z.object({
    name: plainText({ min: 1, max: 120, empty: 'What is the bender called?' }),
    contactText: plainText({ max: 200 }),
    email: plainText({ max: 200 }),
    phone: plainText({ max: 60 }),
    canBendText: plainText({ max: 1000 }),
    /** Smallest centreline radius over tube size. */
    minimumRadiusRatio: orEmpty(decimalText({ min: 0.5, max: 100 })),
    maximumSizeMm: orEmpty(lengthText(units, { min: 1, max: 2000 })),
    alloysText: plainText({ max: 400 }),
    notesText: plainText({ max: 4000 }),
  })

export type NewSource = z.output<ReturnType<typeof newSourceForm>>

export const sourceForm = (units: ShopUnits) =>
  newSourceForm(units).extend({ id: idText, version: versionField })

export type SourceChange = z.output<ReturnType<typeof sourceForm>>

/** What the forms hold: everything as typed. */
export type SourceTyped = z.input<ReturnType<typeof sourceForm>>

/** One press about one bender: put away or brought back. */
export const sourcePress = z.object({ id: idText, version: versionField })
export type SourcePress = z.output<typeof sourcePress>
