import { formatForce } from '@/lib/core/format'
import { cleanTyped, readAmount, refuse, splitSign, splitUnit } from '@/lib/core/typed/number-text'
import type { PressTon } from '@/lib/core/units'
import { NEWTON_PER_KIP, NEWTON_PER_POUND_FORCE, pressTons } from '@/lib/core/units'

export type ForceUnit = 'kN' | 'lbf' | PressTon

export type ForceChoice = Readonly<{ ton: PressTon; label: string; forceKn: number }>

/** A force; or a question, when "tons" were typed and nobody has said which. */
export type ReadForce = Readonly<
  | { ok: true; forceKn: number; echo: string }
  | { ok: false; message: string; choices?: readonly ForceChoice[] }
>

const forceKnPer: Readonly<Record<string, number>> = {
  kn: 1,
  n: 0.001,
  mn: 1000,
  lbf: NEWTON_PER_POUND_FORCE / 1000,
  lb: NEWTON_PER_POUND_FORCE / 1000,
  lbs: NEWTON_PER_POUND_FORCE / 1000,
  kip: NEWTON_PER_KIP / 1000,
  kips: NEWTON_PER_KIP / 1000,
  kgf: pressTons.metric.kilonewtons / 1000,
}

const TON = /^(?:tons?|tonf|tons?-force|t)$/
const namedTons: readonly (readonly [RegExp, PressTon])[] = [
  [/^(?:us|u\.s\.|short|us short) ?(?:tons?|tonf)$/, 'usShort'],
  [/^(?:metric ?(?:tons?|tonf)|tonnes?|tonne-force|tf)$/, 'metric'],
  [/^(?:long|uk|imperial) ?(?:tons?|tonf)$/, 'long'],
]

/**
 * A force: `89 kN`, `20000 lbf`, `20 US ton`, `20 metric ton`. A bare `20 ton` comes back as a question with three choices, unless tonIs says
 * which ton the shop's press plate means. A bare number is in the shop's unit.
 */
export function readForce(text: string, options: { defaultUnit: ForceUnit; tonIs?: PressTon }): ReadForce {
  const cleaned = cleanTyped(text)
  if (!cleaned.ok) return cleaned
  const { sign, rest } = splitSign(cleaned.text)
  const { amount, unit } = splitUnit(rest)
  const read = readAmount(amount)
  if (!read.ok) return read
  if (sign < 0) return refuse('A force can’t be less than 0 here')
  if (read.value > 1e9) return refuse('Too large')
  const unitName = unit || options.defaultUnit.toLowerCase()
  const ton = tonOf(unitName, options.tonIs)
  if (ton === 'ask') return askWhichTon(read.value)
  const factor = ton
    ? pressTons[ton].kilonewtons
    : Object.hasOwn(forceKnPer, unitName)
      ? forceKnPer[unitName]
      : undefined
  if (factor === undefined)
    return refuse(`"${unit}" is not a unit of force here: use kN, lbf, kip, US ton, metric ton or long ton`)
  const forceKn = read.value * factor
  return {
    ok: true,
    forceKn,
    echo: `${formatForce(forceKn, { unit: 'kN', decimals: 3 })} (${formatForce(forceKn, { unit: 'lbf', decimals: 0 })})`,
  }
}

function tonOf(unitName: string, tonIs: PressTon | undefined): PressTon | 'ask' | undefined {
  const byDefaultUnit = (Object.keys(pressTons) as PressTon[]).find((ton) => ton.toLowerCase() === unitName)
  if (byDefaultUnit) return byDefaultUnit
  const named = namedTons.find(([pattern]) => pattern.test(unitName))
  if (named) return named[1]
  return TON.test(unitName) ? (tonIs ?? 'ask') : undefined
}

function askWhichTon(tons: number): ReadForce {
  const choices = (Object.keys(pressTons) as PressTon[]).map((ton) => ({
    ton,
    label: pressTons[ton].label,
    forceKn: tons * pressTons[ton].kilonewtons,
  }))
  const words = choices
    .map((choice) => `${choice.label} ${formatForce(choice.forceKn, { unit: 'kN', decimals: 1 })}`)
    .join(', ')
  return { ok: false, message: `Which ton? ${words}`, choices }
}
