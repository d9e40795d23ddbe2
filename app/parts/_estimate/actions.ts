'use server'

import { estimateForm } from '@/lib/records/estimate/schema'
import { saveEstimate } from '@/lib/records/estimate/write'
import { formAction } from '@/lib/server/action'

export const saveEstimateAction = formAction('estimate.write', estimateForm, (input, actor) =>
  saveEstimate(input, actor),
)
