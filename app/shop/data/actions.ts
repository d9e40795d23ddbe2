'use server'

import { exportPress } from '@/lib/records/export/schema'
import { noteExport } from '@/lib/records/export/write'
import { formAction } from '@/lib/server/action'

export const noteExportAction = formAction('data.export', exportPress, (_input, actor) => noteExport(actor))
