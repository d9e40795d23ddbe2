import { Path, Svg, Text, View } from '@react-pdf/renderer'
import { cleanText } from './clean-text'
import { SANS } from './fonts'
import { PT_PER_MM, style } from './style'

/** A view of the part in its own millimetres, x to the right and y down from the upper left corner. */
export interface Linework {
  readonly title?: string
  readonly widthMm: number
  readonly heightMm: number
  readonly strokes: readonly {
    readonly points: readonly (readonly [xMm: number, yMm: number])[]
    /** A cover hides what was drawn before it. */
    readonly kind: 'edge' | 'centre' | 'dimension' | 'cover'
  }[]
  readonly labels: readonly {
    readonly xMm: number
    readonly yMm: number
    readonly text: string
    readonly anchor: 'start' | 'middle' | 'end'
    /** Clockwise, about a point that is not always the text's own place. */
    readonly turnDeg?: number
    readonly turnAtMm?: readonly [xMm: number, yMm: number]
  }[]
}

const WIDTH_MM = { edge: 0.4, centre: 0.16, dimension: 0.16, cover: 0 }

/** The view fitted into a box on the paper; lines and letters keep their printed size whatever the scale. */
export function LineworkView({
  view,
  boxWidthMm,
  boxHeightMm,
}: {
  view: Linework
  boxWidthMm: number
  boxHeightMm: number
}) {
  const marginMm = 3
  const scale = Math.min(
    (boxWidthMm - 2 * marginMm) / Math.max(view.widthMm, 1e-6),
    (boxHeightMm - 2 * marginMm) / Math.max(view.heightMm, 1e-6),
  )
  const offsetX = (boxWidthMm - view.widthMm * scale) / 2
  const offsetY = (boxHeightMm - view.heightMm * scale) / 2
  const x = (xMm: number) => (offsetX + xMm * scale).toFixed(3)
  const y = (yMm: number) => (offsetY + yMm * scale).toFixed(3)
  return (
    <View style={{ width: boxWidthMm * PT_PER_MM }} wrap={false}>
      {view.title ? <Text style={style.label}>{cleanText(view.title)}</Text> : null}
      <View style={{ overflow: 'hidden' }}>
        <Svg
          width={boxWidthMm * PT_PER_MM}
          height={boxHeightMm * PT_PER_MM}
          viewBox={`0 0 ${boxWidthMm} ${boxHeightMm}`}
        >
          {runs(view.strokes).map(({ kind, lines }, index) => (
            <Path
              // Strokes have no names of their own.
              key={index}
              d={lines
                .map(
                  (points) =>
                    `M${points.map(([xMm, yMm]) => `${x(xMm)} ${y(yMm)}`).join('L')}${kind === 'cover' ? 'Z' : ''}`,
                )
                .join('')}
              {...(kind === 'cover'
                ? { fill: '#fff' }
                : { stroke: '#000', strokeWidth: WIDTH_MM[kind], fill: 'none' })}
              {...(kind === 'centre' ? { strokeDasharray: '4 1 1 1' } : {})}
            />
          ))}
          {view.labels.map((label, index) => (
            <Text
              key={index}
              x={Number(x(label.xMm))}
              y={Number(y(label.yMm))}
              textAnchor={label.anchor}
              style={{ fontSize: 2.9, fontFamily: SANS }}
              {...(label.turnDeg
                ? {
                    transform: `rotate(${label.turnDeg} ${x((label.turnAtMm ?? [label.xMm, 0])[0])} ${y((label.turnAtMm ?? [0, label.yMm])[1])})`,
                  }
                : {})}
            >
              {cleanText(label.text, 60)}
            </Text>
          ))}
        </Svg>
      </View>
    </View>
  )
}

/** Strokes of one kind that follow each other are drawn as one path: a page of single lines takes the renderer long. */
function runs(strokes: Linework['strokes']) {
  const found: { kind: (typeof strokes)[number]['kind']; lines: (typeof strokes)[number]['points'][] }[] = []
  for (const { kind, points } of strokes) {
    const last = found.at(-1)
    if (last?.kind === kind) last.lines.push(points)
    else found.push({ kind, lines: [points] })
  }
  return found
}

/** All views at one scale, side by side or one above the other, whichever draws the part larger. */
export function Views({
  views,
  pageWidthMm,
  heightMm,
}: {
  views: readonly Linework[]
  pageWidthMm: number
  heightMm: number
}) {
  const sum = (of: (view: Linework) => number) =>
    views.reduce((total, view) => total + Math.max(of(view), 1), 0)
  const most = (of: (view: Linework) => number) => Math.max(1, ...views.map(of))
  const gapMm = 6 * views.length
  const [wide, high] = [(view: Linework) => view.widthMm, (view: Linework) => view.heightMm]
  const besideScale = Math.min((pageWidthMm - gapMm) / sum(wide), (heightMm - 6) / most(high))
  const stackedScale = Math.min((pageWidthMm - 6) / most(wide), (heightMm - gapMm) / sum(high))
  const isBeside = besideScale >= stackedScale
  return (
    <View style={{ ...(isBeside ? style.row : {}), ...style.rule, paddingVertical: 3 }} wrap={false}>
      {views.map((view, index) => (
        <LineworkView
          key={`${index}-${view.title ?? ''}`}
          view={view}
          boxWidthMm={isBeside ? (pageWidthMm * Math.max(view.widthMm, 1)) / sum(wide) : pageWidthMm}
          boxHeightMm={isBeside ? heightMm : Math.max(view.heightMm * stackedScale + 6, 10)}
        />
      ))}
    </View>
  )
}

/** Room for the views at the size they were laid out for, so that their lettering keeps clear of their lines. */
export function viewsHeightMm(views: readonly Linework[]): number {
  return Math.min(96, Math.max(30, ...views.map(({ heightMm }) => heightMm + 6)))
}
