/** Variances of a measuring study: in the unit of the readings, squared. */
export interface GaugeComponents {
  readonly repeatability: number
  readonly reproducibility: number
  readonly part: number
}

export type GaugeWord = 'accept' | 'conditional' | 'reject'

export interface GaugeStudy {
  readonly gaugeVariance: number
  readonly totalVariance: number
  readonly contributionPct: number
  /** Share of the whole study's spread. */
  readonly studyPct: number
  /** Share of the tolerance, six gauge standard deviations against it; null without one. */
  readonly tolerancePct: number | null
  readonly distinctCategories: number
  readonly word: GaugeWord
}

/**
 * How good a gauge is for its parts, from its variance components.
 *   study % = 100 sd_GRR / sd_total;  tolerance % = 100 * 6 sd_GRR / tolerance;  ndc = trunc(1.41 sd_part / sd_GRR)
 *   under 10 percent accept, to 30 conditional, above reject
 * Source: AIAG, Measurement Systems Analysis, 4th ed. (2010). Valid: components zero or more, the gauge's not all zero.
 */
export function gaugeStudy(components: GaugeComponents, tolerance?: number): GaugeStudy {
  const gaugeVariance = components.repeatability + components.reproducibility
  const totalVariance = gaugeVariance + components.part
  if (!(gaugeVariance > 0 && components.part >= 0)) {
    throw new RangeError('A gauge study needs a gauge that varies and parts that do not vary below zero.')
  }
  const studyPct = 100 * Math.sqrt(gaugeVariance / totalVariance)
  return {
    gaugeVariance,
    totalVariance,
    contributionPct: (100 * gaugeVariance) / totalVariance,
    studyPct,
    tolerancePct: tolerance === undefined ? null : (600 * Math.sqrt(gaugeVariance)) / tolerance,
    distinctCategories: Math.trunc(1.41 * Math.sqrt(components.part / gaugeVariance)),
    word: studyPct < 10 ? 'accept' : studyPct <= 30 ? 'conditional' : 'reject',
  }
}

/**
 * Variance components of a crossed study: every operator measures every part the same number of times.
 *   two-way analysis of variance with interaction; repeatability = MS_error, reproducibility = operators + interaction, each not below zero
 * Source: AIAG, Measurement Systems Analysis, 4th ed., ANOVA method. Valid: readings[part][operator][repeat], two or more of each.
 */
export function crossedGaugeComponents(
  readings: readonly (readonly (readonly number[])[])[],
): GaugeComponents {
  const parts = readings.length
  const operators = readings[0]?.length ?? 0
  const repeats = readings[0]?.[0]?.length ?? 0
  const even = readings.every(
    (part) => part.length === operators && part.every((cell) => cell.length === repeats),
  )
  if (parts < 2 || operators < 2 || repeats < 2 || !even) {
    throw new RangeError(
      'A crossed study has two or more parts, operators and repeats, each the same number of times.',
    )
  }
  const average = (values: readonly number[]): number =>
    values.reduce((sum, value) => sum + value, 0) / values.length
  const cellMeans = readings.map((part) => part.map(average))
  const partMeans = cellMeans.map(average)
  const operatorMeans = Array.from({ length: operators }, (_, o) =>
    average(cellMeans.map((part) => part[o] ?? 0)),
  )
  const grand = average(partMeans)
  const squares = (values: readonly number[]): number =>
    values.reduce((sum, value) => sum + (value - grand) ** 2, 0)
  const partMs = (operators * repeats * squares(partMeans)) / (parts - 1)
  const operatorMs = (parts * repeats * squares(operatorMeans)) / (operators - 1)
  let interaction = 0
  let error = 0
  readings.forEach((part, p) => {
    part.forEach((cell, o) => {
      const cellMean = average(cell)
      interaction += (cellMean - (partMeans[p] ?? 0) - (operatorMeans[o] ?? 0) + grand) ** 2
      for (const reading of cell) error += (reading - cellMean) ** 2
    })
  })
  const interactionMs = (repeats * interaction) / ((parts - 1) * (operators - 1))
  const errorMs = error / (parts * operators * (repeats - 1))
  const operatorVariance = Math.max(0, (operatorMs - interactionMs) / (parts * repeats))
  const interactionVariance = Math.max(0, (interactionMs - errorMs) / repeats)
  return {
    repeatability: errorMs,
    reproducibility: operatorVariance + interactionVariance,
    part: Math.max(0, (partMs - interactionMs) / (operators * repeats)),
  }
}
