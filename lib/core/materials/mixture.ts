export type ElementSymbol = 'Bi' | 'Pb' | 'Sn' | 'Cd' | 'In' | 'Sb'

export type CompositionPct = Readonly<Partial<Record<ElementSymbol, number>>>

type ElementData = Readonly<{ densityKgM3: number; specificHeatJPerKgK: number }>

/** Density at room temperature and specific heat of the elements fusible alloys are made of. Source: open periodic-table data set. */
export const elementData: Readonly<Record<ElementSymbol, ElementData>> = {
  Bi: { densityKgM3: 9780, specificHeatJPerKgK: 122 },
  Pb: { densityKgM3: 11_340, specificHeatJPerKgK: 129 },
  Sn: { densityKgM3: 7365, specificHeatJPerKgK: 228 },
  Cd: { densityKgM3: 8650, specificHeatJPerKgK: 231 },
  In: { densityKgM3: 7310, specificHeatJPerKgK: 233 },
  Sb: { densityKgM3: 6697, specificHeatJPerKgK: 207 },
}

/** How far from 100 percent printed parts may add up to. */
export const COMPOSITION_SLACK_PCT = 0.2

/** What 100.2 less 100 is more than 0.2, as a computer counts. */
const FLOAT_SLACK_PCT = 1e-9

/** How far real fusible alloys were seen to lie from the rule of mixtures, as fractions. */
export const MIXTURE_BAND = { lowFraction: -0.05, highFraction: 0.01 } as const

/**
 * What the printed parts of an alloy add up to, and whether that is the whole of it.
 * Percent by mass, each 0 to 100; nothing is thrown. Source: 100 within COMPOSITION_SLACK_PCT, as printed tables round.
 */
export function sumOfParts(compositionPct: CompositionPct): { sumPct: number; isWhole: boolean } {
  const parts = Object.values(compositionPct)
  const sumPct = parts.reduce((sum, pct) => sum + pct, 0)
  return {
    sumPct,
    isWhole:
      parts.every((pct) => pct >= 0) && Math.abs(sumPct - 100) <= COMPOSITION_SLACK_PCT + FLOAT_SLACK_PCT,
  }
}

function readParts(compositionPct: CompositionPct): readonly (readonly [ElementSymbol, number])[] {
  const parts = (Object.keys(elementData) as ElementSymbol[]).flatMap((symbol) => {
    const pct = compositionPct[symbol] ?? 0
    if (!(pct >= 0)) throw new RangeError(`${symbol} can’t be ${pct} percent of an alloy`)
    return pct > 0 ? [[symbol, pct] as const] : []
  })
  const { sumPct, isWhole } = sumOfParts(Object.fromEntries(parts))
  if (!isWhole)
    throw new RangeError(
      `an alloy’s parts add up to 100 percent, within ${COMPOSITION_SLACK_PCT}; these add up to ${sumPct}`,
    )
  return parts
}

/**
 * Density of an alloy from its composition by mass.
 *   density = 100 / sum(w_i / density_i)
 * Source: volumes add (harmonic rule by mass fraction); the arithmetic mean of densities is wrong for mass fractions.
 * Valid: fusible bismuth alloys, from 5 percent under to 1 percent over (MIXTURE_BAND).
 */
export function densityByMixtureKgM3(compositionPct: CompositionPct): number {
  return (
    100 /
    readParts(compositionPct).reduce((sum, [symbol, pct]) => sum + pct / elementData[symbol].densityKgM3, 0)
  )
}

/** The rule-of-mixtures density with the band real alloys fall in. Replace it with the weight of a slug the shop cast itself. */
export function densityBandKgM3(compositionPct: CompositionPct): {
  low: number
  expected: number
  high: number
} {
  const expected = densityByMixtureKgM3(compositionPct)
  return {
    low: expected * (1 + MIXTURE_BAND.lowFraction),
    expected,
    high: expected * (1 + MIXTURE_BAND.highFraction),
  }
}

/**
 * Specific heat of a solid alloy: the mass-weighted mean of its elements'.
 *   c = sum(w_i c_i) / 100
 * Source: Kopp's rule. Valid: solid, near room temperature.
 */
export function specificHeatByMixtureJPerKgK(compositionPct: CompositionPct): number {
  return (
    readParts(compositionPct).reduce(
      (sum, [symbol, pct]) => sum + pct * elementData[symbol].specificHeatJPerKgK,
      0,
    ) / 100
  )
}
