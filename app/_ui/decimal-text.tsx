import type { ReactNode } from 'react'

const number = /^[+\-−]?[\d ,\u00a0\u202f]*(?:\.(\d+))?$/

function places(value: ReactNode): number | null {
  if (typeof value !== 'string' && typeof value !== 'number') return null
  const found = number.exec(String(value))
  return found ? (found[1]?.length ?? 0) : null
}

/** The most decimals among the values that are plain numbers. */
export function decimalPlaces(values: readonly ReactNode[]): number {
  return values.reduce<number>((most, value) => Math.max(most, places(value) ?? 0), 0)
}

/** A number filled out with blanks as wide as figures, so that decimal points stand under each other. */
export function DecimalText({ value, places: wanted }: { value: ReactNode; places: number }) {
  const has = places(value)
  if (has === null || has === wanted) return <>{value}</>
  const blanks = (has === 0 ? '\u2008' : '') + '\u2007'.repeat(wanted - has)
  return (
    <>
      {value}
      <span className="pad" aria-hidden="true">
        {blanks}
      </span>
    </>
  )
}
