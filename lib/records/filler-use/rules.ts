import { formatMass } from '@/lib/core/format'
import { shopUnits } from '@/lib/core/shop-format'
import type { LengthUnit } from '@/lib/core/units'

export type JobFillerMove = {
  kind: 'bought' | 'poured' | 'recovered' | 'lost' | 'counted'
  /** Signed as in the pot's ledger: out of the pot is negative. */
  massKg: number
}

export type JobFiller = {
  pouredKg: number
  recoveredKg: number
  /** Skimmed or spilt beside the tubes. */
  spiltKg: number
  /** Poured and not back: in the tubes still, or gone with them. */
  outKg: number
  /** Of what was poured; null before the first pour. */
  outFraction: number | null
}

/** What a job has of one pot's alloy. */
export function jobFiller(moves: readonly JobFillerMove[]): JobFiller {
  const sum = (kind: JobFillerMove['kind']) =>
    moves.reduce((total, move) => (move.kind === kind ? total + Math.abs(move.massKg) : total), 0)
  const pouredKg = sum('poured')
  const recoveredKg = sum('recovered')
  const outKg = Math.max(0, pouredKg - recoveredKg)
  return {
    pouredKg,
    recoveredKg,
    spiltKg: sum('lost'),
    outKg,
    outFraction: pouredKg > 0 ? outKg / pouredKg : null,
  }
}

/** A gram: less than any scale in the shop tells. */
const scaleKg = 0.001

/** Why so much can't come back from a job; null where it can. */
export function recoveredRefusal(massKg: number, filler: JobFiller, unit: LengthUnit): string | null {
  if (massKg <= filler.outKg + scaleKg) return null
  const show = (mass: number) => formatMass(mass, { unit: shopUnits[unit].mass, decimals: 3 })
  return `Only ${show(filler.outKg)} of this pot is out on this job; met: ${show(massKg)}. Weigh again, or enter the pour first.`
}
