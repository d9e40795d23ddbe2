import type { Operation } from '@/lib/core/cost/operation'
import { type RateOverride, type RateValue, rateAt, usesRate } from '@/lib/core/cost/rate-overrides'
import type { ShopRates } from '@/lib/core/cost/shop-rates'
import { waySupport } from '@/lib/core/cost/ways'
import { formatLength, formatMoney } from '@/lib/core/format'
import { yieldBelief } from '@/lib/core/statistics/yield-belief'
import type { WayBasis } from '@/lib/core/ways/way-basis'
import type { ShopUnits } from '@/lib/records/fields'
import { type RateLine, rateGroups, rateUnit, typedRate } from '@/lib/records/rates/rules'

/** Set on a line of their own: times with each operation, the yield and the margin at the head of the estimate. */
const setElsewhere = /^(times\.|firstPassYieldFraction$|marginPpm$)/

export const pathOf = (line: RateLine): string => line.path.join('.')

/** The rates that one estimate may set otherwise than the shop. */
export const overridableRates: readonly RateLine[] = rateGroups
  .flatMap(({ lines }) => lines)
  .filter((line) => !setElsewhere.test(pathOf(line)))

const lineOf = new Map(overridableRates.map((line) => [pathOf(line), line]))

export function overridableRate(path: string): RateLine | null {
  return lineOf.get(path) ?? null
}

/** The rates that stand behind an estimate, in the order of the shop's own list. */
export function ratesBehind(basis: WayBasis, operations: readonly Operation[]): RateLine[] {
  const use = {
    operations,
    support: waySupport(basis.way, basis).support,
    fillerKg: basis.part?.fillerKg ?? 0,
    toolKinds: basis.toolsToMake.map(({ kind }) => kind),
  }
  return overridableRates.filter((line) => usesRate(pathOf(line), use))
}

/** The ends of a rate as somebody would type them; a rate without a spread has the likely one only. */
export function typedEnds(value: RateValue, line: RateLine, units: ShopUnits) {
  const text = (one: number | string) => typedRate(one, line.kind, units)
  return typeof value === 'object'
    ? { low: text(value.low), likely: text(value.likely), high: text(value.high) }
    : { low: '', likely: text(value), high: '' }
}

/** A rate as it is read: '35 %', '2 % (1 to 5)', '$75.00 an hour', 'up'. */
export function rateShown(value: RateValue, line: RateLine, units: ShopUnits): string {
  const { kind } = line
  if (kind.is === 'choice') {
    return (
      kind.choices.find((choice) => choice.value === value)?.label ?? (typeof value === 'string' ? value : '')
    )
  }
  const shown = (one: number | string): string => {
    if (kind.is === 'money') return formatMoney(Number(one), { currency: units.currency, locale: 'en-US' })
    return kind.is === 'length' ? formatLength(Number(one), units.lengthUnit) : typedRate(one, kind, units)
  }
  const unit = kind.is === 'money' ? kind.unit : kind.is === 'length' ? '' : ` ${rateUnit(kind, units)}`
  if (typeof value !== 'object') return `${shown(value)}${unit}`
  const { low, likely, high } = value
  const range = low === likely && high === likely ? '' : ` (${shown(low)} to ${shown(high)})`
  return `${shown(likely)}${range}${unit}`
}

/** A rate set for one estimate, in words: what it is, what the shop's is, why. */
export type RateSet = { path: string; label: string; value: string; shop: string; reason: string }

export function ratesSet(rates: ShopRates, overrides: readonly RateOverride[], units: ShopUnits): RateSet[] {
  return overrides.flatMap(({ path, value, reason }): RateSet[] => {
    const line = overridableRate(path)
    if (!line) return []
    const shop = rateShown(rateAt(rates, path), line, units)
    return [{ path, label: line.label, value: rateShown(value, line, units), shop, reason }]
  })
}

/** Pieces whose first tries were looked at and taken in as lessons: of the whole shop, and of the tube asked about. */
export type YieldRecord = {
  goodCount: number
  badCount: number
  tube: { goodCount: number; badCount: number }
}

const counted = ({ goodCount, badCount }: { goodCount: number; badCount: number }) =>
  `${goodCount} of ${goodCount + badCount} ${goodCount + badCount === 1 ? 'piece' : 'pieces'}`

/**
 * Where the share of pieces that are good the first time comes from, said beside it: the shop's own records with their
 * count, a figure somebody set over them, or the one that a new shop starts with.
 */
export function yieldSource(
  rates: Pick<ShopRates, 'firstPassYieldFraction'>,
  record: YieldRecord | null,
  sheetDay: string,
): string {
  if (!record || record.goodCount + record.badCount === 0) {
    return `rates of ${sheetDay}; no piece of this shop is on record yet`
  }
  const { goodCount, badCount, tube } = record
  const learned = yieldBelief(goodCount, badCount).meanFraction
  const own = `this shop’s records, ${counted(record)} good the first time`
  const ofTube = tube.goodCount + tube.badCount > 0 ? `; of this tube ${counted(tube)}` : ''
  return Math.abs(rates.firstPassYieldFraction - learned) < 0.0006
    ? `from ${own}${ofTube}`
    : `rates of ${sheetDay}; ${own}${ofTube}`
}
