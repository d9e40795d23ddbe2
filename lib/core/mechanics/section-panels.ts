import { gaussPanels } from '@/lib/core/mechanics/quadrature'
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

/** Positions and weights of the eight-point rule, reused for every panel. */
const rule = gaussPanels(-1, 1, 1)
const ruleNodes = Float64Array.from(rule, ([node]) => node)
const ruleWeights = Float64Array.from(rule, ([, weight]) => weight)
const edges = new Float64Array(8)

/**
 * Sums the integral of a stress over one half (side 1: above) of an outline, from the stress's own integral G over height.
 *   integral of s w dy = G w at the top + sum of G(y) (-w'(y)) dy,  -w' dy = 2 r sin(a) da,  y = web + r sin(a), a = 0..pi/2
 * The half's own sign is the caller's: below the middle the sum is taken away. Panels are cut where G turns sharply.
 * Source: integration by parts; Abramowitz and Stegun 25.4.30 for the rule.
 */
export function overHalf(
  { sign, widthMm, webMm, radiusMm: r }: Outline,
  side: 1 | -1,
  neutralMm: number,
  kneeMm: number,
  f: (yMm: number, weightMm: number) => void,
): void {
  const flatMm = widthMm - 2 * r
  if (flatMm > 0) f(side * (webMm + r), sign * flatMm)
  if (r <= 0) return
  let count = 0
  edges[count++] = 0
  for (let cut = -1; cut <= 1; cut++) {
    const sine = (side * (neutralMm + cut * kneeMm) - webMm) / r
    if (sine > 1e-9 && sine < 1) edges[count++] = Math.asin(sine)
  }
  edges[count] = Math.PI / 2
  if (count === 3 && (edges[1] as number) > (edges[2] as number)) {
    const swap = edges[1] as number
    edges[1] = edges[2] as number
    edges[2] = swap
  } else if (count === 4 && (edges[1] as number) > (edges[3] as number)) {
    const swap = edges[1] as number
    edges[1] = edges[3] as number
    edges[3] = swap
  }
  for (let panel = 0; panel < count; panel++) {
    const from = edges[panel] as number
    const half = ((edges[panel + 1] as number) - from) / 2
    const middle = from + half
    for (let node = 0; node < 8; node++) {
      const sine = Math.sin(middle + half * (ruleNodes[node] as number))
      f(side * (webMm + r * sine), sign * (ruleWeights[node] as number) * half * 2 * r * sine)
    }
  }
}
