/**
 * The place from zero up at which a rising share reaches p.
 *   a bracket from 0 doubled until it holds the place, then halved until no number lies between its ends
 * Source: bisection. Valid: a share that rises without end towards one and p below one; the least number where it reaches p.
 */
export function risingRoot(shareAt: (place: number) => number, p: number): number {
  let low = 0
  let high = 1
  while (shareAt(high) < p) high *= 2
  for (let middle = high / 2; low < middle && middle < high; middle = (low + high) / 2) {
    if (shareAt(middle) < p) low = middle
    else high = middle
  }
  return high
}
