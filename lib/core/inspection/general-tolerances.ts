export type Iso2768Class = 'f' | 'm' | 'c' | 'v'
export type Iso13920Class = 'A' | 'B' | 'C' | 'D'

/** A tolerance from a table: found with its plus-or-minus value, or not given there, and why. */
export type TableTolerance =
  | { readonly found: true; readonly plusMinus: number }
  | { readonly found: false; readonly because: 'below-table' | 'above-table' | 'no-value-in-class' }

/**
 * How far these tables may be trusted on a customer's paper.
 * Source: transcriptions of ISO 2768-1:1989 (identical IS 2102-1:1993) and ISO 13920:1996 that agree with one another, not the originals.
 */
export const generalToleranceStatus =
  'Taken from two transcriptions that agree, not from the standards themselves; check class c below 6 mm and class v above 1000 mm before printing them.'

const linear2768UpToMm = [3, 6, 30, 120, 400, 1000, 2000, 4000] as const

const linear2768Mm: Readonly<Record<Iso2768Class, readonly (number | null)[]>> = {
  f: [0.05, 0.05, 0.1, 0.15, 0.2, 0.3, 0.5, null],
  m: [0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2],
  c: [0.2, 0.3, 0.5, 0.8, 1.2, 2, 3, 4],
  v: [null, 0.5, 1, 1.5, 2.5, 4, 6, 8],
}

/**
 * General tolerance on a length, plus or minus mm.
 *   ranges are over .. up to and including; exactly 30 mm is in the range to 30
 * Source: ISO 2768-1:1989, table 1. Valid: 0.5 to 4000 mm; metal removal and sheet forming, so for a bent tube a stated default only.
 */
export function iso2768LinearMm(lengthMm: number, toleranceClass: Iso2768Class): TableTolerance {
  if (lengthMm < 0.5) return { found: false, because: 'below-table' }
  return lookUp(lengthMm, linear2768UpToMm, linear2768Mm[toleranceClass])
}

const radius2768Mm: Readonly<Record<Iso2768Class, readonly number[]>> = {
  f: [0.2, 0.5, 1],
  m: [0.2, 0.5, 1],
  c: [0.4, 1, 2],
  v: [0.4, 1, 2],
}

/**
 * General tolerance on an external radius or a chamfer height, plus or minus mm.
 * Source: ISO 2768-1:1989, table 2 (from memory). Valid: 0.5 mm and up; broken edges, not bend radii.
 */
export function iso2768EdgeRadiusMm(radiusMm: number, toleranceClass: Iso2768Class): TableTolerance {
  if (radiusMm < 0.5) return { found: false, because: 'below-table' }
  return lookUp(radiusMm, [3, 6, Number.POSITIVE_INFINITY], radius2768Mm[toleranceClass])
}

const angle2768UpToMm = [10, 50, 120, 400, Number.POSITIVE_INFINITY] as const

const angle2768Deg: Readonly<Record<Iso2768Class, readonly number[]>> = {
  f: [1, 30 / 60, 20 / 60, 10 / 60, 5 / 60],
  m: [1, 30 / 60, 20 / 60, 10 / 60, 5 / 60],
  c: [1.5, 1, 30 / 60, 15 / 60, 10 / 60],
  v: [3, 2, 1, 30 / 60, 20 / 60],
}

/**
 * General tolerance on an angle, plus or minus degrees, by the length of its shorter side.
 * Source: ISO 2768-1:1989, table 3. Valid: as `iso2768LinearMm`.
 */
export function iso2768AngleDeg(shorterSideMm: number, toleranceClass: Iso2768Class): TableTolerance {
  if (!(shorterSideMm > 0)) return { found: false, because: 'below-table' }
  return lookUp(shorterSideMm, angle2768UpToMm, angle2768Deg[toleranceClass])
}

const linear13920UpToMm = [
  30,
  120,
  400,
  1000,
  2000,
  4000,
  8000,
  12_000,
  16_000,
  20_000,
  Number.POSITIVE_INFINITY,
]

const linear13920Mm: Readonly<Record<Iso13920Class, readonly number[]>> = {
  A: [1, 1, 1, 2, 3, 4, 5, 6, 7, 8, 9],
  B: [1, 2, 2, 3, 4, 6, 8, 10, 12, 14, 16],
  C: [1, 3, 4, 6, 8, 11, 14, 18, 21, 24, 27],
  D: [1, 4, 7, 9, 12, 16, 21, 27, 32, 36, 40],
}

/**
 * General tolerance on a length of a welded piece, plus or minus mm.
 * Source: ISO 13920:1996, table 1 (one common value from 2 to 30 mm; a transcription, realigned). Valid: 2 mm and up.
 */
export function iso13920LinearMm(lengthMm: number, toleranceClass: Iso13920Class): TableTolerance {
  if (lengthMm < 2) return { found: false, because: 'below-table' }
  return lookUp(lengthMm, linear13920UpToMm, linear13920Mm[toleranceClass])
}

const angle13920UpToMm = [400, 1000, Number.POSITIVE_INFINITY] as const

const angle13920Deg: Readonly<Record<Iso13920Class, readonly number[]>> = {
  A: [20 / 60, 15 / 60, 10 / 60],
  B: [45 / 60, 30 / 60, 20 / 60],
  C: [1, 45 / 60, 30 / 60],
  D: [1.5, 1.25, 1],
}

/**
 * General tolerance on an angle of a welded piece, plus or minus degrees, by its shorter leg.
 * Source: ISO 13920:1996, table 2. Valid: any leg.
 */
export function iso13920AngleDeg(shorterLegMm: number, toleranceClass: Iso13920Class): TableTolerance {
  if (!(shorterLegMm > 0)) return { found: false, because: 'below-table' }
  return lookUp(shorterLegMm, angle13920UpToMm, angle13920Deg[toleranceClass])
}

const form13920UpToMm = [120, 400, 1000, 2000] as const

const form13920Mm: Readonly<Record<'E' | 'F', readonly number[]>> = {
  E: [0.5, 1, 1.5, 2],
  F: [1, 1.5, 3, 4.5],
}

/**
 * General tolerance on straightness, flatness and parallelism of a welded piece, mm in all (not plus or minus).
 * Source: ISO 13920:1996, table 3, classes E and F to 2000 mm (a transcription). Valid: over 30 to 2000 mm.
 */
export function iso13920FormMm(lengthMm: number, toleranceClass: 'E' | 'F'): TableTolerance {
  if (lengthMm <= 30) return { found: false, because: 'below-table' }
  return lookUp(lengthMm, form13920UpToMm, form13920Mm[toleranceClass])
}

/** The same by the class as it is written on a drawing, 'ISO 2768-m' or 'ISO 13920-B'; null where neither table has a value. */
export function generalLinearMm(lengthMm: number, classText: string): number | null {
  const [, standard, letter] = /^ISO (2768|13920)-([fmcvABCD])$/.exec(classText) ?? []
  if (!letter) return null
  const isMachined = standard === '2768'
  if (isMachined !== (letter === letter.toLowerCase())) return null
  const found = isMachined
    ? iso2768LinearMm(lengthMm, letter as Iso2768Class)
    : iso13920LinearMm(lengthMm, letter as Iso13920Class)
  return found.found ? found.plusMinus : null
}

function lookUp(size: number, upTo: readonly number[], values: readonly (number | null)[]): TableTolerance {
  const column = upTo.findIndex((limit) => size <= limit)
  if (column === -1) return { found: false, because: 'above-table' }
  const plusMinus = values[column]
  if (plusMinus === null || plusMinus === undefined) return { found: false, because: 'no-value-in-class' }
  return { found: true, plusMinus }
}
