import type { NumberChain } from '@/app/_ui/ask-number'
import { moneyText } from '@/app/_ui/money'
import type { Estimate } from '@/lib/core/cost/estimate'
import type { Operation, OverridableField } from '@/lib/core/cost/operation'
import type { RateOverride } from '@/lib/core/cost/rate-overrides'
import type { ShopRates } from '@/lib/core/cost/shop-rates'
import type { ThreePoint } from '@/lib/core/cost/spread'
import { workCentreNames } from '@/lib/core/cost/work-centres'
import { formatDate, formatNumber } from '@/lib/core/format'
import { readSentence } from '@/lib/core/sentence'
import type { LengthUnit } from '@/lib/core/units'

export type ChainGround = {
  /** As the estimate counts with them. */
  rates: ShopRates
  /** Those among them that are not the shop's. */
  rateOverrides: readonly RateOverride[]
  ratesOn: string
  currency: string
  timeZone: string
  lengthUnit: LengthUnit
}

export const fieldWords: Readonly<Record<OverridableField, string>> = {
  setUpMinutes: 'set-up, once',
  runMinutesPerPiece: 'run, each piece',
  elapsedMinutes: 'waiting, nobody stands by',
}

export const minutesShown = (minutes: number): string =>
  formatNumber(minutes, { decimals: minutes < 10 ? 1 : 0 })

/** '25, from 20 to 40' as a person says a spread. */
export function pointShown({ low, likely, high }: ThreePoint): string {
  if (low === likely && high === likely) return minutesShown(likely)
  return `${minutesShown(likely)} (${minutesShown(low)} to ${minutesShown(high)})`
}

export function sheetDay({ ratesOn, timeZone }: Pick<ChainGround, 'ratesOn' | 'timeZone'>): string {
  return formatDate(ratesOn, { locale: 'en-US', timeZone })
}

/** Where the minutes of one operation come from: what of the part drives them, whose times they are. */
export function minutesChain(
  operation: Operation,
  field: OverridableField,
  ground: ChainGround,
): NumberChain {
  const point = operation[field]
  const byHand = operation.overridden.find((one) => one.field === field)
  return {
    name: `${operation.name}: ${fieldWords[field]}`,
    value: minutesShown(point.likely),
    unit: 'min',
    inputs: [
      { name: 'Hardly less', value: minutesShown(point.low), unit: 'min' },
      { name: 'Hardly more', value: minutesShown(point.high), unit: 'min' },
      { name: 'Driven by', value: readSentence(operation.driver, ground.lengthUnit) },
      { name: 'Work centre', value: workCentreNames[operation.workCentre] },
      ...(byHand
        ? [
            { name: 'Worked out', value: pointShown(byHand.original), unit: 'min' },
            { name: 'Set by hand because', value: byHand.reason },
          ]
        : [
            {
              name: 'Times from',
              value: `the rates of ${sheetDay(ground)}`,
              from: 'see them',
              href: '/shop/rates',
            },
          ]),
      ...(field === 'elapsedMinutes'
        ? [{ name: 'Together', value: String(operation.piecesPerBatch), unit: 'pieces' }]
        : []),
    ],
    source: byHand ? 'set by hand for this estimate' : operation.source,
    trust: 'entered',
  }
}

/** Where the cost of one operation comes from, for the whole order. */
export function costChain(operation: Operation, estimate: Estimate, ground: ChainGround): NumberChain {
  const lines = estimate.lines.filter(({ key }) => key.startsWith(`${operation.key}:`))
  const rateCents = ground.rates.labourCentsPerH[operation.workCentre]
  const byHand = ground.rateOverrides.find(({ path }) => path === `labourCentsPerH.${operation.workCentre}`)
  return {
    name: `${operation.name}, ${estimate.pieceCount} ${estimate.pieceCount === 1 ? 'piece' : 'pieces'}`,
    value: moneyText(operationCents(operation, estimate), ground.currency),
    formula: 'minutes × (1 + allowance) × times it comes × rate of an hour / 60',
    inputs: [
      {
        name: `${workCentreNames[operation.workCentre]}, an hour`,
        value: moneyText(rateCents, ground.currency),
        ...(byHand
          ? { from: `set for this estimate: ${byHand.reason}` }
          : { from: `rates of ${sheetDay(ground)}`, href: '/shop/rates' }),
      },
      { name: 'Starts counted on', value: String(estimate.starts.likely) },
      ...lines.map(({ label, likelyCents, from }) => ({
        name: label,
        value: moneyText(likelyCents, ground.currency),
        from: readSentence(from, ground.lengthUnit),
      })),
    ],
    source: 'the shop’s rates; overhead and contingency come on top, each on a line of its own',
    trust: 'entered',
  }
}

export function operationCents(operation: Operation, estimate: Estimate): number {
  return estimate.lines
    .filter(({ key }) => key.startsWith(`${operation.key}:`))
    .reduce((sum, { likelyCents }) => sum + likelyCents, 0)
}
