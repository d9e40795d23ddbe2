import type { SourceStatus } from '@/lib/core/materials/provenance'
import { MM_PER_INCH } from '@/lib/core/units'

export type TubeStandard =
  | 'h35.2-extruded'
  | 'h35.2-drawn'
  | 'a513-1'
  | 'a513-5'
  | 'a500'
  | 'a554'
  | 'a269'
  | 'en10219'
  | 'en10210'
  | 'en10305-1'
  | 'b338'
  | 'assumed-10-percent'

/** Outside size is the diameter of round tube, the larger side of others. */
export type ToleratedTube = Readonly<{
  shape: 'round' | 'square' | 'rectangular'
  outsideMm: number
  wallMm: number
}>

/** How far a measure may lie under and over its nominal value, both as positive numbers. */
export type Tolerance = Readonly<{
  minusMm: number
  plusMm: number
  source: string
  status: SourceStatus
  note?: string
}>

type Band = readonly [minus: number, plus: number]

/** A size in inches as a table names it: 1.9 in that went through millimetres is 1.9 again, on its own side of a bound. */
export const nominalInch = (sizeMm: number): number => Math.round((sizeMm / MM_PER_INCH) * 1e6) / 1e6

const inches = ([minus, plus]: Band): { minusMm: number; plusMm: number } => ({
  minusMm: minus * MM_PER_INCH,
  plusMm: plus * MM_PER_INCH,
})
const both = (size: number): Band => [size, size]
const H35_2 = 'ANSI H35.2'
const NEXT_SIZE = 'The table has no row for this size: its nearest row is used.'

/** First row whose upper bound reaches the value; the last where none does, saying so. */
function rowFor<Row extends readonly [upTo: number, ...unknown[]]>(
  table: readonly [Row, ...Row[]],
  value: number,
): { row: Row; outside: boolean } {
  const found = table.find(([upTo]) => value <= upTo)
  return { row: found ?? table[table.length - 1] ?? table[0], outside: !found }
}

type ExtrudedWallRow = readonly [
  upToWallIn: number,
  under125: number,
  under3: number,
  under5: number,
  over5: number,
]

const extrudedMeanWallIn: readonly [ExtrudedWallRow, ...ExtrudedWallRow[]] = [
  [0.0615, 0.007, 0.008, 0.008, 0.01],
  [0.0775, 0.008, 0.008, 0.009, 0.012],
  [0.1245, 0.009, 0.009, 0.01, 0.015],
  [0.2495, 0.009, 0.009, 0.013, 0.02],
  [0.3745, 0.011, 0.011, 0.016, 0.025],
]
const drawnMeanWallIn: readonly [readonly [number, number], ...(readonly [number, number])[]] = [
  [0.0495, 0.003],
  [0.1205, 0.004],
  [0.2035, 0.005],
]

function extrudedMeanWall(outsideIn: number, wallIn: number): { sizeIn: number; outside: boolean } {
  const { row, outside } = rowFor(extrudedMeanWallIn, wallIn)
  const [, under125, under3, under5, over5] = row
  const sizeIn = outsideIn < 1.25 ? under125 : outsideIn < 3 ? under3 : outsideIn < 5 ? under5 : over5
  return { sizeIn, outside: outside || wallIn < 0.0465 }
}

/** Any-point limit about the tube's own mean wall: 10 percent of it, 0.010 to 0.060 in. */
const eccentricityIn = (meanWallIn: number): number => Math.min(Math.max(0.1 * meanWallIn, 0.01), 0.06)

/**
 * How far the wall anywhere on the tube may lie from its nominal value.
 * For ANSI H35.2 the deviation of the mean wall and the eccentricity stack, as they may on one tube.
 * Source: ANSI H35.2 (extruded, as quoted; drawn, from memory), ASTM A513, A500, A554, A269, B338, EN 10219-2, EN 10210-2, EN 10305-1,
 * each as quoted in trade tables unless the status says otherwise.
 */
export function wallToleranceMm(tube: ToleratedTube, standard: TubeStandard): Tolerance {
  const { wallMm } = tube
  if (!(wallMm > 0) || !(tube.outsideMm > 2 * wallMm))
    throw new RangeError('a tube needs a wall above 0 and a bore')
  const wallIn = nominalInch(wallMm)
  const outsideIn = nominalInch(tube.outsideMm)
  const fraction = (share: number, source: string, status: SourceStatus, note?: string): Tolerance => ({
    minusMm: share * wallMm,
    plusMm: share * wallMm,
    source,
    status,
    ...(note && { note }),
  })
  switch (standard) {
    case 'h35.2-extruded': {
      const { sizeIn, outside } = extrudedMeanWall(outsideIn, wallIn)
      const band = inches([
        sizeIn + eccentricityIn(wallIn - sizeIn),
        sizeIn + eccentricityIn(wallIn + sizeIn),
      ])
      return {
        ...band,
        source: `${H35_2}, extruded tube`,
        status: 'secondary',
        ...(outside && { note: NEXT_SIZE }),
      }
    }
    case 'h35.2-drawn': {
      const { row, outside } = rowFor(drawnMeanWallIn, wallIn)
      const anyPointIn = Math.max(0.1 * wallIn, row[1])
      return {
        ...inches(both(anyPointIn)),
        source: `${H35_2}, drawn tube`,
        status: 'memory',
        ...(outside && { note: NEXT_SIZE }),
      }
    }
    case 'a513-5':
      return domWall(outsideIn, wallIn)
    case 'a513-1':
      return fraction(
        0.1,
        'Common practice for welded tube, no source (A513 type 1 wall table not seen)',
        'memory',
      )
    case 'a500':
      return fraction(0.1, 'ASTM A500', 'secondary', 'The weld is left out of the limit.')
    case 'a554':
      return fraction(0.1, 'ASTM A554', 'secondary')
    case 'a269':
      return fraction(outsideIn < 0.5 ? 0.15 : 0.1, 'ASTM A269', 'secondary')
    case 'en10219':
      return wallMm <= 5
        ? fraction(0.1, 'EN 10219-2', 'secondary')
        : { minusMm: 0.5, plusMm: 0.5, source: 'EN 10219-2', status: 'secondary' }
    case 'en10210':
      return {
        ...fraction(0.1, 'EN 10210-2', 'secondary', 'The plus side is held by mass, 6 percent.'),
        plusMm: 0.06 * wallMm,
      }
    case 'en10305-1': {
      const sizeMm = Math.max(0.1 * wallMm, 0.1)
      return { minusMm: sizeMm, plusMm: sizeMm, source: 'EN 10305-1', status: 'memory' }
    }
    case 'b338':
      return fraction(
        0.1,
        'ASTM B338, average wall',
        'memory',
        'Ordered by lowest wall it is +20 percent, -0.',
      )
    case 'assumed-10-percent':
      return fraction(0.1, 'Common practice, no source', 'memory')
  }
}

function domWall(outsideIn: number, wallIn: number): Tolerance {
  const source = 'ASTM A513 type 5'
  const close = (nominalIn: number): boolean => Math.abs(wallIn - nominalIn) < 0.0015
  if (close(0.065) && outsideIn >= 0.875 && outsideIn <= 1.875) {
    return { ...inches([0.003, 0.002]), source, status: 'secondary' }
  }
  if (outsideIn > 1.875 && outsideIn <= 3.75) {
    if (close(0.12)) return { ...inches([0.004, 0.002]), source, status: 'secondary' }
    if (close(0.083)) return { ...inches([0.003, 0.003]), source, status: 'secondary' }
  }
  const assumedMm = 0.05 * wallIn * MM_PER_INCH
  return {
    minusMm: assumedMm,
    plusMm: assumedMm,
    source: `${source}: row not seen, 5 percent taken after the rows that were`,
    status: 'memory',
  }
}

/** Thinnest wall the standard lets through, mm. */
export function thinnestWallMm(tube: ToleratedTube, standard: TubeStandard): number {
  return tube.wallMm - wallToleranceMm(tube, standard).minusMm
}
