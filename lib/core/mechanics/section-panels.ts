import { gaussEight, gaussFive } from '@/lib/core/mechanics/quadrature'
import type { Tube } from '@/lib/core/mechanics/section'

/** A filled outline: straight sides of one width between two caps of quarter rounds. A disc is all cap. */
export type Outline = Readonly<{
  /** 1 adds, -1 takes away: the bore. */
  sign: 1 | -1
  widthMm: number
  /** Half the height of the straight sides; 0 in a disc. */
  webMm: number
  radiusMm: number
}>

/** The tube's section as its outside less its bore. */
export function outlines(tube: Tube): readonly [outside: Outline, bore: Outline] {
  const radiusMm = tube.shape === 'round' ? tube.heightMm / 2 : tube.cornerRadiusMm
  const boreRadiusMm = Math.max(radiusMm - tube.wallMm, 0)
  return [
    { sign: 1, widthMm: tube.widthMm, webMm: tube.heightMm / 2 - radiusMm, radiusMm },
    {
      sign: -1,
      widthMm: tube.widthMm - 2 * tube.wallMm,
      webMm: tube.heightMm / 2 - tube.wallMm - boreRadiusMm,
      radiusMm: boreRadiusMm,
    },
  ]
}

/** Where a half of an outline is summed: heights, and what each weighs. Written over at each use, for the sake of speed. */
export class Heights {
  count = 0
  readonly yMm = new Float64Array(40)
  readonly weightMm = new Float64Array(40)

  add(yMm: number, weightMm: number): void {
    this.yMm[this.count] = yMm
    this.weightMm[this.count++] = weightMm
  }
}

/**
 * The heights that sum the integral of a stress over one half (side 1: above) of an outline, from the stress's own integral G over height.
 *   integral of s w dy = G w at the top + sum of G(y) (-w'(y)) dy,  -w' dy = 2 r sin(a) da,  y = web + r sin(a), a = 0..pi/2
 * The half's own sign is the caller's: below the middle the sum is taken away. Panels are cut about the neutral axis, where G
 * turns sharply: eight points each there, five where the stress only hardens.
 * Source: integration by parts; Abramowitz and Stegun 25.4.30 for the rules.
 */
export function halfHeights(
  into: Heights,
  { sign, widthMm, webMm, radiusMm: r }: Outline,
  side: 1 | -1,
  neutralMm: number,
  kneeMm: number,
): Heights {
  into.count = 0
  const flatMm = widthMm - 2 * r
  if (flatMm > 0) into.add(side * (webMm + r), sign * flatMm)
  if (r <= 0) return into
  // The cuts rise with side 1 and fall with side -1: asked in rising order of the angle.
  let from = 0
  for (let cut = -1; cut <= 2; cut++) {
    const sine = cut === 2 ? 1 : (side * neutralMm + cut * kneeMm - webMm) / r
    if (!(sine > 1e-9)) continue
    const to = sine < 1 ? Math.asin(sine) : Math.PI / 2
    const half = (to - from) / 2
    const middle = from + half
    const { nodes, weights } = cut === 0 || cut === 1 ? gaussEight : gaussFive
    for (let node = 0; node < nodes.length; node++) {
      const height = r * Math.sin(middle + half * (nodes[node] as number))
      into.add(side * (webMm + height), sign * (weights[node] as number) * half * 2 * height)
    }
    if (sine >= 1) break
    from = to
  }
  return into
}
