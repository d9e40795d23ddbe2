import { minorUnitDigits } from '@/lib/core/cost/money'
import { formatMoney } from '@/lib/core/format'
import type { Read } from '@/lib/core/typed/number-text'
import { cleanTyped, plainDecimal, refuse, splitSign } from '@/lib/core/typed/number-text'

const currencySigns: Readonly<Record<string, RegExp>> = {
  $: /^(?:USD|CAD|AUD|NZD|SGD|HKD|MXN|CLP)$/,
  '€': /^EUR$/,
  '£': /^GBP$/,
  '¥': /^(?:JPY|CNY)$/,
  '₩': /^KRW$/,
}
const MARKED = /^([a-z]{3}|[^\d.,a-z -]{1,2})? ?([\d][\d., ]*|[.,]\d+) ?([a-z]{3}|[^\d.,a-z -]{1,2})?$/i

/**
 * An amount of money in whole smallest units of its currency, never by way of a float: `1234.5`, `$1,234.50`, `1 234,50 €`, `USD 12`.
 * More decimals than the currency has are refused, not rounded. Source: ISO 4217 minor units.
 */
export function readMoney(
  text: string,
  options: { currency: string; locale?: string },
): Read<{ amountCents: number }> {
  const cleaned = cleanTyped(text)
  if (!cleaned.ok) return cleaned
  const { currency } = options
  const first = splitSign(cleaned.text)
  const parts = MARKED.exec(first.rest)
  const inner =
    parts?.[1] === undefined && first.sign > 0 ? /^([^\d.,a-z -]) ?-(.*)$/i.exec(first.rest) : null
  if (inner) return readMoney(`-${inner[1] ?? ''}${inner[2] ?? ''}`, options)
  if (!parts) return refuse(`"${cleaned.text}" is not an amount of money`)
  const marks = [parts[1], parts[3]].filter((mark) => mark !== undefined)
  const wrong = marks.find((mark) => !isMarkOf(mark, currency))
  if (wrong !== undefined) return refuse(`"${wrong}" is not ${currency}, which this is priced in`)
  const digits = minorUnitDigits(currency)
  const decimal = decimalMoney((parts[2] ?? '').trim(), digits)
  if (typeof decimal !== 'string') return decimal
  const [whole = '', fraction = ''] = decimal.split('.')
  if (fraction.length > digits)
    return refuse(
      `${currency} has ${digits === 0 ? 'no' : digits} decimals: "${parts[2]}" has ${fraction.length}`,
    )
  const size = BigInt(`${whole || '0'}${fraction.padEnd(digits, '0')}`)
  if (size > BigInt(Number.MAX_SAFE_INTEGER)) return refuse('Too much money')
  const amountCents = size === 0n ? 0 : first.sign * Number(size)
  return {
    ok: true,
    amountCents,
    echo: formatMoney(amountCents, { currency, locale: options.locale ?? 'en-US' }),
  }
}

const isMarkOf = (mark: string, currency: string): boolean =>
  mark.toUpperCase() === currency ||
  (Object.hasOwn(currencySigns, mark) && (currencySigns[mark]?.test(currency) ?? false))

/** One comma and three digits is a thousand where the currency can't have three decimals, and a question where it can. */
function decimalMoney(text: string, digits: number): string | Readonly<{ ok: false; message: string }> {
  if (/^\d{1,3},\d{3}$/.test(text)) {
    if (digits < 3) return text.replace(',', '')
    return refuse(
      `"${text}" may be ${text.replace(',', '')} or ${text.replace(',', '.')}: write one of those`,
    )
  }
  return plainDecimal(text) ?? refuse(`"${text}" is not an amount of money`)
}
