import type { Point } from './vector'

/** Room taken on the sheet: a round spot, or a band along a line. Sheet units. */
export type Taken = { at: Point; radius: number } | { from: Point; to: Point; radius: number }

/** The spots a line of text covers. */
export function textSpots(
  centre: Point,
  text: { widthPx: number; sizePx: number; angleRad: number },
): Taken[] {
  const radius = text.sizePx * 0.62
  const run = Math.max(text.widthPx - 2 * radius, 0)
  const steps = Math.max(1, Math.ceil(run / radius))
  const along: Point = [Math.cos(text.angleRad), Math.sin(text.angleRad)]
  return Array.from({ length: steps + 1 }, (_, step) => {
    const offset = run * (step / steps - 0.5)
    return { at: [centre[0] + along[0] * offset, centre[1] + along[1] * offset] as const, radius }
  })
}

/** Width of a line of text in the drawing's type, whose figures are all equally wide. */
export function textWidthPx(text: string, sizePx: number): number {
  return text.length * sizePx * 0.6
}

/** How deep some spots lie in what is already taken: 0 where they are free. Counted no further than `most`. */
export function overlapPx(
  spots: readonly Taken[],
  taken: readonly Taken[],
  most = Number.POSITIVE_INFINITY,
): number {
  let sum = 0
  for (const spot of spots) {
    for (const other of taken) {
      sum += Math.max(0, spot.radius + other.radius - distance(spot, other))
    }
    if (sum >= most) return sum
  }
  return sum
}

function distance(a: Taken, b: Taken): number {
  if ('at' in a && 'at' in b) return Math.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1])
  if ('at' in a && 'from' in b) return toLine(a.at, b)
  if ('from' in a && 'at' in b) return toLine(b.at, a)
  if ('from' in a && 'from' in b) {
    return Math.min(toLine(a.from, b), toLine(a.to, b), toLine(b.from, a), toLine(b.to, a))
  }
  return Number.POSITIVE_INFINITY
}

function toLine(point: Point, line: { from: Point; to: Point }): number {
  const dx = line.to[0] - line.from[0]
  const dy = line.to[1] - line.from[1]
  const squared = dx * dx + dy * dy
  const share = squared > 0 ? ((point[0] - line.from[0]) * dx + (point[1] - line.from[1]) * dy) / squared : 0
  const held = Math.min(Math.max(share, 0), 1)
  return Math.hypot(point[0] - line.from[0] - dx * held, point[1] - line.from[1] - dy * held)
}

/**
 * What is laid out with the least overlap; earlier places win a draw. Most drawings find room at one of the first, and
 * what comes after is not laid out.
 */
export function bestPlace<Place, Candidate extends { spots: readonly Taken[] }>(
  places: readonly Place[],
  layOut: (place: Place) => Candidate,
  taken: readonly Taken[],
): Candidate {
  let best: Candidate | undefined
  let least = Number.POSITIVE_INFINITY
  for (const place of places) {
    const candidate = layOut(place)
    const overlap = overlapPx(candidate.spots, taken, least)
    if (overlap < least - 1e-9) {
      best = candidate
      least = overlap
      if (overlap === 0) break
    }
  }
  if (!best) throw new RangeError('a label needs at least one place to try')
  return best
}
