import { formatLength, formatNumber, THIN_SPACE } from '@/lib/core/format'
import { readLength } from '@/lib/core/typed/length'
import { inchFromMm, type LengthUnit, MM_PER_FOOT } from '@/lib/core/units'

export type LotSize = {
  shape: 'square' | 'rectangular' | 'round'
  widthMm: number
  heightMm: number
  wallMm: number
}

const sizeNumber = (mm: number, unit: LengthUnit): string =>
  unit === 'in' ? formatNumber(inchFromMm(mm), { decimals: 3 }) : formatNumber(mm, { decimals: 2 })

/** How the shop calls a tube: 'square 1.5 × 0.125 in', 'rectangular 60 × 40 × 3 mm', 'round 1.5 × 0.12 in'. */
export function sizeWords(size: LotSize, unit: LengthUnit): string {
  const sides =
    size.shape === 'rectangular' ? [size.widthMm, size.heightMm, size.wallMm] : [size.widthMm, size.wallMm]
  return `${size.shape} ${sides.map((mm) => sizeNumber(mm, unit)).join(' × ')}${THIN_SPACE}${unit}`
}

/** One word of a search: as text, as a length, or as both where it may be either: 6061 is an alloy before it is a size. */
export type SearchTerm = { text: string | null; lengthMm: number | null }

/** The words of a search for stock: '6061 1.5 x 1/8 H2291' asks for four things at once. */
export function searchTerms(search: string, unit: LengthUnit): SearchTerm[] {
  return search
    .trim()
    .split(/\s+(?:[x×]\s+)?|(?<=\d)[x×](?=\d)/i)
    .filter((word) => word !== '' && !/^[x×]$/i.test(word))
    .slice(0, 8)
    .map((text) => {
      const read = readLength(text, { defaultUnit: unit })
      if (!read.ok) return { text, lengthMm: null }
      return { text: /^\d{3,}$/.test(text) ? text : null, lengthMm: read.lengthMm }
    })
}

/** Sizes that differ by less than this are one size: what an inch rounded to three places leaves. */
export const sameSizeMm = 0.05

export type RackPiece = { lengthMm: number; isOffcut: boolean }

/** What lies there, longest first: '3 of 6000 mm, offcuts of 1210 mm, 640 mm'. */
export function rackWords(pieces: readonly RackPiece[], unit: LengthUnit): string {
  if (pieces.length === 0) return 'none left'
  const counts = new Map<string, number>()
  const sorted = [...pieces].sort((one, other) => other.lengthMm - one.lengthMm)
  for (const { lengthMm } of sorted.filter((piece) => !piece.isOffcut)) {
    const length = formatLength(lengthMm, unit)
    counts.set(length, (counts.get(length) ?? 0) + 1)
  }
  const bars = [...counts].map(([length, count]) => `${count} of ${length}`)
  const offcuts = sorted.filter((piece) => piece.isOffcut).map(({ lengthMm }) => formatLength(lengthMm, unit))
  const shown = offcuts.slice(0, 4).join(', ')
  const more = offcuts.length > 4 ? ` and ${offcuts.length - 4} more` : ''
  return [...bars, ...(offcuts.length > 0 ? [`offcuts of ${shown}${more}`] : [])].join(', ')
}

/** The price of a length as the shop buys it: by the foot where it works in inches. */
export function priceByUnit(priceCentsPerM: number, unit: LengthUnit): { cents: number; by: 'm' | 'ft' } {
  return unit === 'mm'
    ? { cents: priceCentsPerM, by: 'm' }
    : { cents: Math.round((priceCentsPerM * MM_PER_FOOT) / 1000), by: 'ft' }
}

/** Where a bar stands, in a word and what it waits for. */
export function pieceStanding(piece: {
  usedAt: Date | null
  lastWord: string | null
  job: { number: string } | null
}): string {
  if (piece.usedAt !== null) return piece.lastWord === 'scrapped' ? 'scrapped' : 'cut up'
  return piece.job === null ? 'on the rack' : `reserved for ${piece.job.number}`
}

/** What may be left of a bar after cutting: shorter than it was. Says why not. */
export function refusedLeft(barMm: number, leftMm: number | null, unit: LengthUnit): string | null {
  if (leftMm === null || leftMm < barMm) return null
  return `Allowed: less than the bar, ${formatLength(barMm, unit)}; met: ${formatLength(leftMm, unit)}`
}
