import { trimmed } from './bend-check'
import {
  line,
  movedToOrigin,
  type Primitive,
  polyline,
  type Template,
  type TemplatePoint,
  text,
} from './primitive'

const STEPS = 180
const TAB_MM = 12

/**
 * Height of a plane cut along a round tube, from the cut's middle: y = r tan(a) cos(phi).
 * Source: unrolling of a plane section of a cylinder (a sine curve), as in any sheet-metal drafting text.
 * Valid: cut angle a measured from square, 0 to below 90 degrees. phi 0 is the long side. Exact.
 */
export function mitreHeightMm(cut: { radiusMm: number; cutAngleDeg: number; phiDeg: number }): number {
  if (!(cut.radiusMm > 0)) throw new RangeError(`a tube of radius ${cut.radiusMm} mm cannot be wrapped`)
  if (!(cut.cutAngleDeg >= 0 && cut.cutAngleDeg < 90))
    throw new RangeError(
      `a cut ${cut.cutAngleDeg} degrees from square never leaves the tube: give 0 to below 90`,
    )
  return cut.radiusMm * Math.tan(rad(cut.cutAngleDeg)) * Math.cos(rad(cut.phiDeg))
}

/**
 * Where a branch tube meets a main tube, along the branch from the crossing of the two axes:
 *   y = [ r cos(phi) cos(th) + sqrt( Rm^2 - (r sin(phi) + e)^2 ) ] / sin(th)
 * r branch radius, Rm main radius, th angle between the axes, e how far the axes pass each other; phi 0 is the
 * generator in the acute corner. Source: the branch's generator put into the main cylinder's equation.
 * Valid: the branch wholly inside the main's width. Outside radius for a paper wrap, inside for a cut that closes on the bore.
 */
export function saddleHeightMm(joint: Saddle & { readonly phiDeg: number }): number {
  const { branchRadiusMm: r, mainRadiusMm: mainR, axesAngleDeg, axisOffsetMm = 0, phiDeg } = joint
  if (!(r > 0 && mainR > 0)) throw new RangeError('both tubes need a radius above 0 mm')
  if (!(axesAngleDeg > 0 && axesAngleDeg < 180))
    throw new RangeError(`axes at ${axesAngleDeg} degrees never meet: give more than 0 and less than 180`)
  const acrossMm = r * Math.sin(rad(phiDeg)) + axisOffsetMm
  // A branch as wide as the main touches its edge exactly; a rounding error there is no miss.
  const underRoot = mainR ** 2 - acrossMm ** 2
  if (underRoot < -1e-9 * mainR ** 2)
    throw new RangeError(
      `the branch (radius ${r} mm, axis ${axisOffsetMm} mm off) reaches past the side of the main tube (radius ${mainR} mm)`,
    )
  const throughMm = Math.sqrt(Math.max(underRoot, 0))
  return (r * Math.cos(rad(phiDeg)) * Math.cos(rad(axesAngleDeg)) + throughMm) / Math.sin(rad(axesAngleDeg))
}

export interface Saddle {
  readonly branchRadiusMm: number
  readonly mainRadiusMm: number
  readonly axesAngleDeg: number
  readonly axisOffsetMm?: number
}

/** A paper wrap for one plane mitre; the long side of the tube is at both ends of the paper. */
export function mitreWrapTemplate(cut: {
  readonly outsideRadiusMm: number
  readonly cutAngleDeg: number
  readonly name?: string
}): Template {
  const { outsideRadiusMm: radiusMm, cutAngleDeg } = cut
  return wrap({
    title: `Mitre wrap, ${cut.name ?? 'end'}: ${trimmed(cutAngleDeg)}° from square on ${trimmed(2 * radiusMm)} mm round`,
    radiusMm,
    heightAtMm: (phiDeg) => mitreHeightMm({ radiusMm, cutAngleDeg, phiDeg }),
    quarterNames: ['long side', 'side', 'short side', 'side', 'long side'],
    notes: [
      `${trimmed(cutAngleDeg)}° from square: a corner of ${trimmed(2 * cutAngleDeg)}° from two such ends.`,
    ],
  })
}

/** A paper wrap for a branch that is fitted to the side of another tube. */
export function saddleWrapTemplate(joint: Saddle & { readonly name?: string }): Template {
  return wrap({
    title: `Saddle wrap, ${joint.name ?? 'end'}: ${trimmed(2 * joint.branchRadiusMm)} mm on ${trimmed(2 * joint.mainRadiusMm)} mm round at ${trimmed(joint.axesAngleDeg)}°`,
    radiusMm: joint.branchRadiusMm,
    heightAtMm: (phiDeg) => saddleHeightMm({ ...joint, phiDeg }),
    quarterNames: ['acute corner', 'side', 'obtuse corner', 'side', 'acute corner'],
    notes: [
      `Axes at ${trimmed(joint.axesAngleDeg)}°, passing ${trimmed(joint.axisOffsetMm ?? 0)} mm off. The curve is for the outside of the branch.`,
      'A branch nearly as wide as the main ends in thin points: cut proud and fit by hand.',
    ],
  })
}

function wrap(cut: {
  title: string
  radiusMm: number
  heightAtMm: (phiDeg: number) => number
  quarterNames: readonly string[]
  notes: readonly string[]
}): Template {
  const girthMm = 2 * Math.PI * cut.radiusMm
  const curve: TemplatePoint[] = Array.from({ length: STEPS + 1 }, (_, step) => {
    const phiDeg = (360 * step) / STEPS
    return [(girthMm * step) / STEPS, cut.heightAtMm(phiDeg)]
  })
  const lowestMm = Math.min(...curve.map(([, yMm]) => yMm))
  const heightAboveBaseMm = 25
  const baseMm = lowestMm - heightAboveBaseMm
  const generators: Primitive[] = Array.from({ length: 13 }, (_, index) => {
    const xMm = (girthMm * index) / 12
    return line(index % 3 === 0 ? 'CENTRE' : 'MARK', [xMm, baseMm], [xMm, cut.heightAtMm(index * 30)])
  })
  const primitives: Primitive[] = [
    polyline('CUT', curve),
    line('CUT', [0, baseMm], [girthMm, baseMm]),
    line('CUT', [0, baseMm], [0, cut.heightAtMm(0)]),
    polyline('CUT', [
      [girthMm, baseMm],
      [girthMm + TAB_MM, baseMm + 4],
      [girthMm + TAB_MM, baseMm + heightAboveBaseMm - 6],
      [girthMm, baseMm + heightAboveBaseMm - 2],
    ]),
    ...generators,
    text([girthMm + TAB_MM / 2 + 1, baseMm + 6], 'tab', { heightMm: 2.5, rotationDeg: 90 }),
    ...cut.quarterNames
      .slice(0, 4)
      .map((name, quarter) =>
        text([(girthMm * quarter) / 4 + 3.4, baseMm + 2], name, { heightMm: 2.2, rotationDeg: 90 }),
      ),
  ]
  return movedToOrigin({
    title: cut.title,
    primitives,
    notes: [
      ...cut.notes,
      'Cut out along the curve, wrap with the straight edge square to the tube, tape the tab under.',
      `Girth ${trimmed(girthMm)} mm. The straight edge lies ${heightAboveBaseMm} mm below the lowest point of the curve. Scribe, then file to fit.`,
      'If the ends of the paper do not meet within 0.5 mm the print is not to scale.',
    ],
  })
}

function rad(angleDeg: number): number {
  return (angleDeg * Math.PI) / 180
}
