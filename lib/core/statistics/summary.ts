/** What a set of readings says, in the unit of the readings. */
export interface Summary {
  readonly count: number
  readonly mean: number
  /** With n - 1; null for a single reading. */
  readonly sd: number | null
  readonly least: number
  readonly most: number
}

/**
 * Arithmetic mean.
 *   sum / n, corrected once by the mean of what is left over, so that large offsets lose no digits
 * Source: definition; two-pass correction, T. F. Chan et al., American Statistician 37 (1983) 242. Valid: one reading or more.
 */
export function mean(readings: readonly number[]): number {
  if (readings.length === 0) throw new RangeError('A mean needs at least one reading.')
  const rough = readings.reduce((sum, reading) => sum + reading, 0) / readings.length
  return rough + readings.reduce((sum, reading) => sum + (reading - rough), 0) / readings.length
}

/**
 * Standard deviation of a sample.
 *   sqrt( sum (y - m)^2 / (n - 1) ), about the corrected mean
 * Source: definition; two-pass form, Chan et al. (1983). Valid: two readings or more.
 */
export function standardDeviation(readings: readonly number[]): number {
  if (readings.length < 2) throw new RangeError('A standard deviation needs two readings or more.')
  const middle = mean(readings)
  const squares = readings.reduce((sum, reading) => sum + (reading - middle) ** 2, 0)
  return Math.sqrt(squares / (readings.length - 1))
}

/**
 * How much each reading resembles the one before.
 *   r1 = sum (y_t - m)(y_(t+1) - m) / sum (y_t - m)^2
 * Source: NIST/SEMATECH e-Handbook 1.3.5.12. Valid: two readings or more, not all alike.
 */
export function lagOneCorrelation(readings: readonly number[]): number {
  const middle = mean(readings)
  let products = 0
  let squares = 0
  readings.forEach((reading, index) => {
    squares += (reading - middle) ** 2
    const next = readings[index + 1]
    if (next !== undefined) products += (reading - middle) * (next - middle)
  })
  if (squares === 0) throw new RangeError('Readings that are all alike have no correlation.')
  return products / squares
}

/** Count, mean, standard deviation and the ends of a set of readings. Valid: one reading or more. */
export function summary(readings: readonly number[]): Summary {
  return {
    count: readings.length,
    mean: mean(readings),
    sd: readings.length > 1 ? standardDeviation(readings) : null,
    least: readings.reduce((least, reading) => Math.min(least, reading), Number.POSITIVE_INFINITY),
    most: readings.reduce((most, reading) => Math.max(most, reading), Number.NEGATIVE_INFINITY),
  }
}
