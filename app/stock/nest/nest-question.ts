import type { NestInput } from '@/lib/core/stock/nest-plan'
import type { NestAsked } from '@/lib/records/stock/schema'

type Query = Readonly<Record<string, string | string[] | undefined>>

/** What stands in the fields of the plan's form, as texts; the address holds all of it. */
export type NestTexts = {
  tube: string
  pieces: { lengthMm: string; pieceCount: string }[]
  buyable: { lengthMm: string; priceCents: string }[]
  kerfMm: string
  endTrimMm: string
  keepFromMm: string
  offcutWorthPct: string
}

const many = (value: string | string[] | undefined): string[] =>
  (value === undefined ? [] : [value].flat()).slice(0, 20).map((text) => text.slice(0, 64).trim())

/** The form's fields out of an address, empty rows left out, with the shop's settings where the address says nothing. */
export function nestTexts(query: Query, standard: Omit<NestTexts, 'tube' | 'pieces' | 'buyable'>): NestTexts {
  const one = (name: keyof typeof standard) => many(query[name])[0] ?? standard[name]
  const counts = many(query.count)
  const prices = many(query.buyPrice)
  return {
    tube: many(query.tube)[0] ?? '',
    pieces: many(query.length)
      .map((lengthMm, index) => ({ lengthMm, pieceCount: counts[index] ?? '' }))
      .filter(({ lengthMm, pieceCount }) => lengthMm !== '' || pieceCount !== ''),
    buyable: many(query.buyLength)
      .map((lengthMm, index) => ({ lengthMm, priceCents: prices[index] ?? '' }))
      .filter(({ lengthMm, priceCents }) => lengthMm !== '' || priceCents !== ''),
    kerfMm: one('kerfMm'),
    endTrimMm: one('endTrimMm'),
    keepFromMm: one('keepFromMm'),
    offcutWorthPct: one('offcutWorthPct'),
  }
}

type FreeBar = {
  id: number
  lengthMm: number
  isOffcut: boolean
  lot: { priceCentsPerM: number }
}

/**
 * The cutting problem: whole bars at what they cost, offcuts at what an offcut is worth, so that using one up is cheaper
 * than starting a bar, and a long leftover of a bar counts for something.
 */
export function nestInput(asked: NestAsked, free: readonly FreeBar[], latestCentsPerM: number): NestInput {
  const worth = asked.offcutWorthPct / 100
  return {
    pieces: asked.pieces.map(({ lengthMm, pieceCount }, index) => ({
      key: pieceLetter(index),
      lengthMm,
      pieceCount,
    })),
    rack: free.map((bar) => ({
      key: `rack-${bar.id}`,
      lengthMm: bar.lengthMm,
      kind: bar.isOffcut ? 'offcut' : 'bar',
      costCents: Math.round((bar.lengthMm * bar.lot.priceCentsPerM * (bar.isOffcut ? worth : 1)) / 1000),
    })),
    buyable: asked.buyable.map(({ lengthMm, priceCents }, index) => ({
      key: `buy-${index}`,
      lengthMm,
      priceCents,
    })),
    kerfMm: asked.kerfMm,
    endTrimMm: asked.endTrimMm,
    trimFarEnd: false,
    keepOffcutFromMm: asked.keepFromMm,
    offcutValueCentsPerM: latestCentsPerM * worth,
  }
}

/** A, B, C ... for the lengths to cut. */
export function pieceLetter(index: number): string {
  return String.fromCharCode(65 + index)
}
