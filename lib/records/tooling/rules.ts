import { formatMass } from '@/lib/core/format'
import { shopUnits } from '@/lib/core/shop-format'
import type { LengthUnit } from '@/lib/core/units'

export type FillerMoveName = 'bought' | 'poured' | 'recovered' | 'lost' | 'counted'

export const moveWords: Readonly<Record<FillerMoveName, { label: string; meaning: string }>> = {
  bought: { label: 'Bought', meaning: 'new alloy into the pot' },
  poured: { label: 'Poured', meaning: 'out of the pot into tubes' },
  recovered: { label: 'Recovered', meaning: 'melted out of tubes, back in the pot' },
  lost: { label: 'Lost', meaning: 'skimmed off or spilt, gone from the pot' },
  counted: { label: 'Counted', meaning: 'the pot weighed: sets what is in it' },
}

/** What a pot holds and what has left it, in kg. */
export type FillerBalance = { inPotKg: number; pouredKg: number; recoveredKg: number; lostKg: number }

/** A gram: less than any scale in the shop tells. */
const scaleKg = 0.001

/**
 * The signed mass that a move enters in the ledger: into the pot is positive. A count enters what is missing from, or
 * over, what the ledger says. Says why when the move cannot be.
 */
export function ledgerMassKg(
  move: { kind: FillerMoveName; massKg: number },
  balance: FillerBalance,
  unit: LengthUnit,
): { ok: true; massKg: number } | { ok: false; message: string } {
  const show = (massKg: number) => formatMass(massKg, { unit: shopUnits[unit].mass })
  const { kind, massKg } = move
  if (kind === 'counted') return { ok: true, massKg: massKg - balance.inPotKg }
  if (!(massKg > 0)) return { ok: false, message: 'Type a mass above 0' }
  if (kind === 'bought') return { ok: true, massKg }
  if (kind === 'recovered') {
    const outKg = balance.pouredKg - balance.recoveredKg
    if (massKg > outKg + scaleKg) {
      return {
        ok: false,
        message: `Only ${show(Math.max(0, outKg))} is out of the pot; met: ${show(massKg)}. Weigh again, or count the pot.`,
      }
    }
    return { ok: true, massKg }
  }
  if (massKg > balance.inPotKg + scaleKg) {
    const verb = kind === 'poured' ? 'pour' : 'lose'
    return {
      ok: false,
      message: `The pot holds ${show(Math.max(0, balance.inPotKg))}; you ${verb} ${show(massKg)}. Count the pot if that is wrong.`,
    }
  }
  return { ok: true, massKg: -massKg }
}

/** The share of all that was ever poured that has not come back, or null before the first pour. Alloy still in tubes counts as gone. */
export function notReturnedFraction(balance: FillerBalance): number | null {
  if (balance.pouredKg <= 0) return null
  return Math.max(0, balance.pouredKg - balance.recoveredKg) / balance.pouredKg
}
