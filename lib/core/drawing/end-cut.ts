import type { EndCut } from './part'
import { type Point, radians } from './vector'

/**
 * How far a point of the section stands out beyond the centreline's end, along the tube, for an end cut.
 *   mitre   offset = p tan(angle)                                    p: along the mitre's direction
 *   saddle  offset = (p cos A - sqrt(R^2 - q^2) + R) / sin A         p along the other tube, q across it, A the angle between them
 * The saddle is the intersection with a straight round tube of radius R whose near side touches the centreline's end.
 * Source: analytic geometry of a line and a cylinder. Valid: |q| <= R; beyond it the edge of the cylinder is kept.
 */
export function endOffsetMm(end: EndCut | undefined, [up, side]: Point): number {
  if (!end || end.kind === 'square') return 0
  const turned = radians(end.rotationDeg ?? 0)
  const p = up * Math.cos(turned) + side * Math.sin(turned)
  if (end.kind === 'mitre') return p * Math.tan(radians(end.angleDeg))
  const q = -up * Math.sin(turned) + side * Math.cos(turned)
  const angle = radians(end.angleDeg ?? 90)
  const radiusMm = end.onDiameterMm / 2
  const depth = Math.sqrt(Math.max(radiusMm ** 2 - q ** 2, 0))
  return (p * Math.cos(angle) - depth + radiusMm) / Math.sin(angle)
}

export type CutReach = { outMm: number; inMm: number }

/** Steps round a section that are looked at for the point that stands out farthest. */
const steps = 72

type Outside = Readonly<{ shape: 'square' | 'rectangular' | 'round'; widthMm: number; heightMm: number }>

/**
 * How far a cut reaches past the end of the centreline, and how far it falls short of it.
 *   the largest and smallest offset of `endOffsetMm` round the section, its corners taken sharp
 * Source: analytic geometry. Valid: the cuts of `endOffsetMm`. Exact for mitres, within a step of 5 degrees for saddles.
 */
export function cutReach(tube: Outside, cut: EndCut): CutReach {
  const offsets = outline(tube).map((point) => endOffsetMm(cut, point))
  return { outMm: Math.max(0, ...offsets), inMm: Math.max(0, ...offsets.map((mm) => -mm)) }
}

/** The section's outline, its corners taken sharp. */
function outline({ shape, widthMm, heightMm }: Outside): Point[] {
  const [w, h] = [widthMm / 2, heightMm / 2]
  return Array.from({ length: steps }, (_, step): Point => {
    const turn = (2 * Math.PI * step) / steps
    const [cos, sin] = [Math.cos(turn), Math.sin(turn)]
    if (shape === 'round') return [w * cos, w * sin]
    // Along each ray to the rectangle's edge; a step falls on each of a square's corners.
    const far = Math.min(h / Math.abs(cos), w / Math.abs(sin))
    return [far * cos, far * sin]
  }).concat(
    shape === 'round'
      ? []
      : [
          [h, w],
          [h, -w],
          [-h, w],
          [-h, -w],
        ],
  )
}
