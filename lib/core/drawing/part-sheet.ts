import { remembered } from '@/lib/core/remembered'
import type { Box } from './ink'
import type { DrawingUnits } from './length-text'
import type { DrawnPart } from './part'
import { drawView, seenTrue, type ViewDrawing } from './part-view'
import { project, type ViewName, views } from './projection'
import { type TubeMesh, tubeMesh } from './tube-mesh'
import { dot, type Point } from './vector'

export interface PartSheet {
  widthPx: number
  heightPx: number
  scalePxPerMm: number
  views: readonly (ViewDrawing & { originPx: Point; titlePx: Point })[]
}

export interface SheetOptions {
  widthPx: number
  mostHeightPx: number
  sizePx: number
  units: DrawingUnits
  /** Beside each other on a wide sheet, under each other on a narrow one. */
  arrangement: 'wide' | 'narrow'
  views?: readonly ViewName[]
}

const gapPx = 30
const titleRoomPx = 22

/** The part laid out on a sheet: which views it needs, one scale for all, dimensions and notes placed. */
export const partSheet: (part: DrawnPart, options: SheetOptions) => PartSheet = remembered(laidOut, 64)

function laidOut(part: DrawnPart, options: SheetOptions): PartSheet {
  const mesh = tubeMesh(part)
  const names = options.views ?? neededViews(mesh, part, options.arrangement)
  const shares = shareDimensions(mesh, names)
  const flat = names.map((name) => flatSizeMm(mesh, name))
  const room = (count: number) => Math.max(options.widthPx - count * 130, options.widthPx * 0.4)
  const sideBySide = options.arrangement === 'wide' && names.includes('end') ? 2 : 1
  const acrossMm =
    sideBySide === 2
      ? Math.max(...flat.filter((_, index) => names[index] !== 'end').map((size) => size[0]), 1) +
        (flat[names.indexOf('end')]?.[0] ?? 0)
      : Math.max(...flat.map((size) => size[0]), 1)
  const upMm = flat
    .filter((_, index) => sideBySide === 1 || names[index] !== 'end')
    .reduce((sum, size) => sum + size[1], 0)
  let scalePxPerMm = Math.min(room(sideBySide) / acrossMm, options.mostHeightPx / Math.max(upMm, 1), 4)
  let sheet = layOut(part, mesh, names, shares, scalePxPerMm, options)
  for (let attempt = 0; attempt < 3 && sheet.widthPx > options.widthPx; attempt++) {
    const spare = sheet.widthPx - acrossMm * scalePxPerMm
    scalePxPerMm = Math.max((options.widthPx - spare) / acrossMm, scalePxPerMm * 0.6)
    sheet = layOut(part, mesh, names, shares, scalePxPerMm, options)
  }
  return sheet
}

function flatSizeMm(mesh: TubeMesh, name: ViewName): Point {
  const points = mesh.rings.flat().map((point) => project(views[name], point))
  const across = points.map((point) => point[0])
  const up = points.map((point) => point[1])
  return [Math.max(...across) - Math.min(...across), Math.max(...up) - Math.min(...up)]
}

function neededViews(mesh: TubeMesh, part: DrawnPart, arrangement: 'wide' | 'narrow'): readonly ViewName[] {
  const depths = mesh.stations.map((station) => dot(station.at, views.elevation.toViewer))
  const flat =
    Math.max(...depths) - Math.min(...depths) < Math.min(part.tube.widthMm, part.tube.heightMm) * 0.02
  if (flat) return ['elevation']
  return arrangement === 'wide' ? ['plan', 'elevation', 'end'] : ['plan', 'elevation']
}

/** Gives each straight and bend to one view: the first that shows it true, else the one that shows most of it. */
function shareDimensions(mesh: TubeMesh, names: readonly ViewName[]): ReadonlyMap<ViewName, Set<number>> {
  const order = [...names].sort((a, b) => rank(a) - rank(b))
  const shares = new Map<ViewName, Set<number>>(order.map((name) => [name, new Set<number>()]))
  for (const [index, piece] of mesh.pieces.entries()) {
    const shown = (name: ViewName) => {
      const toViewer = views[name].toViewer
      return piece.kind === 'arc'
        ? Math.abs(dot(piece.axis, toViewer))
        : 1 - Math.abs(dot(piece.from.along, toViewer))
    }
    const best =
      order.find((name) => seenTrue(piece, views[name])) ?? [...order].sort((a, b) => shown(b) - shown(a))[0]
    if (best) shares.get(best)?.add(index)
  }
  return shares
}

function rank(name: ViewName): number {
  return ['elevation', 'plan', 'end', 'isometric'].indexOf(name)
}

function layOut(
  part: DrawnPart,
  mesh: TubeMesh,
  names: readonly ViewName[],
  shares: ReadonlyMap<ViewName, Set<number>>,
  scalePxPerMm: number,
  options: SheetOptions,
): PartSheet {
  const bent = part.bends.length > 0
  const drawn = names.map((name) =>
    drawView(part, mesh, name, {
      scalePxPerMm,
      units: options.units,
      sizePx: options.sizePx,
      dimensionPieces: shares.get(name) ?? new Set(),
      overall: { across: bent && name === 'elevation', up: bent && name !== 'end' },
    }),
  )
  const end = options.arrangement === 'wide' ? drawn.find((view) => view.name === 'end') : undefined
  const column = drawn.filter((view) => view !== end)
  const left = Math.min(...column.map((view) => view.box.left))
  const columnRight = Math.max(...column.map((view) => view.box.right))
  let down = 0
  const placed: { view: ViewDrawing; originPx: Point }[] = []
  for (const view of column) {
    const top = down + titleRoomPx
    placed.push({ view, originPx: [-left, top - view.box.top] })
    down = top + (view.box.bottom - view.box.top) + gapPx
  }
  let widthPx = columnRight - left
  const beside = placed.find(({ view }) => view.name === 'elevation') ?? placed[0]
  if (end && beside) {
    placed.push({ view: end, originPx: [widthPx + gapPx - end.box.left, beside.originPx[1]] })
    widthPx += gapPx + (end.box.right - end.box.left)
    down = Math.max(down, beside.originPx[1] + end.box.bottom + gapPx)
  }
  const over = Math.max(0, ...placed.map(({ view, originPx }) => titleRoomPx - (originPx[1] + view.box.top)))
  const aside = Math.max(0, (options.widthPx - widthPx) / 2)
  return {
    widthPx: Math.max(widthPx, options.widthPx),
    heightPx: down - gapPx + over,
    scalePxPerMm,
    views: placed.map(({ view, originPx }) => ({
      ...view,
      originPx: [originPx[0] + aside, originPx[1] + over],
      titlePx: titlePlace(view.box, [originPx[0] + aside, originPx[1] + over]),
    })),
  }
}

function titlePlace(box: Box, origin: Point): Point {
  return [origin[0] + box.left, origin[1] + box.top - 8]
}
