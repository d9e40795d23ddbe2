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

/**
 * Sums f over one cap of an outline (side 1: above) in panels cut at the given heights: where a stress turns sharply,
 * cut there, and the eight-point rule is good to many digits on either side.
 */
export function overCap(
  { sign, widthMm, webMm, radiusMm: r }: Outline,
  side: 1 | -1,
  cutsMm: readonly number[],
  f: (yMm: number, areaMm2: number) => void,
): void {
  if (r <= 0) return
  const cuts = [Math.PI / 4, Math.PI / 2]
  for (const cut of cutsMm) {
    const sine = (side * cut - webMm) / r
    if (sine > 0 && sine < 1) cuts.push(Math.asin(sine))
  }
  cuts.sort((a, b) => a - b)
  let from = 0
  for (const to of cuts) {
    const half = (to - from) / 2
    const middle = (to + from) / 2
    if (half <= 0) continue
    for (const [node, weight] of rule) {
      const angle = middle + half * node
      const across = widthMm - 2 * r * (1 - Math.cos(angle))
      f(side * (webMm + r * Math.sin(angle)), sign * weight * half * across * r * Math.cos(angle))
    }
    from = to
  }
}
