'use server'

import { benchEntry } from '@/lib/records/bend-record/schema'
import { keepBenchEntry } from '@/lib/records/bend-record/write'
import { formAction } from '@/lib/server/action'

export const benchEntryAction = formAction('bench.write', benchEntry, (input, actor) =>
  keepBenchEntry(input, actor),
)
