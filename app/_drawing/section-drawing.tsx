import { type DrawingUnits, lengthText } from '@/lib/core/drawing/length-text'
import { drawablePart, type TypedPart } from '@/lib/core/drawing/part'
import { type BentSection, sectionOutline } from '@/lib/core/drawing/section-outline'
import type { Point } from '@/lib/core/drawing/vector'
import { pathThrough, round } from './inks'

const boxPx = 190
const sizePx = 13

/** The section before and after the bend, to one scale, the outside of the bend up. */
export function SectionDrawing({
  tube: typed,
  after,
  units = 'mm',
}: {
  tube: TypedPart['tube']
  after?: BentSection
  units?: DrawingUnits
}) {
  const tube = drawablePart({ tube: typed, bends: [], straightAfterMm: 1 }).part?.tube
  if (!tube) return <p className="muted">No section to draw yet: the tube has no size.</p>
  const scale = Math.min(boxPx / tube.widthMm, boxPx / tube.heightMm)
  const size = (mm: number | undefined) => (mm === undefined ? undefined : lengthText(mm, units, 2))
  const flat = tube.shape === 'round' ? undefined : tube
  const before = [
    `${size(tube.widthMm)} wide`,
    tube.wallMm === undefined ? undefined : `wall ${size(tube.wallMm)}`,
  ]
  const bent = after && [
    after.widthOutsideMm === undefined || !flat ? undefined : `outer face ${size(after.widthOutsideMm)}`,
    after.widthInsideMm === undefined || !flat ? undefined : `inner face ${size(after.widthInsideMm)}`,
    after.wallOutsideMm === undefined ? undefined : `outer wall ${size(after.wallOutsideMm)}`,
    after.wallInsideMm === undefined ? undefined : `inner wall ${size(after.wallInsideMm)}`,
    after.sagMm === undefined || !flat ? undefined : `sag ${size(after.sagMm)}`,
    after.ovalityPct === undefined || flat ? undefined : `oval by ${after.ovalityPct.toFixed(1)}%`,
  ]
  const upPx = tube.heightMm * scale
  return (
    <figure className="drawing">
      <div className="section-views">
        <Outline
          title="before"
          notes={before}
          scale={scale}
          upPx={upPx}
          outline={sectionOutline(tube)}
          units={units}
        />
        {bent && (
          <Outline
            title="after the bend"
            notes={bent}
            scale={scale}
            upPx={upPx}
            outline={sectionOutline(tube, after)}
            ghost={sectionOutline(tube).outer}
            units={units}
          />
        )}
      </div>
      <figcaption className="drawing-foot">
        Section to scale, outside of the bend up, in {units === 'in' ? 'inches' : 'mm'}. Dashed: before the
        bend.
      </figcaption>
    </figure>
  )
}

function Outline({
  title,
  notes,
  scale,
  upPx,
  outline,
  ghost,
  units,
}: {
  title: string
  notes: readonly (string | undefined)[]
  scale: number
  upPx: number
  outline: ReturnType<typeof sectionOutline>
  ghost?: readonly Point[]
  units: DrawingUnits
}) {
  const flip = (points: readonly Point[]) => points.map(([x, y]): Point => [x * scale, -y * scale])
  const lines = notes.filter((note) => note !== undefined)
  const topPx = upPx / 2 + 28
  const downPx = upPx / 2 + 20 + Math.ceil(Math.max(lines.length, 1) / 2) * 20
  return (
    <svg
      className="section-view"
      viewBox={`-140 ${round(-topPx)} 280 ${round(topPx + downPx)}`}
      role="img"
      aria-label={`Section ${title}: ${lines.join(', ')} ${units}`}
    >
      <path
        className="metal"
        d={pathThrough(
          outline.bore ? [flip(outline.outer), flip(outline.bore)] : [flip(outline.outer)],
          true,
        )}
      />
      {ghost && <path className="ghost" d={pathThrough([flip(ghost)], true)} />}
      <path
        className="tube-centreline"
        d={`M-112 0H112M0 ${round(-upPx / 2 - 10)}V${round(upPx / 2 + 10)}`}
      />
      <text className="ink-title" x="-136" y={round(-topPx + 12)} fontSize={sizePx}>
        {title}
      </text>
      {lines.map((line, index) => (
        <text
          key={line}
          className="ink-text"
          x={index % 2 === 0 ? -136 : 6}
          y={round(upPx / 2 + 28 + Math.floor(index / 2) * 20)}
          fontSize={sizePx}
        >
          {line}
        </text>
      ))}
    </svg>
  )
}
