import { minorUnitDigits } from '@/lib/core/cost/money'
import { formatNumber } from '@/lib/core/format'
import type { AskFacts } from '@/lib/records/ask/rules'
import type { OrderedTyped, QuotedTyped } from '@/lib/records/ask/schema'
import type { ShopUnits } from '@/lib/records/fields'
import { typedLength, typedNumber } from '@/lib/records/shop/rules'

const isoDay = (at: Date | null): string => at?.toISOString().slice(0, 10) ?? ''

/** The last answer as somebody would type it; where there is none, the quantities asked with their prices open. */
export function typedQuote(ask: AskFacts, units: ShopUnits, today: string): QuotedTyped {
  const digits = minorUnitDigits(units.currency)
  const money = (cents: number) =>
    formatNumber(cents / 10 ** digits, { decimals: digits, keepZeros: cents !== 0 })
  const prices =
    ask.prices.length > 0
      ? ask.prices.map(({ quantity, unitCents }) => ({
          quantity: String(quantity),
          unitCents: money(unitCents),
        }))
      : ask.quantities.map((quantity) => ({ quantity: String(quantity), unitCents: '' }))
  return {
    id: ask.id,
    version: ask.version,
    repliedOn: today,
    prices,
    toolingCents: money(ask.toolingCents),
    setUpCents: money(ask.setUpCents),
    minimumOrderCents: money(ask.minimumOrderCents),
    freightCents: money(ask.freightCents),
    suppliedCentsPerPiece: money(ask.suppliedCentsPerPiece),
    leadTimeDays: typedNumber(ask.leadTimeDays),
    validUntil: isoDay(ask.validUntil),
    offeredRadiusMm: typedLength(ask.offeredRadiusMm, units.lengthUnit),
    conditionsText: ask.conditionsText,
    expectedRejectPct: typedNumber(Number((ask.expectedRejectFraction * 100).toFixed(6))),
    replacesRejects: ask.replacesRejects,
  }
}

export function typedOrder(ask: AskFacts, today: string): Omit<OrderedTyped, 'id'> & { id: number } {
  return {
    id: ask.id,
    version: ask.version,
    orderedOn: isoDay(ask.orderedOn) || today,
    orderedQuantity: typedNumber(ask.orderedQuantity),
    promisedOn: isoDay(ask.promisedOn),
    deliveredOn: isoDay(ask.deliveredOn),
    rejectedQuantity: typedNumber(ask.rejectedQuantity),
  }
}
