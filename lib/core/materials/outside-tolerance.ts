import type { SourceStatus } from '@/lib/core/materials/provenance'
import type { Tolerance, ToleratedTube, TubeStandard } from '@/lib/core/materials/tube-tolerance'
import { nominalInch } from '@/lib/core/materials/tube-tolerance'
import { MM_PER_INCH } from '@/lib/core/units'

type Row = readonly [underIn: number, minusIn: number, plusIn: number]

const even = (underIn: number, sizeIn: number): Row => [underIn, sizeIn, sizeIn]

/** Each table's last row is used above it, with a note. Bounds are "under", inches. */
const roundTables = {
  'h35.2-extruded': [even(1, 0.02), even(2, 0.025), even(4, 0.03), even(6, 0.05)],
  'h35.2-drawn': [even(1.0005, 0.004), even(2.0005, 0.005), even(3.0005, 0.006)],
  'a513-1': [even(1.1255, 0.0035), even(2.0005, 0.005), even(2.5005, 0.006), even(3.0005, 0.008)],
  'a513-5': [
    [1.6995, 0, 0.005],
    [2.0995, 0, 0.006],
    [2.4995, 0, 0.007],
    [3.2995, 0, 0.009],
  ],
} as const satisfies Record<string, readonly Row[]>

const shapedTables = {
  'h35.2-extruded': [even(1, 0.014), even(2, 0.018), even(4, 0.025), even(5, 0.035)],
  a500: [even(2.5005, 0.02), even(3.5005, 0.025), even(5.5005, 0.03)],
} as const satisfies Record<string, readonly Row[]>

const OUTSIDE_TABLE = 'The table has no row for this size: its nearest row is used.'

function fromTable(
  table: readonly Row[],
  outsideIn: number,
  source: string,
  status: SourceStatus,
): Tolerance {
  const found = table.find(([underIn]) => outsideIn < underIn)
  const row = found ?? table[table.length - 1]
  if (!row) throw new RangeError(`${source} has no rows`)
  return {
    minusMm: row[1] * MM_PER_INCH,
    plusMm: row[2] * MM_PER_INCH,
    source,
    status,
    ...(!found && { note: OUTSIDE_TABLE }),
  }
}

const plusMinus = (sizeMm: number, source: string, status: SourceStatus, note?: string): Tolerance => ({
  minusMm: sizeMm,
  plusMm: sizeMm,
  source,
  status,
  ...(note && { note }),
})

/**
 * How far the outside (diameter of round tube, side of square or rectangular) may lie from its nominal value, at any point.
 * Source: the standard named, as quoted in trade tables; ANSI H35.2 drawn and EN 10305-1 from memory. Where a standard has no table
 * here for the shape, 1 percent is taken and the source says so.
 */
export function outsideToleranceMm(tube: ToleratedTube, standard: TubeStandard): Tolerance {
  const { outsideMm, shape } = tube
  if (!(outsideMm > 0)) throw new RangeError('a tube needs an outside size above 0')
  const outsideIn = nominalInch(outsideMm)
  const isRound = shape === 'round'
  const assumed = plusMinus(0.01 * outsideMm, 'Common practice, 1 percent, no source', 'memory')
  switch (standard) {
    case 'h35.2-extruded':
      return isRound
        ? fromTable(
            roundTables['h35.2-extruded'],
            outsideIn,
            'ANSI H35.2, extruded round tube, any point',
            'secondary',
          )
        : fromTable(
            shapedTables['h35.2-extruded'],
            outsideIn,
            'ANSI H35.2, extruded tube, width at corners',
            'secondary',
          )
    case 'h35.2-drawn':
      return isRound
        ? fromTable(roundTables['h35.2-drawn'], outsideIn, 'ANSI H35.2, drawn tube', 'memory')
        : assumed
    case 'a513-1':
      return isRound ? fromTable(roundTables['a513-1'], outsideIn, 'ASTM A513 type 1', 'secondary') : assumed
    case 'a513-5':
      return isRound ? fromTable(roundTables['a513-5'], outsideIn, 'ASTM A513 type 5', 'secondary') : assumed
    case 'a500':
      return isRound
        ? plusMinus((outsideIn <= 1.9 ? 0.005 : 0.0075) * outsideMm, 'ASTM A500, round', 'secondary')
        : fromTable(shapedTables.a500, outsideIn, 'ASTM A500, shaped', 'secondary')
    case 'a554': {
      if (!isRound) return assumed
      const sizeMm = outsideIn <= 1 ? 0.13 : outsideIn <= 1.5 ? 0.2 : 0.28
      return plusMinus(sizeMm, 'ASTM A554', 'secondary', outsideIn > 2 ? OUTSIDE_TABLE : undefined)
    }
    case 'a269': {
      if (!isRound) return assumed
      return plusMinus((outsideIn < 1.5 ? 0.005 : 0.01) * MM_PER_INCH, 'ASTM A269', 'secondary')
    }
    case 'en10219':
      return isRound
        ? plusMinus(Math.min(Math.max(0.01 * outsideMm, 0.5), 10), 'EN 10219-2, round', 'secondary')
        : assumed
    case 'en10210':
      return isRound
        ? plusMinus(Math.min(Math.max(0.01 * outsideMm, 0.5), 10), 'EN 10210-2, round', 'secondary')
        : assumed
    case 'en10305-1':
      return isRound && outsideMm > 30 && outsideMm <= 40 ? plusMinus(0.15, 'EN 10305-1', 'memory') : assumed
    case 'b338':
      return isRound
        ? plusMinus(
            outsideMm < 25.4 ? 0.102 : 0.127,
            'ASTM B338',
            'secondary',
            outsideMm > 38.1 ? OUTSIDE_TABLE : undefined,
          )
        : assumed
    case 'assumed-10-percent':
      return assumed
  }
}
