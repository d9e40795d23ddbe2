import { trimmed } from './bend-check'
import { type DxfGroup, type DxfLayer, lineGroups, point, polylineGroups, textGroups, writeDxf } from './dxf'
import type { ScribeMark } from './scribing-strip'

type Spatial = readonly [xMm: number, yMm: number, zMm: number]

const LAYERS: readonly DxfLayer[] = [
  { name: 'CENTRELINE', colour: 7, lineType: 'CONTINUOUS' },
  { name: 'INTERSECTIONS', colour: 3, lineType: 'CENTER' },
  { name: 'BLANK', colour: 5, lineType: 'CONTINUOUS' },
  { name: 'TEXT', colour: 8, lineType: 'CONTINUOUS' },
]

/** One arc of a bent centreline in space: n is the right-hand normal of the turn, angles are in the arc's own plane. */
export interface CentrelineArc {
  readonly startPoint: Spatial
  readonly endPoint: Spatial
  readonly centre: Spatial
  readonly normal: Spatial
  readonly radiusMm: number
}

/**
 * Straights and arcs of a part from its intersection points and centreline radii.
 *   tangent length = R tan(angle / 2); the centre lies R from both legs on the inner side
 * Source: plane geometry. Valid: legs long enough for their tangents, no two neighbouring legs in line. Exact.
 */
export function centrelinePath(part: {
  readonly points: readonly Spatial[]
  readonly centrelineRadiiMm: readonly number[]
}): {
  straights: (readonly [Spatial, Spatial])[]
  arcs: CentrelineArc[]
} {
  const { points, centrelineRadiiMm } = part
  if (points.length < 2 || centrelineRadiiMm.length !== points.length - 2)
    throw new RangeError(
      'a centreline needs a start, an end and one radius for each intersection point between them',
    )
  const straights: (readonly [Spatial, Spatial])[] = []
  const arcs: CentrelineArc[] = []
  let from = points[0] as Spatial
  centrelineRadiiMm.forEach((radiusMm, index) => {
    const [before, corner, after] = points.slice(index, index + 3) as [Spatial, Spatial, Spatial]
    const [incoming, outgoing] = [unit(minus(corner, before)), unit(minus(after, corner))]
    const turnRad = Math.acos(Math.min(1, Math.max(-1, dot(incoming, outgoing))))
    if (!(turnRad > 1e-9 && turnRad < Math.PI - 1e-9))
      throw new RangeError(`bend ${index + 1} does not turn, or turns right back`)
    const tangentMm = radiusMm * Math.tan(turnRad / 2)
    const startPoint = plus(corner, scaled(incoming, -tangentMm))
    const endPoint = plus(corner, scaled(outgoing, tangentMm))
    if (dot(minus(startPoint, from), incoming) < -1e-6)
      throw new RangeError(`the straight before bend ${index + 1} is too short for its radius`)
    const normal = unit(cross(incoming, outgoing))
    straights.push([from, startPoint])
    arcs.push({
      startPoint,
      endPoint,
      centre: plus(startPoint, scaled(cross(normal, incoming), radiusMm)),
      normal,
      radiusMm,
    })
    from = endPoint
  })
  const end = points.at(-1) as Spatial
  straights.push([from, end])
  return { straights, arcs }
}

/**
 * The part for another shop's drawing program: centreline in space (lines and true arcs), the intersection points joined,
 * and below it the straight blank with its marks. An arc out of the drawing's plane is given in its own coordinate system
 * by its normal (group 210) and the arbitrary axis rule.
 * Source: Autodesk, DXF Reference (release 12), entity coordinate systems and the arbitrary axis algorithm.
 */
export function partDxf(part: {
  readonly title: string
  readonly points: readonly Spatial[]
  readonly centrelineRadiiMm: readonly number[]
  readonly blank?: { readonly lengthMm: number; readonly marks: readonly ScribeMark[] }
}): string {
  const { straights, arcs } = centrelinePath(part)
  const lowestMm = Math.min(...part.points.map(([, yMm]) => yMm))
  const leftMm = Math.min(...part.points.map(([xMm]) => xMm))
  const blankYMm = lowestMm - 120
  const blank = part.blank ? blankGroups(part.blank, leftMm, blankYMm) : []
  const rightMm = Math.max(...part.points.map(([xMm]) => xMm), leftMm + (part.blank?.lengthMm ?? 0))
  const entities: DxfGroup[] = [
    ...straights
      .filter(([from, to]) => lengthMm(minus(to, from)) > 1e-6)
      .flatMap(([from, to]) => lineGroups('CENTRELINE', from, to)),
    ...arcs.flatMap(arcGroups),
    ...polylineGroups('INTERSECTIONS', part.points, true),
    ...textGroups('TEXT', { at: [leftMm, lowestMm - 30], words: part.title, heightMm: 8 }),
    ...textGroups('TEXT', {
      at: [leftMm, lowestMm - 45],
      words: 'Units: millimetres. Centreline at its finished shape.',
      heightMm: 5,
    }),
    ...blank,
  ]
  return writeDxf({
    title: part.title,
    layers: LAYERS,
    extents: {
      from: [
        leftMm,
        part.blank ? blankYMm - 14 : lowestMm - 45,
        Math.min(...part.points.map(([, , zMm]) => zMm)),
      ],
      to: [
        rightMm,
        Math.max(...part.points.map(([, yMm]) => yMm)),
        Math.max(...part.points.map(([, , zMm]) => zMm)),
      ],
    },
    entities,
  })
}

function blankGroups(
  blank: { lengthMm: number; marks: readonly ScribeMark[] },
  leftMm: number,
  yMm: number,
): DxfGroup[] {
  return [
    ...lineGroups('BLANK', [leftMm, yMm, 0], [leftMm + blank.lengthMm, yMm, 0]),
    ...blank.marks.flatMap((mark): DxfGroup[] => [
      ...lineGroups('BLANK', [leftMm + mark.atMm, yMm - 6, 0], [leftMm + mark.atMm, yMm + 6, 0]),
      ...textGroups('TEXT', {
        at: [leftMm + mark.atMm + 1.5, yMm + 9],
        words: `${trimmed(mark.atMm)} ${mark.label}`,
        heightMm: 3.5,
        rotationDeg: 90,
      }),
    ]),
    ...textGroups('TEXT', {
      at: [leftMm, yMm - 14],
      words: `Straight blank ${trimmed(blank.lengthMm)} mm, marks from the left (datum) end`,
      heightMm: 5,
    }),
  ]
}

function arcGroups(bend: CentrelineArc): DxfGroup[] {
  const { normal } = bend
  const near = 1 / 64
  const ax = unit(
    Math.abs(normal[0]) < near && Math.abs(normal[1]) < near
      ? cross([0, 1, 0], normal)
      : cross([0, 0, 1], normal),
  )
  const ay = unit(cross(normal, ax))
  const inPlane = (at: Spatial): Spatial => [dot(at, ax), dot(at, ay), dot(at, normal)]
  const angleDeg = (at: Spatial) => {
    const radial = minus(at, bend.centre)
    return ((Math.atan2(dot(radial, ay), dot(radial, ax)) * 180) / Math.PI + 360) % 360
  }
  return [
    [0, 'ARC'],
    [8, 'CENTRELINE'],
    ...point(10, inPlane(bend.centre)),
    [40, bend.radiusMm],
    [50, angleDeg(bend.startPoint)],
    [51, angleDeg(bend.endPoint)],
    ...point(210, normal),
  ]
}

function plus(a: Spatial, b: Spatial): Spatial {
  return [a[0] + b[0], a[1] + b[1], a[2] + b[2]]
}
function minus(a: Spatial, b: Spatial): Spatial {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}
function scaled(a: Spatial, by: number): Spatial {
  return [a[0] * by, a[1] * by, a[2] * by]
}
function dot(a: Spatial, b: Spatial): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}
function cross(a: Spatial, b: Spatial): Spatial {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}
function lengthMm(a: Spatial): number {
  return Math.sqrt(dot(a, a))
}
function unit(a: Spatial): Spatial {
  const size = lengthMm(a)
  if (!(size > 0)) throw new RangeError('two points of the centreline lie on each other')
  return scaled(a, 1 / size)
}
