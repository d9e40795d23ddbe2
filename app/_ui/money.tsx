import { minorUnitDigits } from '@/lib/core/cost/money'
import { classNames } from './class-names'

/** Made once each: making one costs a hundred times what using it does. */
const formatters = new Map<string, Intl.NumberFormat>()

function formatterOf(currency: string, whole: boolean): Intl.NumberFormat {
  const key = `${currency} ${whole}`
  const known = formatters.get(key)
  if (known) return known
  const made = new Intl.NumberFormat('en-US', {
    style: 'currency',
    currency,
    currencyDisplay: 'narrowSymbol',
    // Decimals are the standard's and not the platform's, which has none for some: amounts are kept in the former.
    maximumFractionDigits: whole ? 0 : minorUnitDigits(currency),
    minimumFractionDigits: whole ? 0 : minorUnitDigits(currency),
  })
  formatters.set(key, made)
  return made
}

/** Money as text from integer minor units: `1 234.50` of the currency, in its own number of decimals. */
export function moneyText(cents: number, currency: string, { whole = false } = {}): string {
  return formatterOf(currency, whole).format(cents / 10 ** minorUnitDigits(currency))
}

export function Money({
  cents,
  currency,
  whole,
  className,
}: {
  cents: number
  currency: string
  whole?: boolean
  className?: string
}) {
  return <span className={classNames('money', className)}>{moneyText(cents, currency, { whole })}</span>
}
