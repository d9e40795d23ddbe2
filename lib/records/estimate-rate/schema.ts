import { z } from 'zod'
import type { RateValue } from '@/lib/core/cost/rate-overrides'
import { overridableRate, overridableRates, pathOf } from '@/lib/records/estimate-rate/rules'
import { plainText, type ShopUnits } from '@/lib/records/fields'
import { rateField } from '@/lib/records/rates/schema'

type End = 'low' | 'likely' | 'high'

/** A rate set for one estimate. Of a rate with a spread, an end left empty is the likely value itself. */
export const rateOverrideForm = (units: ShopUnits) =>
  z
    .object({
      path: z.enum(overridableRates.map(pathOf)),
      low: z.string(),
      likely: z.string(),
      high: z.string(),
      reason: plainText({ min: 3, max: 300, empty: 'Say why: it stands beside the number' }),
    })
    .transform(({ path, reason, ...typed }, context): { path: string; value: RateValue; reason: string } => {
      const line = overridableRate(path)
      if (!line) return z.NEVER
      const field = rateField(line.kind, units)
      const read = (end: End): unknown => {
        const text = end !== 'likely' && typed[end].trim() === '' ? typed.likely : typed[end]
        const parsed = field.safeParse(text)
        if (parsed.success) return parsed.data
        context.addIssue({
          code: 'custom',
          path: [end],
          message: parsed.error.issues[0]?.message ?? 'Look here',
        })
        return z.NEVER
      }
      const likely = read('likely')
      if (!line.isThreePoint || likely === z.NEVER) return { path, value: likely as RateValue, reason }
      const [low, high] = [read('low'), read('high')]
      if (Number(low) > Number(likely))
        context.addIssue({ code: 'custom', path: ['low'], message: 'Above the likely value' })
      if (Number(high) < Number(likely))
        context.addIssue({ code: 'custom', path: ['high'], message: 'Below the likely value' })
      return { path, value: { low, likely, high } as RateValue, reason }
    })
