export type LearningModel = 'unit' | 'cumulativeAverage'

/** How times fall over a run: the model and the rate (0.85 = each doubling takes 85 percent of the time before). */
export interface LearningCurve {
  readonly model: LearningModel
  readonly rateFraction: number
}

/**
 * Exponent of a learning curve.
 *   b = ln r / ln 2
 * Source: T. P. Wright, J. Aeronautical Sciences 3 (1936) 122. Valid: 0 < r <= 1; r = 1 is no learning.
 */
export function learningExponent(rateFraction: number): number {
  if (!(rateFraction > 0 && rateFraction <= 1)) {
    throw new RangeError(`A learning rate lies above 0 and up to 1 (no learning), not ${rateFraction}.`)
  }
  return Math.log(rateFraction) / Math.LN2
}

/**
 * Time of the n-th piece over the time of the first.
 *   unit (Crawford): n^b.   cumulative average (Wright): n^(b+1) - (n-1)^(b+1)
 * Source: Crawford's unit model and Wright's cumulative-average model, as in NASA and RAND learning-curve manuals. Valid: whole n >= 1.
 */
export function pieceFactor(piece: number, curve: LearningCurve): number {
  requireCount(piece, 1)
  const b = learningExponent(curve.rateFraction)
  return curve.model === 'unit' ? piece ** b : piece ** (b + 1) - (piece - 1) ** (b + 1)
}

/**
 * Time of the first n pieces together over the time of the first.
 *   unit (Crawford): sum of i^b for i = 1..n.   cumulative average (Wright): n^(b+1)
 * Source: as `pieceFactor`. Valid: whole n >= 0; the two models differ at the same rate (5 pieces at 0.8: 3.738 against 2.978).
 */
export function runFactor(pieceCount: number, curve: LearningCurve): number {
  requireCount(pieceCount, 0)
  if (pieceCount === 0) return 0
  const b = learningExponent(curve.rateFraction)
  if (curve.model === 'cumulativeAverage') return pieceCount ** (b + 1)
  let sum = 0
  for (let i = 1; i <= pieceCount; i += 1) sum += i ** b
  return sum
}

/** The run factor of 0, 1, .. n pieces as a table, for a computation that needs many of them. Valid: whole n >= 0. */
export function runFactors(pieceCount: number, curve: LearningCurve): Float64Array {
  requireCount(pieceCount, 0)
  const b = learningExponent(curve.rateFraction)
  const factors = new Float64Array(pieceCount + 1)
  for (let i = 1; i <= pieceCount; i += 1) {
    factors[i] = curve.model === 'unit' ? (factors[i - 1] ?? 0) + i ** b : i ** (b + 1)
  }
  return factors
}

/**
 * Time of the n-th piece, in the unit of the first piece's time.
 *   T1 * pieceFactor
 * Source: as `pieceFactor`.
 */
export function pieceMinutes(firstPieceMinutes: number, piece: number, curve: LearningCurve): number {
  return firstPieceMinutes * pieceFactor(piece, curve)
}

/**
 * Time of the pieces first..last of one run, both included.
 *   total(last) - total(first - 1)
 * Source: as `runFactor`. Valid: 1 <= first <= last.
 */
export function lotMinutes(
  firstPieceMinutes: number,
  lot: { readonly firstPiece: number; readonly lastPiece: number },
  curve: LearningCurve,
): number {
  requireCount(lot.firstPiece, 1)
  requireCount(lot.lastPiece, lot.firstPiece)
  return firstPieceMinutes * (runFactor(lot.lastPiece, curve) - runFactor(lot.firstPiece - 1, curve))
}

/**
 * Midpoint approximation of the unit model's total, for very long runs.
 *   [(N + 1/2)^(b+1) - (1/2)^(b+1)] / (b + 1)
 * Source: M. P. Groover, Work Systems, chapter 19. Valid: about 0.3 percent high at 20 pieces and 80 percent.
 */
export function approximateRunFactor(pieceCount: number, rateFraction: number): number {
  requireCount(pieceCount, 1)
  const b = learningExponent(rateFraction)
  return ((pieceCount + 0.5) ** (b + 1) - 0.5 ** (b + 1)) / (b + 1)
}

/**
 * The learning rate that two timed pieces show.
 *   b = ln(T2 / T1) / ln(x2 / x1),  r = 2^b
 * Source: unit model solved for r. Valid: times above zero, different pieces; a rate above 1 means it got slower.
 */
export function rateFromTwoPieces(
  one: { readonly piece: number; readonly minutes: number },
  other: { readonly piece: number; readonly minutes: number },
): number {
  if (!(one.minutes > 0 && other.minutes > 0)) throw new RangeError('Two times above zero are needed.')
  if (!(one.piece > 0 && other.piece > 0) || one.piece === other.piece) {
    throw new RangeError('The times must belong to two different pieces of the run.')
  }
  return 2 ** (Math.log(other.minutes / one.minutes) / Math.log(other.piece / one.piece))
}

function requireCount(count: number, least: number): void {
  if (!Number.isInteger(count) || count < least) {
    throw new RangeError(`A count of pieces here is a whole number of ${least} or more, not ${count}.`)
  }
}
