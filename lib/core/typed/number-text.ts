/** Longest text read as one quantity. Anything longer is refused unread. */
export const MAX_TYPED_LENGTH = 64

/** What was understood, with an echo to show beside the field; or why nothing was, in words for the person who typed it. */
export type Read<Value> = Readonly<({ ok: true; echo: string } & Value) | { ok: false; message: string }>

export type Refusal = Readonly<{ ok: false; message: string }>

export const refuse = (message: string): Refusal => ({ ok: false, message })

const vulgarFractions: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
  '⅓': '1/3',
  '⅔': '2/3',
}

/**
 * Typed text with the characters keyboards and word processors put in made plain: curly and true primes to ' and ", any minus to -,
 * any space to one blank, ½ to 1/2. Refused when empty or longer than MAX_TYPED_LENGTH.
 */
export function cleanTyped(text: string): Readonly<{ ok: true; text: string }> | Refusal {
  if (text.length > MAX_TYPED_LENGTH) return refuse(`Too long: at most ${MAX_TYPED_LENGTH} characters`)
  const plain = text
    .replace(/[½¼¾⅛⅜⅝⅞⅓⅔]/g, (glyph) => ` ${vulgarFractions[glyph] ?? ''}`)
    .replace(/[′’‘‛´`]/g, "'")
    .replace(/[″“”]|''/g, '"')
    .replace(/[−–—‐‑]/g, '-')
    .replace(/[⁄∕]/g, '/')
    .replace(/º/g, '°')
    .replace(/\s+/g, ' ')
    .trim()
  return plain === '' ? refuse('Nothing typed') : { ok: true, text: plain }
}

export type Amount = Readonly<{ ok: true; value: number; isFraction: boolean }> | Refusal

const MIXED = /^(?:(\d{1,9})(?: ?- ?| ))?(\d{1,9}) ?\/ ?(\d{1,9})$/
const PLAIN = /^(?:\d+(?:\.\d*)?|\.\d+)$/
const GROUPED_WITH_SPACES = /^\d{1,3}(?: \d{3})+(?:[.,]\d+)?$/
const GROUPED_WITH_COMMAS = /^\d{1,3}(?:,\d{3})+\.\d*$|^\d{1,3}(?:,\d{3}){2,}$/
const GROUPED_WITH_DOTS = /^\d{1,3}(?:\.\d{3})+,\d+$|^\d{1,3}(?:\.\d{3}){2,}$/
const COMMA_DECIMAL = /^(?:\d+,\d*|,\d+)$/
const COMMA_EITHER = /^[1-9]\d{0,2},\d{3}$/

/** Decimal text with grouping and a decimal comma undone: `1 234,5` and `1,234.5` are `1234.5`. Undefined where it is no plain number. */
export function plainDecimal(text: string): string | undefined {
  if (PLAIN.test(text)) return text
  if (GROUPED_WITH_SPACES.test(text)) return text.replace(/ /g, '').replace(',', '.')
  if (GROUPED_WITH_COMMAS.test(text)) return text.replace(/,/g, '')
  if (GROUPED_WITH_DOTS.test(text)) return text.replace(/\./g, '').replace(',', '.')
  if (COMMA_DECIMAL.test(text)) return text.replace(',', '.')
  return undefined
}

/**
 * An unsigned number in cleaned text: `38.1`, `38,1`, `1 234.5`, `3/4`, `1-1/2`, `1 1/2`.
 * `1,500` is refused, because it is 1500 to one reader and 1.5 to the next.
 */
export function readAmount(text: string): Amount {
  const trimmed = text.trim()
  const mixed = MIXED.exec(trimmed)
  if (mixed) {
    const whole = Number(mixed[1] ?? 0)
    const numerator = Number(mixed[2])
    const denominator = Number(mixed[3])
    if (denominator === 0) return refuse('A fraction can’t be over 0')
    if (mixed[1] !== undefined && numerator >= denominator)
      return refuse(`"${trimmed}" has a fraction of 1 or more after a whole number`)
    return { ok: true, value: whole + numerator / denominator, isFraction: true }
  }
  if (COMMA_EITHER.test(trimmed)) {
    return refuse(
      `"${trimmed}" may be ${trimmed.replace(',', '')} or ${trimmed.replace(',', '.')}: write one of those`,
    )
  }
  const decimal = plainDecimal(trimmed)
  if (decimal === undefined) return refuse(`"${trimmed}" is not a number`)
  const value = Number(decimal)
  return Number.isFinite(value)
    ? { ok: true, value, isFraction: false }
    : refuse(`"${trimmed}" is not a number`)
}

/** A leading sign split off cleaned text. */
export function splitSign(text: string): Readonly<{ sign: 1 | -1; rest: string }> {
  if (text.startsWith('-')) return { sign: -1, rest: text.slice(1).trim() }
  return { sign: 1, rest: text.startsWith('+') ? text.slice(1).trim() : text }
}

/** The number a text begins with and the unit after it: `1 1/2 in` is `1 1/2` and `in`. */
export function splitUnit(text: string): Readonly<{ amount: string; unit: string }> {
  const unitAt = text.search(/[^\d.,/ +-]/)
  return unitAt < 0
    ? { amount: text, unit: '' }
    : { amount: text.slice(0, unitAt).trim(), unit: text.slice(unitAt).trim().toLowerCase() }
}

/** A number with its sign put on, never -0. */
export const signed = (sign: 1 | -1, value: number): number => (value === 0 ? 0 : sign * value)
