'use server'

import { filePress, partFileForm } from '@/lib/records/file/schema'
import { addPartFile, detachPartFile, reattachPartFile } from '@/lib/records/file/write'
import { newPartForm, partForm, partPress } from '@/lib/records/part/schema'
import { addPart, archivePart, changePart, restorePart } from '@/lib/records/part/write'
import { setupForm } from '@/lib/records/setup/schema'
import { saveSetup } from '@/lib/records/setup/write'
import { formAction } from '@/lib/server/action'

export const addPartAction = formAction('part.write', newPartForm, (input, actor) => addPart(input, actor))
export const changePartAction = formAction('part.write', partForm, (input, actor) => changePart(input, actor))
export const archivePartAction = formAction('part.write', partPress, (input, actor) =>
  archivePart(input, actor),
)
export const restorePartAction = formAction('part.write', partPress, (input, actor) =>
  restorePart(input, actor),
)
export const saveSetupAction = formAction('part.write', setupForm, (input, actor) => saveSetup(input, actor))
export const addFileAction = formAction('file.write', partFileForm, (input, actor) =>
  addPartFile(input, actor),
)
export const detachFileAction = formAction('file.write', filePress, (input, actor) =>
  detachPartFile(input, actor),
)
export const reattachFileAction = formAction('file.write', filePress, (input, actor) =>
  reattachPartFile(input, actor),
)
