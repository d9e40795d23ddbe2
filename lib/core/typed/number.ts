import { formatNumber } from '@/lib/core/format'
import type { Read } from '@/lib/core/typed/number-text'
import { cleanTyped, readAmount, refuse, signed, splitSign } from '@/lib/core/typed/number-text'

/** Largest plain number read, either way. */
export const MAX_NUMBER = 1e12

/** A number without a unit: `12.5`, `12,5`, `-3`, `1 234.5`, `3/4`. */
export function readNumber(text: string): Read<{ value: number }> {
  const cleaned = cleanTyped(text)
  if (!cleaned.ok) return cleaned
  const { sign, rest } = splitSign(cleaned.text)
  const read = readAmount(rest)
  if (!read.ok) return read
  if (read.value > MAX_NUMBER) return refuse('Too large')
  const value = signed(sign, read.value)
  return { ok: true, value, echo: formatNumber(value, { decimals: 6 }) }
}
