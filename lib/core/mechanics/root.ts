/**
 * A root of f between `low` and `high`, where f changes sign, by Brent's method.
 * Source: R. P. Brent, Algorithms for Minimization without Derivatives (1973), ch. 4.
 * Valid: f(low) and f(high) of opposite sign; throws RangeError otherwise.
 */
export function rootBetween(f: (x: number) => number, low: number, high: number, tolerance = 1e-13): number {
  let a = low
  let b = high
  let fa = f(a)
  let fb = f(b)
  if (fa === 0) return a
  if (fb === 0) return b
  if (fa * fb > 0) throw new RangeError(`No change of sign between ${low} and ${high}.`)
  let c = a
  let fc = fa
  let step = b - a
  let before = step
  for (let turn = 0; turn < 200; turn++) {
    if (Math.abs(fc) < Math.abs(fb)) {
      a = b
      b = c
      c = a
      fa = fb
      fb = fc
      fc = fa
    }
    const near = 2 * Number.EPSILON * Math.abs(b) + tolerance * Math.max(Math.abs(b), 1e-300)
    const middle = (c - b) / 2
    if (Math.abs(middle) <= near || fb === 0) return b
    if (Math.abs(before) < near || Math.abs(fa) <= Math.abs(fb)) {
      step = middle
      before = middle
    } else {
      const s = fb / fa
      let p: number
      let q: number
      if (a === c) {
        p = 2 * middle * s
        q = 1 - s
      } else {
        const r = fb / fc
        const u = fa / fc
        p = s * (2 * middle * u * (u - r) - (b - a) * (r - 1))
        q = (u - 1) * (r - 1) * (s - 1)
      }
      if (p > 0) q = -q
      p = Math.abs(p)
      if (2 * p < Math.min(3 * middle * q - Math.abs(near * q), Math.abs(before * q))) {
        before = step
        step = p / q
      } else {
        step = middle
        before = middle
      }
    }
    a = b
    fa = fb
    b += Math.abs(step) > near ? step : Math.sign(middle) * near
    fb = f(b)
    if (fb > 0 === fc > 0) {
      c = a
      fc = fa
      step = b - a
      before = step
    }
  }
  return b
}
