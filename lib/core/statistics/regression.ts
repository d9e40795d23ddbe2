/** A line through the origin fitted to points. */
export interface OriginFit {
  readonly slope: number
  readonly slopeStandardError: number
  /** Standard deviation of what is left, n - 1 degrees of freedom. */
  readonly residualSd: number
  /** Uncentred: 1 - SSE / sum y^2. */
  readonly rSquared: number
  readonly regressionSumOfSquares: number
  readonly residualSumOfSquares: number
  readonly fStatistic: number
  readonly pointCount: number
}

/**
 * Least-squares line through the origin.
 *   B = sum xy / sum x^2;  s = sqrt(SSE / (n-1));  se(B) = s / sqrt(sum x^2);  F = B^2 sum x^2 / s^2
 * Source: NIST StRD, NoInt1 and NoInt2. Valid: two points or more, not all at x = 0. R squared is uncentred, as there.
 */
export function fitThroughOrigin(points: readonly { readonly x: number; readonly y: number }[]): OriginFit {
  if (points.length < 2) throw new RangeError('A fitted line needs two points or more.')
  const sumXX = points.reduce((sum, { x }) => sum + x * x, 0)
  if (sumXX === 0) throw new RangeError('A line through the origin needs a point away from x = 0.')
  const sumXY = points.reduce((sum, { x, y }) => sum + x * y, 0)
  const sumYY = points.reduce((sum, { y }) => sum + y * y, 0)
  const slope = sumXY / sumXX
  const residualSumOfSquares = points.reduce((sum, { x, y }) => sum + (y - slope * x) ** 2, 0)
  const residualVariance = residualSumOfSquares / (points.length - 1)
  const regressionSumOfSquares = slope * slope * sumXX
  return {
    slope,
    slopeStandardError: Math.sqrt(residualVariance / sumXX),
    residualSd: Math.sqrt(residualVariance),
    rSquared: 1 - residualSumOfSquares / sumYY,
    regressionSumOfSquares,
    residualSumOfSquares,
    fStatistic: regressionSumOfSquares / residualVariance,
    pointCount: points.length,
  }
}
