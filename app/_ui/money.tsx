import { classNames } from './class-names'

/** Money as text from integer minor units: `1 234.50` of the currency, in its own number of decimals. */
export function moneyText(cents: number, currency: string, { whole = false } = {}): string {
  const format = new Intl.NumberFormat('en-US', {
    style: 'currency',
    currency,
    currencyDisplay: 'narrowSymbol',
  })
  const decimals = format.resolvedOptions().maximumFractionDigits ?? 2
  const amount = cents / 10 ** decimals
  if (!whole) return format.format(amount)
  return new Intl.NumberFormat('en-US', {
    style: 'currency',
    currency,
    currencyDisplay: 'narrowSymbol',
    maximumFractionDigits: 0,
    minimumFractionDigits: 0,
  }).format(amount)
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
