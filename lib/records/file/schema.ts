import { z } from 'zod'
import { idText } from '@/lib/records/fields'
import { mostFileBytes } from '@/lib/records/file/rules'

const drawingFile = z
  .instanceof(File, { message: 'Choose a file' })
  .refine((file) => file.size > 0, 'The file is empty, or none was chosen')
  .refine((file) => file.size <= mostFileBytes, {
    error: ({ input }) => `At most 25 MB; this one has ${((input as File).size / 1_000_000).toFixed(1)} MB`,
  })

const textOf = (entry: FormDataEntryValue | null): string | number => (typeof entry === 'string' ? entry : '')

/** An upload as the browser posts it: which part, and the file itself. */
export const partFileForm = z
  .instanceof(FormData, { message: 'Choose a file' })
  .transform((typed) => ({
    partId: textOf(typed.get('partId')),
    file: typed.get('file') as File,
  }))
  .pipe(z.object({ partId: idText, file: drawingFile }))

export type PartFileUpload = z.output<typeof partFileForm>

/** A picture of a fault. */
export const faultPictureForm = z
  .instanceof(FormData, { message: 'Choose a picture' })
  .transform((typed) => ({ id: textOf(typed.get('id')), file: typed.get('file') as File }))
  .pipe(z.object({ id: idText, file: drawingFile }))

export type FaultPicture = z.output<typeof faultPictureForm>

export const filePress = z.object({ id: idText })
export type FilePress = z.output<typeof filePress>
