'use server'

import { newSourceForm, sourceForm, sourcePress } from '@/lib/records/source/schema'
import { addSource, archiveSource, changeSource, restoreSource } from '@/lib/records/source/write'
import { formAction } from '@/lib/server/action'

export const addSourceAction = formAction('source.write', newSourceForm, (input, actor) =>
  addSource(input, actor),
)
export const changeSourceAction = formAction('source.write', sourceForm, (input, actor) =>
  changeSource(input, actor),
)
export const archiveSourceAction = formAction('source.write', sourcePress, (input, actor) =>
  archiveSource(input, actor),
)
export const restoreSourceAction = formAction('source.write', sourcePress, (input, actor) =>
  restoreSource(input, actor),
)
