'use server'

import { partFileForm } from '@/lib/records/file/schema'
import { addPartFile } from '@/lib/records/file/write'
import { setupForm } from '@/lib/records/setup/schema'
import { saveSetup } from '@/lib/records/setup/write'
import { formAction } from '@/lib/server/action'

export const addPartFileAction = formAction('file.write', partFileForm, (input, actor) =>
  addPartFile(input, actor),
)
export const saveSetupAction = formAction('part.write', setupForm, (input, actor) => saveSetup(input, actor))
