import { MM_PER_INCH } from '@/lib/core/units'

/**
 * Birmingham Wire Gauge, the gauge tube walls are sold by, in inches. Sheet steel and stainless sheet use other gauges.
 * Source: Birmingham (Stubs) wire gauge, two published tables agree.
 */
export const birminghamGaugeIn: readonly (readonly [gauge: number, wallIn: number])[] = [
  [7, 0.18],
  [8, 0.165],
  [9, 0.148],
  [10, 0.134],
  [11, 0.12],
  [12, 0.109],
  [13, 0.095],
  [14, 0.083],
  [15, 0.072],
  [16, 0.065],
  [17, 0.058],
  [18, 0.049],
  [19, 0.042],
  [20, 0.035],
  [21, 0.032],
  [22, 0.028],
  [23, 0.025],
  [24, 0.022],
  [25, 0.02],
  [26, 0.018],
  [28, 0.014],
  [30, 0.012],
]

const SAME_WALL_MM = 0.005

/** The wall a Birmingham gauge number stands for, or undefined where the table has none. */
export function gaugeWallMm(gauge: number): number | undefined {
  const wallIn = birminghamGaugeIn.find(([number]) => number === gauge)?.[1]
  return wallIn === undefined ? undefined : wallIn * MM_PER_INCH
}

/** The gauge number of a wall, where it is one of the table's within 0.005 mm. */
export function gaugeOfWall(wallMm: number): number | undefined {
  return birminghamGaugeIn.find(([, wallIn]) => Math.abs(wallIn * MM_PER_INCH - wallMm) <= SAME_WALL_MM)?.[0]
}

export type GaugeStep = Readonly<{ gauge: number; wallMm: number }>

/**
 * The next wall sold that is thicker than this one (a lower gauge number), or undefined above the table.
 * A wall between two gauges goes to the nearer gauge on that side.
 */
export function nextThickerGauge(wallMm: number): GaugeStep | undefined {
  const row = birminghamGaugeIn.findLast(([, wallIn]) => wallIn * MM_PER_INCH > wallMm + SAME_WALL_MM)
  return row && { gauge: row[0], wallMm: row[1] * MM_PER_INCH }
}

/** The next wall sold that is thinner than this one (a higher gauge number), or undefined below the table. */
export function nextThinnerGauge(wallMm: number): GaugeStep | undefined {
  const row = birminghamGaugeIn.find(([, wallIn]) => wallIn * MM_PER_INCH < wallMm - SAME_WALL_MM)
  return row && { gauge: row[0], wallMm: row[1] * MM_PER_INCH }
}
