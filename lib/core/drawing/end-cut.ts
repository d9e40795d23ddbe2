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
