import { formatAngle, formatLength, formatNumber, formatPercent } from '@/lib/core/format'
import { shopFormat } from '@/lib/core/shop-format'
import type { LengthUnit } from '@/lib/core/units'
import type { Remedy } from '@/lib/core/ways/remedy'
import type { WayAnswer } from '@/lib/core/ways/way-answer'
import type { VerdictWord } from '../../_ui/verdict'
import { checkWords } from '../_spec/worst-verdict'

export const wayVerdicts: Readonly<Record<WayAnswer['word'], { word: VerdictWord; label: string }>> = {
  yes: { word: 'ok', label: 'yes' },
  doubtful: { word: 'warn', label: 'doubtful' },
  no: { word: 'refuse', label: 'no' },
}

const remedyWords: Readonly<Record<Remedy['change'], string>> = {
  span: 'a span of',
  radius: 'a centreline radius of at least',
  wall: 'a wall of',
}

/** What would make it a yes, in the shop's unit. */
export function remedyText({ change, valueMm, stepFraction, word }: Remedy, unit: LengthUnit): string {
  const value = formatLength(valueMm, unit)
  const now = formatLength(valueMm / (1 + stepFraction), unit)
  const still = word === 'doubtful' ? ' (then doubtful, no longer a no)' : ''
  return `${remedyWords[change]} ${value} instead of ${now}${still}`
}

/** How much of the deciding limit is used. */
export function marginText({ governing, word, way }: WayAnswer): string {
  if (way === 'outside') return 'theirs to say'
  if (!governing) return word === 'no' ? '–' : 'no limit in the way'
  const check = checkWords[governing.check].toLowerCase()
  const used = Math.round(governing.usedFraction * 100)
  if (used <= 100) return `${check}: ${used} % of its limit used`
  return used < 200
    ? `${check}: ${used - 100} % past its limit`
    : `${check}: ${formatNumber(governing.usedFraction, { decimals: 1 })} times its limit`
}

export function toleranceText({ tolerance }: WayAnswer): string {
  const { angleDeg, sectionLossFraction } = tolerance
  if (angleDeg === null && sectionLossFraction === null) return '–'
  return [
    angleDeg === null ? 'no angle to promise' : `±${formatAngle(angleDeg, { decimals: 1 })} on a first piece`,
    sectionLossFraction === null || sectionLossFraction < 0.0005
      ? ''
      : `section loses ${formatPercent(sectionLossFraction)}`,
  ]
    .filter(Boolean)
    .join('; ')
}

export function temperText({ temper }: WayAnswer, unit: LengthUnit): string {
  if (!temper) return '–'
  return `${temper.endTemper}, yield ${shopFormat(unit).stress(temper.yieldMPa)}`
}
