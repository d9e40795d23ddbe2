import { walkCentreline } from '@/lib/core/drawing/centreline'
import type { DrawingUnits } from '@/lib/core/drawing/length-text'
import { drawablePart, type TypedPart } from '@/lib/core/drawing/part'
import { seeTube, views } from '@/lib/core/drawing/projection'
import { tubeMesh } from '@/lib/core/drawing/tube-mesh'
import type { Point } from '@/lib/core/drawing/vector'
import { round } from './inks'
import { partWords } from './part-words'
import { TubePieces } from './tube-pieces'

const widthPx = 640
const heightPx = 400
const edgePx = 16

/** The part as it stands in the room, without dimensions. */
export function IsometricDrawing({
  part: typed,
  units = 'mm',
  selectedBend,
  onSelectBend,
}: {
  part: TypedPart
  units?: DrawingUnits
  selectedBend?: number | null
  onSelectBend?: (bend: number) => void
}) {
  const { part, missing } = drawablePart(typed)
  if (!part) return <p className="muted">Nothing to draw yet: {missing.join('; ')}.</p>
  const seen = seeTube(tubeMesh(part), views.isometric)
  const all = seen.flatMap((piece) => piece.covers.flat())
  const across = all.map((point) => point[0])
  const up = all.map((point) => point[1])
  const left = Math.min(...across)
  const top = Math.max(...up)
  const wideMm = Math.max(...across) - left
  const highMm = top - Math.min(...up)
  const scale = Math.min((widthPx - 2 * edgePx) / wideMm, (heightPx - 2 * edgePx) / highMm)
  const onSheet = ([x, y]: Point): Point => [(x - left) * scale + edgePx, (top - y) * scale + edgePx]
  const lines = (list: readonly (readonly Point[])[]) => list.map((line) => line.map(onSheet))
  const drawn = seen.map((piece) => ({
    ...piece,
    covers: lines(piece.covers),
    lines: lines(piece.lines),
    tangentLines: lines(piece.tangentLines),
    centreline: piece.centreline.map(onSheet),
  }))
  return (
    <figure className="drawing">
      <svg
        viewBox={`0 0 ${round(wideMm * scale + 2 * edgePx)} ${round(highMm * scale + 2 * edgePx)}`}
        role="img"
        aria-label={`The part standing in the room: ${partWords(part, units)}`}
      >
        <TubePieces
          seen={drawn}
          pieces={walkCentreline(part)}
          selectedBend={selectedBend}
          onSelectBend={onSelectBend}
        />
      </svg>
    </figure>
  )
}
