import { formatNumber } from '@/lib/core/format'
import type { LengthUnit } from '@/lib/core/units'
import type { EstimateAsk } from '@/lib/records/estimate/rules'
import type { EstimateTyped } from '@/lib/records/estimate/schema'
import { overridableRate, typedEnds } from '@/lib/records/estimate-rate/rules'
import { lengthForField } from '@/lib/records/part/rules'
import { typedRate } from '@/lib/records/rates/rules'

type Units = { lengthUnit: LengthUnit; currency: string }

const plain = (value: number): string => formatNumber(value, { decimals: 6 })

/** Minutes as they stand in a field. */
export const minutesForField = (minutes: number): string => formatNumber(minutes, { decimals: 2 })

/** Money as it stands in a field: no sign, no grouping. */
export function moneyForField(cents: number, currency: string): string {
  return typedRate(cents, { is: 'money', unit: '' }, { lengthUnit: 'mm', currency })
}

/** What the form starts from: an estimate's decisions as somebody would type them. */
export function typedEstimate(
  ask: EstimateAsk,
  from: { revisionId: number; mark: string; units: Units; toolKeys: readonly string[]; usualBarMm: number },
): EstimateTyped {
  const { units } = from
  const toolKeys = [...new Set([...from.toolKeys, ...Object.keys(ask.tools)])]
  return {
    revisionId: String(from.revisionId),
    mark: from.mark,
    way: ask.way,
    quantities: ask.quantities.join(', '),
    yieldPct: plain(ask.yieldFraction * 100),
    yieldReason: ask.yieldReason,
    holeCount: String(ask.holeCount),
    weldedEndCount: String(ask.weldedEndCount),
    dyePenetrant: ask.dyePenetrant,
    buyable:
      ask.buyable.length > 0
        ? ask.buyable.map(({ lengthMm, priceCents }) => ({
            lengthMm: lengthForField(lengthMm, units.lengthUnit),
            priceCents: moneyForField(priceCents, units.currency),
          }))
        : [{ lengthMm: lengthForField(from.usualBarMm, units.lengthUnit), priceCents: '' }],
    tools: toolKeys.map((key) => ({
      key,
      charge: ask.tools[key]?.charge ?? 'job',
      overJobs: String(ask.tools[key]?.overJobs ?? 5),
    })),
    overrides: ask.overrides.map(({ operationKey, field, value, reason }) => ({
      operationKey,
      field,
      low: minutesForField(value.low),
      likely: minutesForField(value.likely),
      high: minutesForField(value.high),
      reason,
    })),
    rateOverrides: ask.rateOverrides.flatMap(({ path, value, reason }) => {
      const line = overridableRate(path)
      return line ? [{ path, ...typedEnds(value, line, units), reason }] : []
    }),
    pricingBy: ask.pricing.by,
    pricingPct: plain(ask.pricing.ppm / 10_000),
  }
}
