import type { CostModel } from '@/lib/core/cost/cost-model'
import type { CostedPart } from '@/lib/core/cost/costed-part'
import { operationItems } from '@/lib/core/cost/estimate-items'
import type { LandedCost } from '@/lib/core/cost/landed'
import type { OperationKey } from '@/lib/core/cost/operation'
import { routing } from '@/lib/core/cost/operations'
import type { ShopRates } from '@/lib/core/cost/shop-rates'

/**
 * An outside answer with what the shop still does itself, so that it stands beside in-house ways on the same footing.
 *   landed cost + reading the job, end cuts, welding, final inspection and packing at the shop's rates, but what the source does too
 * Source: the outside route of `routing`. Valid: a landed cost of the same order size; its ordering and receiving work is already in it.
 */
export function outsideAnswerModel(
  landed: LandedCost,
  shop: { readonly part: CostedPart; readonly rates: ShopRates },
  doneBySource: readonly OperationKey[] = [],
): CostModel {
  const counted: readonly OperationKey[] = ['orderOutside', 'receive', ...doneBySource]
  const own = routing({ way: 'outside', part: shop.part, times: shop.rates.times }).filter(
    ({ key }) => !counted.includes(key),
  )
  return {
    ...landed.model,
    learning: shop.rates.learning,
    items: [...landed.model.items, ...own.flatMap((operation) => operationItems(operation, shop.rates))],
  }
}
