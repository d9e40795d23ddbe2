/** Three numbers sought or judged together. */
export type Triple = readonly [number, number, number]

const dot = (a: Triple, b: Triple) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]

/**
 * A root of three equations in three unknowns from a near start, whose slopes are nearly those of the unknowns themselves.
 *   x' = x - H f(x);  H += (dx - H df) dx^T H / (dx^T H df), H the identity at first
 * Source: C. G. Broyden, Mathematics of Computation 19 (1965) 577-593, the first method in inverse form.
 * Null where the function has no value or twenty-five steps do not settle it: the caller has a slower, sure way.
 */
export function broydenRoot(
  f: (x: Triple) => Triple | null,
  start: Triple,
  tolerance: number,
): Triple | null {
  let h0: Triple = [1, 0, 0]
  let h1: Triple = [0, 1, 0]
  let h2: Triple = [0, 0, 1]
  let x = start
  let value = f(x)
  for (let turn = 0; value && turn < 25; turn++) {
    if (Math.abs(value[0]) <= tolerance && Math.abs(value[1]) <= tolerance && Math.abs(value[2]) <= tolerance)
      return x
    const move: Triple = [-dot(h0, value), -dot(h1, value), -dot(h2, value)]
    const next: Triple = [x[0] + move[0], x[1] + move[1], x[2] + move[2]]
    const nextValue = f(next)
    if (!nextValue) return null
    const df: Triple = [nextValue[0] - value[0], nextValue[1] - value[1], nextValue[2] - value[2]]
    const change: Triple = [dot(h0, df), dot(h1, df), dot(h2, df)]
    const scale = dot(move, change)
    if (scale === 0) return null
    const along = (column: 0 | 1 | 2) =>
      (move[0] * h0[column] + move[1] * h1[column] + move[2] * h2[column]) / scale
    const lift: Triple = [along(0), along(1), along(2)]
    const lifted = (row: Triple, own: number): Triple => [
      row[0] + own * lift[0],
      row[1] + own * lift[1],
      row[2] + own * lift[2],
    ]
    h0 = lifted(h0, move[0] - change[0])
    h1 = lifted(h1, move[1] - change[1])
    h2 = lifted(h2, move[2] - change[2])
    x = next
    value = nextValue
  }
  return null
}
