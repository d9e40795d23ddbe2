import { Path, Svg, Text, View } from '@react-pdf/renderer'
import { PAPER_SIZES, type PaperSize } from '@/lib/core/templates/paper-size'
import { type Bounds, boundsOf, type Primitive, type Template } from '@/lib/core/templates/primitive'
import { scaleBars } from '@/lib/core/templates/scale-bars'
import { lineLook, svgPath } from '@/lib/core/templates/svg'
import { planTiles, type Tile, type TilePlan } from '@/lib/core/templates/tile'
import { cleanText } from './clean-text'
import { SANS } from './fonts'
import { PaperFile, type PaperIssue, Sheet, Words } from './paper'
import { MARGIN_MM, PT_PER_MM, style } from './style'

export interface TemplateData extends PaperIssue {
  readonly shopName: string
  /** Job, part and revision the template belongs to. */
  readonly belongsTo: string
  readonly templates: readonly Template[]
}

/** What the head and the scale bars take from each sheet above the drawing, and the footer below it. */
const HEAD_MM = 44
const FOOT_MM = 16
const OVERLAP_MM = 10
/** Room round every window for the marks of its corners and joins. */
const MARK_ROOM_MM = 5

/** Where on a sheet the first window begins, and how much may be drawn there. */
export function drawingArea(paper: PaperSize): {
  leftMm: number
  topMm: number
  widthMm: number
  heightMm: number
} {
  const { widthMm, heightMm } = PAPER_SIZES[paper]
  const leftMm = MARGIN_MM + MARK_ROOM_MM
  const topMm = HEAD_MM + MARGIN_MM
  return { leftMm, topMm, widthMm: widthMm - 2 * leftMm, heightMm: heightMm - topMm - FOOT_MM - MARK_ROOM_MM }
}

/** Templates at true size, cut into sheets that are joined at the registration crosses; every sheet has its own scale bars. */
export function TemplateDocument({ data }: { data: TemplateData }) {
  return (
    <PaperFile
      title={data.templates.map(({ title }) => title).join('; ')}
      author={data.shopName}
      issue={data}
    >
      {data.templates.flatMap((template, index) => {
        const area = drawingArea(data.paper)
        const found = boundsOf(template.primitives)
        // Half a line's width past the outermost line, so that none is cut at the window's edge.
        const bounds = {
          leftMm: found.leftMm - 1,
          bottomMm: found.bottomMm - 1,
          rightMm: found.rightMm + 1,
          topMm: found.topMm + 1,
        }
        const plan = planTiles({
          bounds,
          printableWidthMm: area.widthMm,
          printableHeightMm: area.heightMm,
          overlapMm: OVERLAP_MM,
        })
        return plan.sheets.map(({ tiles }) => (
          <Sheet
            key={`${index}-${tiles[0]?.name ?? ''}`}
            issue={data}
            name={`${data.shopName} · ${data.belongsTo} · true size`}
            // Everything stands at its place: what the marks reach beyond the margin must not be moved to a next page.
            single
          >
            <TemplateHead template={template} belongsTo={data.belongsTo} plan={plan} tiles={tiles} />
            <ScaleBars />
            {tiles.map((tile) => (
              <TileView key={tile.name} tile={tile} template={template} paper={data.paper} bounds={bounds} />
            ))}
          </Sheet>
        ))
      })}
    </PaperFile>
  )
}

function TemplateHead({
  template,
  belongsTo,
  plan,
  tiles,
}: {
  template: Template
  belongsTo: string
  plan: TilePlan
  tiles: readonly Tile[]
}) {
  const many = plan.columns * plan.rows > 1
  const which = many
    ? ` · part ${tiles.map(({ name }) => name).join(', ')} of ${plan.columns} across by ${plan.rows} down`
    : ''
  return (
    <View style={{ height: (HEAD_MM - 21) * PT_PER_MM, overflow: 'hidden' }}>
      <Words style={{ fontSize: 11, fontWeight: 600 }}>{template.title}</Words>
      <Words style={style.small}>{`${belongsTo}${which}`}</Words>
      <Words style={{ fontSize: 7, lineHeight: 1.2 }}>
        {[
          ...(many ? [`Lay sheets over each other by ${plan.overlapMm} mm, cross on cross, then tape.`] : []),
          ...template.notes,
        ].join(' ')}
      </Words>
    </View>
  )
}

/** The bars stand at a fixed place, so that a rule can be laid on them before anything else is done. */
function ScaleBars() {
  const [widthMm, heightMm] = [130, 20]
  return (
    <View style={{ position: 'absolute', left: MARGIN_MM * PT_PER_MM, top: (HEAD_MM - 9) * PT_PER_MM }}>
      <Svg
        width={widthMm * PT_PER_MM}
        height={heightMm * PT_PER_MM}
        viewBox={`-1 -19 ${widthMm} ${heightMm}`}
      >
        {scaleBars([0, 11]).map((primitive, index) => (
          <Drawn key={index} primitive={primitive} />
        ))}
      </Svg>
      <Text
        style={{
          position: 'absolute',
          left: 124 * PT_PER_MM,
          top: 7 * PT_PER_MM,
          width: 58 * PT_PER_MM,
          fontSize: 7,
          lineHeight: 1.2,
        }}
      >
        Print at 100 %, “actual size”. Check both bars with a rule: 0.5 mm out over 100 mm, do not use the
        sheet.
      </Text>
    </View>
  )
}

function TileView({
  tile,
  template,
  paper,
  bounds,
}: {
  tile: Tile
  template: Template
  paper: PaperSize
  bounds: Bounds
}) {
  const area = drawingArea(paper)
  const [leftMm, topMm] = [area.leftMm + tile.sheetXMm, area.topMm + tile.sheetYMm]
  const place = { position: 'absolute', left: leftMm * PT_PER_MM, top: topMm * PT_PER_MM } as const
  const size = { width: tile.widthMm * PT_PER_MM, height: tile.heightMm * PT_PER_MM }
  return (
    <>
      <View style={{ ...place, ...size, overflow: 'hidden' }}>
        <Svg {...size} viewBox={`${tile.leftMm} ${-tile.topMm} ${tile.widthMm} ${tile.heightMm}`}>
          {template.primitives.map((primitive, index) => (
            <Drawn key={index} primitive={primitive} />
          ))}
          <Path d={registrationPath(tile, bounds)} stroke="#000" strokeWidth={0.12} fill="none" />
        </Svg>
      </View>
      <CornerMarks leftMm={leftMm} topMm={topMm} tile={tile} />
    </>
  )
}

/** Crosses on the middle line of every overlap, at the same place of the drawing on both sheets. */
function registrationPath(tile: Tile, bounds: Bounds): string {
  const half = OVERLAP_MM / 2
  const [right, bottom] = [tile.leftMm + tile.widthMm, tile.topMm - tile.heightMm]
  const acrossYs = [tile.topMm - 8, bottom + 8]
  const downXs = [tile.leftMm + 20, Math.min(right, bounds.rightMm) - 20]
  const crosses: (readonly [number, number])[] = [
    ...(tile.joins.left ? acrossYs.map((y) => [tile.leftMm + half, y] as const) : []),
    ...(tile.joins.right ? acrossYs.map((y) => [right - half, y] as const) : []),
    ...(tile.joins.above ? downXs.map((x) => [x, tile.topMm - half] as const) : []),
    ...(tile.joins.below ? downXs.map((x) => [x, bottom + half] as const) : []),
  ]
  return crosses.map(([x, y]) => `M${x - 3} ${-y}H${x + 3}M${x} ${-y - 3}V${-y + 3}`).join('')
}

/** Ticks outside the window's corners, and its name: the sheet may be trimmed to them. */
function CornerMarks({ leftMm, topMm, tile }: { leftMm: number; topMm: number; tile: Tile }) {
  const [w, h, r] = [tile.widthMm, tile.heightMm, MARK_ROOM_MM]
  const corners = [
    [0, 0, -1, -1],
    [w, 0, 1, -1],
    [0, h, -1, 1],
    [w, h, 1, 1],
  ] as const
  const d = corners.map(([x, y, sx, sy]) => `M${x + sx} ${y}h${sx * 3.5}M${x} ${y + sy}v${sy * 3.5}`).join('')
  return (
    <View style={{ position: 'absolute', left: (leftMm - r) * PT_PER_MM, top: (topMm - r) * PT_PER_MM }}>
      <Svg
        width={(w + 2 * r) * PT_PER_MM}
        height={(h + 2 * r) * PT_PER_MM}
        viewBox={`${-r} ${-r} ${w + 2 * r} ${h + 2 * r}`}
      >
        <Path d={d} stroke="#000" strokeWidth={0.15} fill="none" />
        <Text x={2} y={-1.4} style={{ fontSize: 3, fontFamily: SANS }}>
          {tile.name}
        </Text>
      </Svg>
    </View>
  )
}

function Drawn({ primitive }: { primitive: Primitive }) {
  if (primitive.kind === 'text') {
    const [x, y] = [primitive.at[0], -primitive.at[1]]
    return (
      <Text
        x={x}
        y={y}
        textAnchor={primitive.anchor}
        style={{ fontSize: primitive.heightMm / 0.7, fontFamily: SANS }}
        {...(primitive.rotationDeg === 0 ? {} : { transform: `rotate(${-primitive.rotationDeg} ${x} ${y})` })}
      >
        {cleanText(primitive.text, 120)}
      </Text>
    )
  }
  const { widthMm, dashesMm } = lineLook(primitive.layer)
  return (
    <Path
      d={svgPath(primitive)}
      stroke="#000"
      strokeWidth={widthMm}
      fill="none"
      {...(dashesMm ? { strokeDasharray: dashesMm } : {})}
    />
  )
}
