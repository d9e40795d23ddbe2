'use server'

import { estimateForm, quoteEstimateForm } from '@/lib/records/estimate/schema'
import { quoteEstimate, saveEstimate } from '@/lib/records/estimate/write'
import { formAction } from '@/lib/server/action'

export const saveEstimateAction = formAction('estimate.write', estimateForm, (input, actor) =>
  saveEstimate(input, actor),
)
export const quoteEstimateAction = formAction('quote.write', quoteEstimateForm, (input, actor) =>
  quoteEstimate(input, actor),
)
