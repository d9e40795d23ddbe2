import { classNames } from '@/app/_ui/class-names'
import type { Piece } from '@/lib/core/drawing/centreline'
import type { SeenPiece } from '@/lib/core/drawing/projection'
import { pathThrough } from './inks'

/** The tube's straights and bends, far ones first. A bend can be pressed where somebody listens. */
export function TubePieces({
  seen,
  pieces,
  selectedBend,
  onSelectBend,
}: {
  seen: readonly SeenPiece[]
  pieces: readonly Piece[]
  selectedBend?: number | null
  onSelectBend?: (bend: number) => void
}) {
  return seen.map((one) => {
    const piece = pieces[one.piece]
    const bend = piece?.kind === 'arc' ? piece.index : undefined
    const lit = bend !== undefined && bend === selectedBend
    return (
      <g
        key={one.piece}
        data-bend={bend}
        className={classNames(bend !== undefined && onSelectBend && 'bend-part', lit && 'bend-lit')}
        onClick={bend !== undefined && onSelectBend ? () => onSelectBend(bend) : undefined}
      >
        <path className="tube-cover" d={pathThrough(one.covers, true)} />
        {one.tangentLines.length > 0 && <path className="tube-tangent" d={pathThrough(one.tangentLines)} />}
        <path className="tube-line" d={pathThrough(one.lines)} />
        <path className="tube-centreline" d={pathThrough([one.centreline])} />
      </g>
    )
  })
}
