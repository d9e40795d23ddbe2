/**
 * A root of three equations in three unknowns from a near start, whose slopes are nearly those of the unknowns themselves.
 *   x' = x - H f(x);  H += (dx - H df) dx^T H / (dx^T H df), H the identity at first
 * Source: C. G. Broyden, Mathematics of Computation 19 (1965) 577-593, the first method in inverse form.
 * Null where the function has no value or twenty-five steps do not settle it: the caller has a slower, sure way.
 */
export function broydenRoot(
  f: (x: readonly number[]) => readonly number[] | null,
  start: readonly number[],
  tolerance: number,
): readonly number[] | null {
  const size = start.length
  const inverse: number[][] = start.map((_, row) => start.map((_, column) => (row === column ? 1 : 0)))
  const times = (vector: readonly number[]) =>
    inverse.map((row) => row.reduce((sum, value, column) => sum + value * (vector[column] ?? 0), 0))
  let x = start
  let value = f(x)
  for (let turn = 0; value && turn < 25; turn++) {
    if (value.every((part) => Math.abs(part) <= tolerance)) return x
    const move = times(value).map((part) => -part)
    const next = x.map((part, index) => part + (move[index] ?? 0))
    const nextValue = f(next)
    if (!nextValue) return null
    const change = times(nextValue.map((part, index) => part - (value?.[index] ?? 0)))
    const moved = Array.from({ length: size }, (_, column) =>
      move.reduce((sum, part, row) => sum + part * (inverse[row]?.[column] ?? 0), 0),
    )
    const scale = move.reduce((sum, part, index) => sum + part * (change[index] ?? 0), 0)
    if (scale === 0) return null
    for (const [index, row] of inverse.entries()) {
      const lift = ((move[index] ?? 0) - (change[index] ?? 0)) / scale
      for (let column = 0; column < size; column++)
        row[column] = (row[column] ?? 0) + lift * (moved[column] ?? 0)
    }
    x = next
    value = nextValue
  }
  return null
}
