export type HalfRule = 'halfUp' | 'halfEven'

/** Currencies whose smallest unit is not a hundredth. Source: ISO 4217, list one, column "Minor unit"; two where not named. */
const otherMinorUnits: Readonly<Record<0 | 3 | 4, string>> = {
  0: 'BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF',
  3: 'BHD IQD JOD KWD LYD OMR TND',
  4: 'CLF UYW',
}

const digitsByCode = new Map(
  ([0, 3, 4] as const).flatMap((digits) =>
    otherMinorUnits[digits].split(' ').map((code) => [code, digits] as const),
  ),
)

/**
 * Decimal places of a currency's smallest unit, by the standard and not by what is usually written: a forint has
 * hundredths there, though nobody prices in them.
 * Source: ISO 4217 minor units. Valid: three capital letters; two places where the standard's list is not otherwise.
 */
export function minorUnitDigits(currencyCode: string): 0 | 2 | 3 | 4 {
  if (!/^[A-Z]{3}$/.test(currencyCode)) {
    throw new RangeError(`A currency is three capital letters such as USD, not "${currencyCode}".`)
  }
  return digitsByCode.get(currencyCode) ?? 2
}

/**
 * A whole-number fraction rounded to a whole number: the only place where money is rounded.
 *   numerator / denominator, halves away from zero (half-up) or to the even neighbour (half-even)
 * Source: commercial rounding; ISO 80000-1 Annex B rule A is half-even. Valid: whole numbers of any size, denominator above zero.
 */
export function roundedQuotient(numerator: bigint, denominator: bigint, rule: HalfRule = 'halfUp'): bigint {
  if (denominator <= 0n) throw new RangeError('An amount can only be divided by something above zero.')
  const negative = numerator < 0n
  const size = negative ? -numerator : numerator
  const whole = size / denominator
  const twiceRest = 2n * (size % denominator)
  const up =
    twiceRest > denominator || (twiceRest === denominator && (rule === 'halfUp' || whole % 2n === 1n))
  const rounded = up ? whole + 1n : whole
  return negative ? -rounded : rounded
}

/**
 * A decimal written as text, rounded to a number of places, with no binary fraction in between.
 *   "2.665" to 2 places is 266n (hundredths: 267n) by half-even (half-up)
 * Source: definition. Valid: plain decimal text such as "-12.345"; returns the count of units of the last place.
 */
export function roundDecimalText(text: string, places: number, rule: HalfRule = 'halfUp'): bigint {
  const parts = /^(-?)(\d+)(?:\.(\d+))?$/.exec(text.trim())
  if (!parts) throw new RangeError(`"${text}" is not a plain decimal number.`)
  const fraction = parts[3] ?? ''
  const digits = BigInt(`${parts[2] ?? '0'}${fraction}`)
  const signed = parts[1] === '-' ? -digits : digits
  return roundedQuotient(signed * 10n ** BigInt(places), 10n ** BigInt(fraction.length), rule)
}

/**
 * A computed cost (a float, from minutes times rates) brought to whole cents.
 *   the shortest decimal that stands for the float is rounded half-up, so 1.005 * 100 becomes 101, not 100
 * Source: definition. Valid: below 9e13 cents.
 */
export function wholeCents(cents: number): number {
  if (!Number.isFinite(cents) || Math.abs(cents) > 9e13) {
    throw new RangeError(`${cents} is not an amount of money.`)
  }
  const steadied = Number(cents.toPrecision(14))
  const rounded = Math.sign(steadied) * Math.floor(Math.abs(steadied) + 0.5)
  return rounded === 0 ? 0 : rounded
}

/**
 * Price from cost by a markup on cost.
 *   price = cost (1 + k)
 * Source: definition of markup. Valid: k >= 0; the markup in parts per million, the price rounded half-up.
 */
export function priceByMarkupCents(costCents: number, markupPpm: number): number {
  requireWhole(costCents, 'A cost in cents')
  requireWhole(markupPpm, 'A markup in parts per million')
  if (markupPpm < 0) throw new RangeError('A markup is zero or more.')
  return Number(roundedQuotient(BigInt(costCents) * BigInt(1_000_000 + markupPpm), 1_000_000n))
}

/**
 * Price from cost by a margin on price.
 *   price = cost / (1 - g)
 * Source: definition of gross margin. Valid: 0 <= g < 1; the margin in parts per million, the price rounded half-up.
 */
export function priceByMarginCents(costCents: number, marginPpm: number): number {
  requireWhole(costCents, 'A cost in cents')
  requireWhole(marginPpm, 'A margin in parts per million')
  if (marginPpm < 0 || marginPpm >= 1_000_000) {
    throw new RangeError('A margin is a share of the price: from 0 to just below 100 percent.')
  }
  return Number(roundedQuotient(BigInt(costCents) * 1_000_000n, BigInt(1_000_000 - marginPpm)))
}

/** The margin on price that a markup on cost amounts to: g = k / (1 + k). Valid: k > -1. */
export function marginFromMarkup(markupFraction: number): number {
  if (!(markupFraction > -1)) throw new RangeError('A markup is above -100 percent.')
  return markupFraction / (1 + markupFraction)
}

/** The markup on cost that a margin on price amounts to: k = g / (1 - g). Valid: g < 1. */
export function markupFromMargin(marginFraction: number): number {
  if (!(marginFraction < 1)) throw new RangeError('A margin is below 100 percent of the price.')
  return marginFraction / (1 - marginFraction)
}

/**
 * Margin and markup of a price over a cost, both named, so that they are never mistaken for one another.
 * Source: definitions; null where the price or the cost is nothing and the ratio has no meaning.
 */
export function marginAndMarkup(
  costCents: number,
  priceCents: number,
): {
  profitCents: number
  marginFraction: number | null
  markupFraction: number | null
} {
  const profitCents = priceCents - costCents
  return {
    profitCents,
    marginFraction: priceCents === 0 ? null : profitCents / priceCents,
    markupFraction: costCents === 0 ? null : profitCents / costCents,
  }
}

/** How a price is brought to a round figure: the step in cents (1 = none, 5, 100, 500) and the direction. */
export interface PriceRounding {
  readonly stepCents: number
  readonly direction: 'nearest' | 'up' | 'down'
}

/**
 * A price brought to a multiple of the step; halves go up when rounding to nearest.
 * Source: commercial practice (cash rounding to 0.05 as in Switzerland or Canada; 1 and 5 are the shop's choice). Valid: step of 1 cent or more.
 */
export function roundPriceCents(priceCents: number, rounding: PriceRounding): number {
  requireWhole(priceCents, 'A price in cents')
  requireWhole(rounding.stepCents, 'A rounding step in cents')
  if (rounding.stepCents < 1) throw new RangeError('A rounding step is one cent or more.')
  const steps = priceCents / rounding.stepCents
  if (rounding.direction === 'up') return Math.ceil(steps) * rounding.stepCents
  if (rounding.direction === 'down') return Math.floor(steps) * rounding.stepCents
  return Number(roundedQuotient(BigInt(priceCents), BigInt(rounding.stepCents))) * rounding.stepCents
}

/**
 * An amount split in proportion to weights so that the parts add up to it to the cent.
 *   each part gets its whole share; the cents left go one each to the largest remainders, earlier parts first on ties
 * Source: largest remainder (Hamilton) method. Valid: at least one weight above zero, none below.
 */
export function splitCents(totalCents: number, weights: readonly number[]): number[] {
  requireWhole(totalCents, 'An amount in cents')
  const weightSum = weights.reduce((sum, weight) => sum + weight, 0)
  if (weights.some((weight) => !(weight >= 0)) || !(weightSum > 0)) {
    throw new RangeError('The weights of a split are zero or more, and not all zero.')
  }
  const sign = totalCents < 0 ? -1 : 1
  const size = Math.abs(totalCents)
  const exact = weights.map((weight) => (size * weight) / weightSum)
  const parts = exact.map((share) => Math.floor(share + 1e-9))
  let left = size - parts.reduce((sum, part) => sum + part, 0)
  const order = exact
    .map((share, index) => ({ index, rest: share - Math.floor(share + 1e-9) }))
    .sort((one, other) => other.rest - one.rest || one.index - other.index)
  for (const { index } of order) {
    if (left <= 0) break
    parts[index] = (parts[index] ?? 0) + 1
    left -= 1
  }
  return parts.map((part) => (part === 0 ? 0 : sign * part))
}

/**
 * Tax on one amount.
 *   amount * rate, carried exactly, rounded once, halves up
 * Source: Streamlined Sales and Use Tax Agreement, section 324 (to the third decimal, up above 4): the same as rounding the exact product half-up,
 * but for products that only reach a half beyond the third decimal, which the exact rule decides. Valid: rate in parts per million of the amount.
 */
export function taxCents(amountCents: number, ratePpm: number, rule: HalfRule = 'halfUp'): number {
  requireWhole(amountCents, 'An amount in cents')
  requireWhole(ratePpm, 'A tax rate in parts per million')
  return Number(roundedQuotient(BigInt(amountCents) * BigInt(ratePpm), 1_000_000n, rule))
}

export interface TaxedLine {
  readonly amountCents: number
  readonly ratePpm: number
}

/**
 * Tax of a whole quote, rounded on each line or once on each rate's sum.
 * Source: Streamlined Sales and Use Tax Agreement, section 324 (the seller may choose either). Valid: whole cents and parts per million.
 */
export function invoiceTaxCents(lines: readonly TaxedLine[], basis: 'perLine' | 'perInvoice'): number {
  if (basis === 'perLine') {
    return lines.reduce((sum, line) => sum + taxCents(line.amountCents, line.ratePpm), 0)
  }
  const amountByRate = new Map<number, number>()
  for (const line of lines) {
    amountByRate.set(line.ratePpm, (amountByRate.get(line.ratePpm) ?? 0) + line.amountCents)
  }
  return [...amountByRate].reduce((sum, [ratePpm, amountCents]) => sum + taxCents(amountCents, ratePpm), 0)
}

function requireWhole(value: number, what: string): void {
  if (!Number.isSafeInteger(value)) throw new RangeError(`${what} is a whole number, not ${value}.`)
}
