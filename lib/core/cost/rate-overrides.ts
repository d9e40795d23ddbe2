import type { Operation } from '@/lib/core/cost/operation'
import type { ShopRates } from '@/lib/core/cost/shop-rates'
import type { ThreePoint } from '@/lib/core/cost/spread'
import type { Support } from '@/lib/core/cost/ways'

export type RateValue = number | string | ThreePoint

/** A rate that a person set for one estimate instead of the shop's, and why. */
export interface RateOverride {
  /** Place in the rates, its keys joined by points: 'labourCentsPerH.press'. */
  readonly path: string
  readonly value: RateValue
  readonly reason: string
}

type Tree = { readonly [key: string]: Tree | number | string }

/** What stands at a place of the rates. Valid: a place that holds a number, three of them, or a choice. */
export function rateAt(rates: ShopRates, path: string): RateValue {
  const found = path
    .split('.')
    .reduce<Tree | number | string | undefined>(
      (node, key) => (typeof node === 'object' && Object.hasOwn(node, key) ? node[key] : undefined),
      rates as unknown as Tree,
    )
  if (typeof found === 'number' || typeof found === 'string') return found
  if (found !== undefined && isThreePoint(found)) return found
  throw new RangeError(`There is no rate "${path}".`)
}

/**
 * The shop's rates with those of one estimate put in their places; the shop's own stay as they are.
 * Valid: each override names a rate once, is of its kind (a number, three of them, a choice), not below zero, and gives a reason.
 */
export function withRateOverrides(rates: ShopRates, overrides: readonly RateOverride[]): ShopRates {
  return overrides.reduce((changed, { path, value, reason }) => {
    requireSameKind(rateAt(rates, path), value, path)
    if (reason.trim() === '') throw new RangeError('A rate that is set for one estimate needs a reason.')
    return put(changed as unknown as Tree, path.split('.'), value) as unknown as ShopRates
  }, rates)
}

function put(node: Tree, [key = '', ...rest]: readonly string[], value: RateValue): Tree {
  const below = node[key]
  const next = rest.length === 0 ? (value as Tree | number | string) : put(below as Tree, rest, value)
  return { ...node, [key]: next }
}

function requireSameKind(shop: RateValue, value: RateValue, path: string): void {
  if (typeof shop !== typeof value) throw new RangeError(`"${path}" is a rate of another kind.`)
  const numbers =
    typeof value === 'object'
      ? [value.low, value.likely, value.high]
      : typeof value === 'number'
        ? [value]
        : []
  if (numbers.some((number) => !(number >= 0 && Number.isFinite(number)))) {
    throw new RangeError(`A rate is zero or more, not ${numbers.join(', ')}.`)
  }
  if (numbers.some((number, index) => number < (numbers[index - 1] ?? 0))) {
    throw new RangeError(`Low, likely and high go upwards, not ${numbers.join(', ')}.`)
  }
}

function isThreePoint(node: Tree): node is Tree & ThreePoint {
  return ['low', 'likely', 'high'].every((end) => typeof node[end] === 'number')
}

/** What of an estimate decides which rates stand behind it. */
export interface RateUse {
  readonly operations: readonly Operation[]
  readonly support: Support
  readonly fillerKg: number
  readonly toolKinds: readonly ('die' | 'strap')[]
}

/**
 * Whether the rate at a place counts in an estimate at all: the price of sand does not where a bore is filled with alloy.
 * Valid: a place in the rates outside the operations' times, which stand with each operation.
 */
export function usesRate(path: string, use: RateUse): boolean {
  const [first = '', second = ''] = path.split('.')
  const does = (...keys: readonly Operation['key'][]): boolean =>
    use.operations.some(({ key }) => keys.includes(key))
  switch (first as keyof ShopRates) {
    case 'labourCentsPerH':
      return (
        use.operations.some(({ workCentre }) => workCentre === second) ||
        (second === 'toolmaking' && use.toolKinds.length > 0)
      )
    case 'learning':
      return use.operations.some(({ hand, runMinutesPerPiece }) => hand && runMinutesPerPiece.high > 0)
    case 'fillerCentsPerKg':
    case 'fillerLossFraction':
      return use.support === 'lowMelt' && use.fillerKg > 0
    case 'sandCentsPerLitre':
    case 'sandLossFraction':
      return use.support === 'sand'
    case 'boreOilCentsPerM':
      return does('cleanBore')
    case 'weldConsumablesCentsPerM':
      return does('fitWeld', 'fitWeldMitres')
    case 'dyePenetrantCentsPerBend':
      return does('dyePenetrant')
    case 'heatTreat':
      return use.operations.some(({ key }) => key === second)
    case 'dieMakeMinutes':
    case 'dieMaterialCents':
      return use.toolKinds.includes('die')
    case 'strapMakeMinutes':
    case 'strapMaterialCents':
      return use.toolKinds.includes('strap')
    default:
      return true
  }
}
