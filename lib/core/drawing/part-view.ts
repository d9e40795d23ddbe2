import type { Piece } from './centreline'
import { stationOn } from './centreline'
import { alignedDimension, leaderNote, type Placed } from './dimension'
import { type Box, growBox, type Ink, noBox } from './ink'
import { angleText, type DrawingUnits, lengthText } from './length-text'
import type { DrawnPart, EndCut } from './part'
import { bestPlace, type Taken, textSpots, textWidthPx } from './placing'
import { project, type SeenPiece, seeTube, type View, type ViewName, views } from './projection'
import type { TubeMesh } from './tube-mesh'
import { add, dot, type Point, scale, type Vec3 } from './vector'

export interface ViewDrawing {
  name: ViewName
  pieces: readonly SeenPiece[]
  inks: readonly Ink[]
  /** All that is drawn, sheet units, the part's origin at 0, 0. */
  box: Box
}

export interface ViewSettings {
  scalePxPerMm: number
  units: DrawingUnits
  sizePx: number
  /** Pieces (by place in the centreline) this view gives the dimensions of. */
  dimensionPieces: ReadonlySet<number>
  overall: { across: boolean; up: boolean }
}

const flatWithin = 0.01

/** Whether a piece is seen at its true length and shape from here. */
export function seenTrue(piece: Piece, view: View): boolean {
  const across =
    piece.kind === 'straight'
      ? dot(piece.from.along, view.toViewer)
      : 1 - Math.abs(dot(piece.axis, view.toViewer))
  return Math.abs(across) < flatWithin
}

/** One view of the part, with the dimensions it is given to carry. */
export function drawView(
  part: DrawnPart,
  mesh: TubeMesh,
  name: ViewName,
  settings: ViewSettings,
): ViewDrawing {
  const view = views[name]
  const { scalePxPerMm } = settings
  const toSheet = (point: Point): Point => [point[0] * scalePxPerMm, -point[1] * scalePxPerMm]
  const place = (point: Vec3): Point => toSheet(project(view, point))
  const pieces = seeTube(mesh, view).map((piece) => ({
    ...piece,
    covers: piece.covers.map((line) => line.map(toSheet)),
    lines: piece.lines.map((line) => line.map(toSheet)),
    tangentLines: piece.tangentLines.map((line) => line.map(toSheet)),
    centreline: piece.centreline.map(toSheet),
  }))
  const halfPx = (Math.max(part.tube.widthMm, part.tube.heightMm) / 2) * scalePxPerMm
  const taken: Taken[] = pieces.flatMap((piece) =>
    piece.centreline
      .slice(1)
      .map((to, index) => ({ from: piece.centreline[index] ?? to, to, radius: halfPx + 1 })),
  )
  const inks: Ink[] = []
  const put = (placed: Placed) => {
    inks.push(...placed.inks)
    taken.push(...placed.spots)
  }
  const middle = centreOf(pieces.flatMap((piece) => piece.centreline))
  const sheet = { part, view, place, halfPx, taken, middle, settings }
  for (const [index, piece] of mesh.pieces.entries()) {
    if (piece.kind === 'arc' && settings.dimensionPieces.has(index)) {
      for (const placed of angleMark(piece, sheet)) put(placed)
    }
  }
  for (const [index, piece] of mesh.pieces.entries()) {
    if (piece.kind === 'straight' && piece.lengthMm > 0 && settings.dimensionPieces.has(index)) {
      put(straightDimension(piece, sheet))
    }
  }
  for (const [index, piece] of mesh.pieces.entries()) {
    if (piece.kind === 'arc') put(bendNote(piece, sheet, settings.dimensionPieces.has(index)))
  }
  if (name === 'elevation') for (const placed of endNotes(mesh, sheet)) put(placed)
  let box = pieces
    .flatMap((piece) => piece.covers.flat())
    .reduce((grown, point) => growBox(grown, point), noBox)
  const outline = box
  box = taken.reduce(growByTaken, box)
  for (const placed of overallDimensions(outline, box, settings)) {
    inks.push(...placed.inks)
    box = placed.spots.reduce(growByTaken, box)
  }
  return { name, pieces, inks, box }
}

interface Sheet {
  part: DrawnPart
  view: View
  place: (point: Vec3) => Point
  halfPx: number
  taken: readonly Taken[]
  middle: Point
  settings: ViewSettings
}

function growByTaken(box: Box, spot: Taken): Box {
  if ('at' in spot) return growBox(box, spot.at, spot.radius)
  return growBox(growBox(box, spot.from, spot.radius), spot.to, spot.radius)
}

function centreOf(points: readonly Point[]): Point {
  const count = Math.max(points.length, 1)
  return [
    points.reduce((sum, point) => sum + point[0], 0) / count,
    points.reduce((sum, point) => sum + point[1], 0) / count,
  ]
}

function straightDimension(piece: Piece & { kind: 'straight' }, sheet: Sheet): Placed {
  const a = sheet.place(piece.from.at)
  const b = sheet.place(stationOn(piece, 1).at)
  const mid: Point = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]
  const leftOut = (b[1] - a[1]) * (mid[0] - sheet.middle[0]) - (b[0] - a[0]) * (mid[1] - sheet.middle[1])
  const outer = leftOut > 1e-6 ? 1 : -1
  const { sizePx, units } = sheet.settings
  return alignedDimension({
    a,
    b,
    text: lengthText(piece.lengthMm, units),
    sizePx,
    startPx: sheet.halfPx,
    distancesPx: [18, 34, 50, 66, 84].map((gap) => sheet.halfPx + gap),
    sides: [outer, outer === 1 ? -1 : 1],
    taken: sheet.taken,
  })
}

/** The two tangents run on to where they meet, and the turned angle between them. */
function angleMark(piece: Piece & { kind: 'arc' }, sheet: Sheet): Placed[] {
  const { sizePx } = sheet.settings
  const start = sheet.place(piece.from.at)
  const end = sheet.place(stationOn(piece, 1).at)
  const centre = sheet.place(piece.centre)
  const radiusPx = piece.radiusMm * sheet.settings.scalePxPerMm
  const tangentPx = radiusPx * Math.tan(piece.angleRad / 2)
  if (tangentPx > 170 || !seenTrue(piece, sheet.view)) return []
  const sense =
    (start[0] - centre[0]) * (end[1] - centre[1]) - (start[1] - centre[1]) * (end[0] - centre[0]) > 0 ? 1 : -1
  const armAngle = Math.atan2(start[1] - centre[1], start[0] - centre[0])
  const into = armAngle + (sense * Math.PI) / 2
  const meet: Point = [start[0] + Math.cos(into) * tangentPx, start[1] + Math.sin(into) * tangentPx]
  const ray = (angle: number, by: number): Point => [
    meet[0] + Math.cos(angle) * by,
    meet[1] + Math.sin(angle) * by,
  ]
  const reachPx = Math.max(sheet.halfPx * 1.5 + 26, tangentPx * 0.55)
  const text = angleText((piece.angleRad * 180) / Math.PI)
  const arc = Array.from({ length: 13 }, (_, step) =>
    ray(into + (sense * piece.angleRad * step) / 12, reachPx - 6),
  )
  const bend = piece.index
  const widthPx = textWidthPx(text, sizePx)
  const middleRad = into + (sense * piece.angleRad) / 2
  const spread = Math.min(piece.angleRad / 2, 0.6)
  const places = [10, 2, 24, 40].flatMap((beyond) =>
    [0, -spread, spread].map((aside) => ({ beyond, towardRad: middleRad + aside })),
  )
  const layOut = ({ beyond, towardRad }: (typeof places)[number]) => {
    const centrePoint = ray(towardRad, reachPx + beyond + (Math.abs(Math.cos(towardRad)) * widthPx) / 2)
    return { centrePoint, spots: textSpots(centrePoint, { widthPx, sizePx, angleRad: 0 }) }
  }
  const chosen = bestPlace(places, layOut, sheet.taken)
  return [
    {
      inks: [
        { kind: 'line', line: 'construction', points: [start, ray(into, reachPx)], bend },
        { kind: 'line', line: 'construction', points: [meet, end], bend },
        { kind: 'line', line: 'dimension', points: arc, bend },
        {
          kind: 'text',
          at: chosen.centrePoint,
          text,
          angleRad: 0,
          anchor: 'middle',
          look: 'dimension',
          bend,
        },
      ],
      spots: [...chosen.spots, { from: meet, to: ray(into, reachPx), radius: 1 }],
    },
  ]
}

function bendNote(piece: Piece & { kind: 'arc' }, sheet: Sheet, dimensioned: boolean): Placed {
  const { units, sizePx, scalePxPerMm } = sheet.settings
  const bend = sheet.part.bends[piece.index]
  const marked =
    piece.radiusMm * scalePxPerMm * Math.tan(piece.angleRad / 2) <= 170 && seenTrue(piece, sheet.view)
  const lines: string[] = []
  if (dimensioned) {
    if (!marked) lines.push(angleText((piece.angleRad * 180) / Math.PI))
    lines.push(`R ${lengthText(piece.radiusMm, units)}`)
    if (bend && bend.rotationDeg !== 0) lines.push(`turned ${angleText(bend.rotationDeg)}`)
  }
  const mid = stationOn(piece, 0.5).at
  const tip = sheet.place(mid)
  const centre = sheet.place(piece.centre)
  const inward = Math.atan2(centre[1] - tip[1], centre[0] - tip[0])
  const turns = [0, 0.35, -0.35, 0.7, -0.7, 1.05, -1.05, Math.PI, Math.PI - 0.5, Math.PI + 0.5, 1.6, -1.6]
  return leaderNote({
    tip,
    lines,
    balloon: String(piece.index + 1),
    sizePx,
    directionsRad: turns.map((by) => inward + by),
    distancesPx: [18, 34, 52, 76, 104, 140].map((gap) => sheet.halfPx + gap),
    taken: sheet.taken,
    bend: piece.index,
  })
}

function endNotes(mesh: TubeMesh, sheet: Sheet): Placed[] {
  const notes: Placed[] = []
  const ends = [
    { cut: sheet.part.startCut, station: mesh.stations[0], sign: -1 },
    { cut: sheet.part.endCut, station: mesh.stations.at(-1), sign: 1 },
  ]
  for (const { cut, station, sign } of ends) {
    const text = station && cutText(cut, sheet.settings.units)
    if (!station || !text) continue
    const tip = sheet.place(station.at)
    const ahead = sheet.place(add(station.at, scale(station.along, sign)))
    const out = Math.atan2(ahead[1] - tip[1], ahead[0] - tip[0])
    notes.push(
      leaderNote({
        tip,
        lines: text,
        sizePx: sheet.settings.sizePx,
        directionsRad: [0.9, -0.9, 1.3, -1.3, 0.5, -0.5, 0, 1.9, -1.9].map((by) => out + by),
        distancesPx: [24, 40, 60, 84].map((gap) => sheet.halfPx + gap),
        taken: [...sheet.taken, ...notes.flatMap((note) => note.spots)],
      }),
    )
  }
  return notes
}

function cutText(cut: EndCut | undefined, units: DrawingUnits): readonly string[] | undefined {
  if (!cut || cut.kind === 'square') return undefined
  const turned = cut.rotationDeg ? [`turned ${angleText(cut.rotationDeg)}`] : []
  if (cut.kind === 'mitre') return [`mitre ${angleText(cut.angleDeg)}`, ...turned]
  const lean = cut.angleDeg !== undefined && cut.angleDeg !== 90 ? [`at ${angleText(cut.angleDeg)}`] : []
  return [`saddle on Ø${lengthText(cut.onDiameterMm, units)}`, ...lean, ...turned]
}

function overallDimensions(outline: Box, box: Box, settings: ViewSettings): Placed[] {
  const { scalePxPerMm, units, sizePx, overall } = settings
  const placed: Placed[] = []
  if (overall.across) {
    placed.push(
      alignedDimension({
        a: [outline.left, outline.bottom],
        b: [outline.right, outline.bottom],
        text: lengthText((outline.right - outline.left) / scalePxPerMm, units),
        sizePx,
        startPx: 2,
        distancesPx: [box.bottom - outline.bottom + 26],
        sides: [-1],
        taken: [],
      }),
    )
  }
  if (overall.up) {
    placed.push(
      alignedDimension({
        a: [outline.right, outline.bottom],
        b: [outline.right, outline.top],
        text: lengthText((outline.bottom - outline.top) / scalePxPerMm, units),
        sizePx,
        startPx: 2,
        distancesPx: [box.right - outline.right + 22],
        sides: [-1],
        taken: [],
      }),
    )
  }
  return placed
}
