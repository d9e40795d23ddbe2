import { alignedDimension } from '@/lib/core/drawing/dimension'
import type { Ink } from '@/lib/core/drawing/ink'
import { angleText, type DrawingUnits, lengthText } from '@/lib/core/drawing/length-text'
import { offsetCurve, type PressSetUp, pressShape } from '@/lib/core/drawing/press-set-up'
import type { Point } from '@/lib/core/drawing/vector'
import { Inks, pathThrough, round } from './inks'
import { ScaleBar } from './scale-bar'

const sheets = [
  { className: 'drawing-wide', widthPx: 960, sizePx: 14 },
  { className: 'drawing-narrow', widthPx: 380, sizePx: 13 },
] as const

/** The set-up seen from the front: supports at their span, the die down at full travel, the straight tube dashed. */
export function PressDrawing({
  setUp,
  filler = 'hollow',
  travelMm,
  units = 'mm',
}: {
  setUp: PressSetUp
  filler?: 'hollow' | 'sand' | 'lowMelt'
  /** The travel the model gives, with the arms' own bend in it; without it that of straight arms. */
  travelMm?: number
  units?: DrawingUnits
}) {
  const shape = pressShape(setUp)
  if (!shape) return <p className="muted">This set-up can't be drawn: the span is too short for the angle.</p>
  const travel = travelMm ?? shape.travelMm
  const words = `span ${lengthText(setUp.spanMm, units)}, die surface radius ${lengthText(setUp.dieSurfaceRadiusMm, units)}, ram travel ${lengthText(travel, units)} ${units}, ${angleText(setUp.wrappedAngleDeg)} wrapped on the die`
  return (
    <figure className="drawing">
      {sheets.map((sheet) => (
        <PressSheet
          key={sheet.className}
          setUp={setUp}
          filler={filler}
          travel={travel}
          units={units}
          words={words}
          {...sheet}
        />
      ))}
      <figcaption className="drawing-foot">
        Set-up at full travel, in {units === 'in' ? 'inches' : 'mm'}; dashed: the straight tube on its
        supports.
        {filler === 'sand' && ' Packed with sand.'}
        {filler === 'lowMelt' && ' Filled with low-melt alloy.'}
      </figcaption>
    </figure>
  )
}

function PressSheet({
  setUp,
  filler,
  travel,
  units,
  words,
  className,
  widthPx,
  sizePx,
}: {
  setUp: PressSetUp
  filler: 'hollow' | 'sand' | 'lowMelt'
  travel: number
  units: DrawingUnits
  words: string
  className: string
  widthPx: number
  sizePx: number
}) {
  const shape = pressShape(setUp)
  if (!shape) return null
  const half = setUp.heightMm / 2
  const strap = setUp.strapThicknessMm ?? 0
  const outMm = Math.max(...shape.centreline.map((point) => Math.abs(point[0]))) + half
  const tallMm = shape.travelMm + setUp.heightMm * 3 + setUp.noseRadiusMm * 2
  const scale = Math.min((widthPx - 24) / (2 * outMm), 300 / tallMm)
  const px = ([x, y]: Point): Point => [x * scale, -y * scale]
  const upper = offsetCurve(shape.centreline, half).map(px)
  const lower = offsetCurve(shape.centreline, -half).map(px)
  const under = offsetCurve(shape.centreline.slice(1, -1), -half - strap / 2).map(px)
  const die = dieOutline(shape.dieCentre, setUp.dieSurfaceRadiusMm, shape.halfAngleRad, half).map(px)
  const armTopY = Math.min(...upper.map((point) => point[1]))
  const dieTop = die.at(-1)?.[1] ?? 0
  const topPx = Math.min(armTopY, dieTop) - 56
  const straight = outMm - half
  const ghostLine = (y: number): Point[] => [px([-straight, y]), px([straight, y])]
  const noses = shape.noses.map(px)
  const [leftNose, rightNose] = noses
  const sunkY = Math.max(...lower.map((point) => point[1])) + strap * scale + 12
  const seatY = Math.max((shape.noses[0][1] - setUp.noseRadiusMm * 2.2) * -scale, sunkY)
  const lowest = seatY
  const common = { sizePx, taken: [], startPx: 2 } as const
  const span = alignedDimension({
    ...common,
    a: [leftNose?.[0] ?? 0, lowest],
    b: [rightNose?.[0] ?? 0, lowest],
    text: `span ${lengthText(setUp.spanMm, units)}`,
    distancesPx: [30],
    sides: [-1],
  })
  const deep: Ink[] = [
    {
      kind: 'line',
      line: 'dimension',
      points: [
        [0, 0],
        [0, shape.travelMm * scale],
      ],
    },
    { kind: 'tick', at: [0, 0], angleRad: Math.PI / 4 },
    { kind: 'tick', at: [0, shape.travelMm * scale], angleRad: Math.PI / 4 },
  ]
  const labels = [
    `ram travel ${lengthText(travel, units)}`,
    `die R ${lengthText(setUp.dieSurfaceRadiusMm, units)}, ${angleText(setUp.wrappedAngleDeg)} wrapped`,
  ]
  return (
    <svg
      className={className}
      viewBox={`${round(-widthPx / 2)} ${round(topPx)} ${widthPx} ${round(lowest + 84 - topPx)}`}
      role="img"
      aria-label={`Press set-up: ${words}`}
    >
      {[half, -half].map((y) => (
        <path key={y} className="ghost" d={pathThrough([ghostLine(y)])} />
      ))}
      {noses.map(([x, y]) => (
        <path
          key={x}
          className="tool"
          d={`M${round(x - setUp.noseRadiusMm * scale)} ${round(seatY)}V${round(y)}a${round(setUp.noseRadiusMm * scale)} ${round(setUp.noseRadiusMm * scale)} 0 0 1 ${round(2 * setUp.noseRadiusMm * scale)} 0V${round(seatY)}Z`}
        />
      ))}
      <path
        className={filler === 'hollow' ? 'tube-cover' : 'tube-cover fill-pack'}
        d={pathThrough([[...upper, ...lower.toReversed()]], true)}
      />
      <path className="tube-line" d={pathThrough([[...upper, ...lower.toReversed()]], true)} />
      <path className="tube-centreline" d={pathThrough([shape.centreline.map(px)])} />
      {strap > 0 && (
        <path className="strap" strokeWidth={Math.max(strap * scale, 2)} d={pathThrough([under])} />
      )}
      <path className="tool" d={pathThrough([die], true)} />
      <path
        className="ink-line"
        d={`M${round(-widthPx / 2 + 12)} ${round(seatY)}H${round(widthPx / 2 - 12)}`}
      />
      {labels.map((label, row) => (
        <text
          key={label}
          className="ink-text"
          x="0"
          y={round(dieTop - 36 + row * sizePx * 1.35)}
          fontSize={sizePx}
          textAnchor="middle"
        >
          {label}
        </text>
      ))}
      <Inks inks={[...span.inks, ...deep]} sizePx={sizePx} />
      <ScaleBar scalePxPerMm={scale} x={-widthPx / 2 + 12} y={lowest + 78} sizePx={sizePx} units={units} />
    </svg>
  )
}

/** The part of the die that bears, a little past the end of contact, and its back where the ram pushes. */
function dieOutline(centre: Point, radiusMm: number, halfAngleRad: number, halfHeightMm: number): Point[] {
  const reach = Math.min(halfAngleRad + 0.1, Math.PI / 2)
  const arc = Array.from({ length: 25 }, (_, step): Point => {
    const angle = reach * (step / 12 - 1)
    return [centre[0] + radiusMm * Math.sin(angle), centre[1] - radiusMm * Math.cos(angle)]
  })
  const end = arc.at(-1) ?? centre
  const top = end[1] + Math.max(halfHeightMm * 2.4, radiusMm * 0.2)
  return [...arc, [end[0], top], [-end[0], top]]
}
