import type { MaterialCost } from '@/lib/core/cost/estimate-input'
import { wholeCents } from '@/lib/core/cost/money'
import type { NestPlan } from '@/lib/core/stock/nest-plan'

/**
 * The tube cost of a job from its cutting plan.
 *   planned = bought + rack - what goes back to the rack;  each start past the plan at the price of its length and kerf
 * Valid: a plan made for `plannedStarts` pieces; the price of a metre as bought in small lots.
 */
export function nestedMaterialCost(
  plan: NestPlan,
  job: {
    readonly plannedStarts: number
    readonly cutLengthMm: number
    readonly kerfMm: number
    readonly centsPerM: number
  },
): MaterialCost {
  const bought = plan.toBuy.map(
    ({ barCount, lengthMm }) => `${barCount} of ${Math.round(lengthMm)} mm to buy`,
  )
  const fromRack = plan.bars.filter(({ source }) => source === 'rack').length
  const rack = fromRack > 0 ? [`${fromRack} from the rack`] : []
  return {
    plannedStarts: job.plannedStarts,
    plannedCents: plan.netCents,
    extraStartCents: wholeCents(((job.cutLengthMm + job.kerfMm) / 1000) * job.centsPerM),
    from: `${[...bought, ...rack].join(', ') || 'no tube'}; ${plan.proof.text}`,
  }
}

/**
 * The tube cost of a job by the metre, where no cutting plan is made.
 *   starts * (cut length + kerf) * price of a metre
 * Valid: starts counted from one.
 */
export function perLengthMaterialCost(job: {
  readonly plannedStarts: number
  readonly cutLengthMm: number
  readonly kerfMm: number
  readonly centsPerM: number
}): MaterialCost {
  if (!(job.centsPerM >= 0 && job.cutLengthMm > 0 && job.plannedStarts >= 1)) {
    throw new RangeError('Tube by the metre has a price, a length and a start at least.')
  }
  const extraStartCents = wholeCents(((job.cutLengthMm + job.kerfMm) / 1000) * job.centsPerM)
  return {
    plannedStarts: job.plannedStarts,
    plannedCents: extraStartCents * job.plannedStarts,
    extraStartCents,
    from: `${job.plannedStarts} starts of ${Math.round(job.cutLengthMm)} mm by the metre`,
  }
}
