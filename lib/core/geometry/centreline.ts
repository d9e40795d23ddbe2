export type Point = readonly [x: number, y: number, z: number]

export type PartBend = Readonly<{
  straightBeforeMm: number
  angleDeg: number
  centrelineRadiusMm: number
  rotationDeg: number
}>

type Frame = { at: Point; along: Point; toward: Point }

const radians = (degrees: number): number => (degrees * Math.PI) / 180
const add = (a: Point, b: Point, factor: number): Point => [
  a[0] + b[0] * factor,
  a[1] + b[1] * factor,
  a[2] + b[2] * factor,
]
const cross = (a: Point, b: Point): Point => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
]
const dot = (a: Point, b: Point): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
const length = (a: Point): number => Math.hypot(a[0], a[1], a[2])

/** From the sharp corner to where the bend begins: R tan(angle / 2). Exact. */
export function setbackMm(bend: Pick<PartBend, 'angleDeg' | 'centrelineRadiusMm'>): number {
  return bend.centrelineRadiusMm * Math.tan(radians(bend.angleDeg) / 2)
}

/**
 * The drawing's points: start, intersection point of each bend, end.
 * Right-handed; the first straight lies along +x, the first bend turns toward +y, each later bend is turned about the current
 * axis by its rotation (right-hand rule) first. Exact. Valid: angles between 0 and 180 degrees.
 */
export function intersectionPoints(bends: readonly PartBend[], straightAfterMm: number): Point[] {
  const frame: Frame = { at: [0, 0, 0], along: [1, 0, 0], toward: [0, 1, 0] }
  const points: Point[] = [frame.at]
  let setback = 0
  for (const bend of bends) {
    const turned = radians(bend.rotationDeg)
    const side = cross(frame.along, frame.toward)
    frame.toward = add(add([0, 0, 0], frame.toward, Math.cos(turned)), side, Math.sin(turned))
    const next = setbackMm(bend)
    frame.at = add(frame.at, frame.along, setback + bend.straightBeforeMm + next)
    points.push(frame.at)
    const angle = radians(bend.angleDeg)
    const along = add(add([0, 0, 0], frame.along, Math.cos(angle)), frame.toward, Math.sin(angle))
    frame.toward = add(add([0, 0, 0], frame.toward, Math.cos(angle)), frame.along, -Math.sin(angle))
    frame.along = along
    setback = next
  }
  points.push(add(frame.at, frame.along, setback + straightAfterMm))
  return points
}

/**
 * Straights, rotations and angles back from the drawing's points, given each bend's radius.
 * Throws RangeError where two legs lie in one line, where a bend turns right back, or where bends overlap.
 */
export function bendsFromPoints(
  points: readonly Point[],
  radiiMm: readonly number[],
): { bends: PartBend[]; straightAfterMm: number } {
  const legs = points.slice(1).map((point, index) => add(point, points[index] as Point, -1))
  let setback = 0
  let normal: Point | null = null
  const bends = radiiMm.map((centrelineRadiusMm, index): PartBend => {
    const into = legs[index] as Point
    const out = legs[index + 1] as Point
    const turned = cross(into, out)
    const angleDeg = (Math.atan2(length(turned), dot(into, out)) * 180) / Math.PI
    if (length(turned) <= 1e-12 * length(into) * length(out)) {
      throw new RangeError(
        `Point ${index + 2} does not turn the line by more than 0 and less than 180 degrees.`,
      )
    }
    const next = setbackMm({ angleDeg, centrelineRadiusMm })
    const straightBeforeMm = length(into) - setback - next
    if (straightBeforeMm < -1e-9)
      throw new RangeError(`Bends ${index} and ${index + 1} overlap by ${-straightBeforeMm} mm.`)
    const rotationDeg = normal
      ? (Math.atan2(dot(cross(normal, turned), into) / length(into), dot(normal, turned)) * 180) / Math.PI
      : 0
    normal = turned
    setback = next
    return { straightBeforeMm: Math.max(straightBeforeMm, 0), angleDeg, centrelineRadiusMm, rotationDeg }
  })
  const straightAfterMm = length(legs.at(-1) as Point) - setback
  if (straightAfterMm < -1e-9) throw new RangeError(`The last straight is ${straightAfterMm} mm.`)
  return { bends, straightAfterMm: Math.max(straightAfterMm, 0) }
}

/** Distance between the ends of two parts that begin alike, mm. */
export function endShiftMm(
  drawn: readonly PartBend[],
  made: readonly PartBend[],
  straightAfterMm: number,
): number {
  const a = intersectionPoints(drawn, straightAfterMm).at(-1) as Point
  const b = intersectionPoints(made, straightAfterMm).at(-1) as Point
  return length(add(a, b, -1))
}
