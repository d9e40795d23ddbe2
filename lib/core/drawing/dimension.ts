import { type Ink, uprightRad } from './ink'
import { bestPlace, type Taken, textSpots, textWidthPx } from './placing'
import type { Point } from './vector'

export interface Placed {
  inks: readonly Ink[]
  spots: readonly Taken[]
}

const extensionGapPx = 4
const overshootPx = 5
const textLiftPx = 4

/**
 * A dimension parallel to the line from `a` to `b`: extension lines, a line with scribed ticks, the text above it, or
 * beyond its end where it is too short. Tries the given distances on the given sides (+1 left of a to b on the sheet).
 */
export function alignedDimension(options: {
  a: Point
  b: Point
  text: string
  sizePx: number
  startPx: number
  distancesPx: readonly number[]
  sides: readonly (1 | -1)[]
  taken: readonly Taken[]
  bend?: number
}): Placed {
  const { a, b, text, sizePx, startPx, distancesPx, sides, taken } = options
  const longPx = Math.hypot(b[0] - a[0], b[1] - a[1])
  const along: Point = longPx > 0 ? [(b[0] - a[0]) / longPx, (b[1] - a[1]) / longPx] : [1, 0]
  const widthPx = textWidthPx(text, sizePx)
  const fits = longPx > widthPx + 12
  const angleRad = uprightRad(Math.atan2(along[1], along[0]))
  const lift: Point = [Math.sin(angleRad), -Math.cos(angleRad)]
  const rise = sizePx * 0.36 + textLiftPx
  const beyondPx = widthPx / 2 + 10
  const middlesPx = fits ? [longPx / 2] : [longPx + beyondPx, -beyondPx, longPx / 2]
  const places = sides.flatMap((side) =>
    distancesPx.flatMap((distancePx) => middlesPx.map((middlePx) => ({ side, distancePx, middlePx }))),
  )
  const layOut = ({ side, distancePx, middlePx }: (typeof places)[number]) => {
    const out: Point = [along[1] * side, -along[0] * side]
    const move = (point: Point): Point => [point[0] + out[0] * distancePx, point[1] + out[1] * distancePx]
    const from = move(a)
    const to = move(b)
    const middle: Point = [from[0] + along[0] * middlePx, from[1] + along[1] * middlePx]
    const centre: Point = [middle[0] + lift[0] * rise, middle[1] + lift[1] * rise]
    const spots: Taken[] = [...textSpots(centre, { widthPx, sizePx, angleRad }), { from, to, radius: 2 }]
    return { from, to, middle, centre, angleRad, out, spots }
  }
  const chosen = bestPlace(places, layOut, taken)
  const shift = (point: Point, by: number): Point => [
    point[0] + chosen.out[0] * by,
    point[1] + chosen.out[1] * by,
  ]
  const extend = (root: Point, tip: Point): Ink => ({
    kind: 'line',
    line: 'extension',
    points: [shift(root, startPx + extensionGapPx), shift(tip, overshootPx)],
  })
  const reach = fits
    ? [chosen.from, chosen.to]
    : reachTo(chosen.from, chosen.to, chosen.middle, along, widthPx)
  const tickAngle = Math.atan2(along[1], along[0]) - Math.PI / 4
  return {
    inks: [
      extend(a, chosen.from),
      extend(b, chosen.to),
      { kind: 'line', line: 'dimension', points: reach, bend: options.bend },
      { kind: 'tick', at: chosen.from, angleRad: tickAngle },
      { kind: 'tick', at: chosen.to, angleRad: tickAngle },
      {
        kind: 'text',
        at: chosen.centre,
        text,
        angleRad: chosen.angleRad,
        anchor: 'middle',
        look: 'dimension',
        bend: options.bend,
      },
    ],
    spots: chosen.spots,
  }
}

/** The dimension line made long enough to carry a text that stands beyond its end. */
function reachTo(from: Point, to: Point, middle: Point, along: Point, widthPx: number): readonly Point[] {
  const ahead = (point: Point) => (point[0] - from[0]) * along[0] + (point[1] - from[1]) * along[1]
  const end = ahead(to)
  const ends = [0, end, ahead(middle) - widthPx / 2, ahead(middle) + widthPx / 2]
  const low = Math.min(...ends)
  const high = Math.max(...ends)
  return [low, high].map((by): Point => [from[0] + along[0] * by, from[1] + along[1] * by])
}

/** Lines of text at the end of a leader, tried round a point in the given directions and distances. */
export function leaderNote(options: {
  tip: Point
  lines: readonly string[]
  balloon?: string
  sizePx: number
  directionsRad: readonly number[]
  distancesPx: readonly number[]
  taken: readonly Taken[]
  bend?: number
}): Placed {
  const { tip, lines, balloon, sizePx, directionsRad, distancesPx, taken, bend } = options
  const lineHeightPx = sizePx * 1.25
  const balloonPx = balloon === undefined ? 0 : sizePx * 1.9
  const widthPx = balloonPx + Math.max(0, ...lines.map((line) => textWidthPx(line, sizePx)))
  const heightPx = Math.max(lines.length * lineHeightPx, balloonPx)
  const places = distancesPx.flatMap((distancePx) =>
    directionsRad.map((direction) => ({ distancePx, direction })),
  )
  const layOut = ({ distancePx, direction }: (typeof places)[number]) => {
    const toward: Point = [Math.cos(direction), Math.sin(direction)]
    const elbow: Point = [tip[0] + toward[0] * distancePx, tip[1] + toward[1] * distancePx]
    const centre: Point = [
      elbow[0] + (toward[0] >= -0.05 ? 1 : -1) * (widthPx / 2 + 4) * Math.min(1, Math.abs(toward[0]) * 3),
      elbow[1] + toward[1] * (heightPx / 2) * (Math.abs(toward[0]) > 0.5 ? 0.35 : 1),
    ]
    const left = centre[0] - widthPx / 2
    const rows = Math.max(lines.length, 1)
    const spots: Taken[] = Array.from({ length: rows }, (_, row) => row).flatMap((row) =>
      textSpots([centre[0], centre[1] + (row - (rows - 1) / 2) * lineHeightPx], {
        widthPx,
        sizePx,
        angleRad: 0,
      }),
    )
    if (balloon !== undefined) {
      spots.push({ at: [left + sizePx * 0.85, centre[1]], radius: sizePx * 0.9 })
    }
    return { centre, left, spots }
  }
  const chosen = bestPlace(places, layOut, taken)
  const first = chosen.centre[1] - ((lines.length - 1) / 2) * lineHeightPx
  const fromLeft = tip[0] < chosen.centre[0]
  const balloonAt: Point = [chosen.left + sizePx * 0.85, chosen.centre[1]]
  const atBalloon = balloon !== undefined && (fromLeft || lines.length === 0)
  const side: Point = [fromLeft ? chosen.left - 3 : chosen.left + widthPx + 3, chosen.centre[1]]
  const edge = atBalloon ? balloonAt : side
  const inks: Ink[] = [{ kind: 'line', line: 'leader', points: [tip, edge], bend }]
  if (balloon !== undefined && bend !== undefined) {
    inks.push({ kind: 'balloon', at: balloonAt, text: balloon, bend })
  }
  for (const [row, text] of lines.entries()) {
    inks.push({
      kind: 'text',
      at: [chosen.left + balloonPx, first + row * lineHeightPx],
      text,
      angleRad: 0,
      anchor: 'start',
      look: 'dimension',
      bend,
    })
  }
  return { inks, spots: [...chosen.spots, { from: tip, to: edge, radius: 1 }] }
}
