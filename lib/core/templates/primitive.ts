/** A point of a template in millimetres, x to the right and y up, as drawing exchange files have it. */
export type TemplatePoint = readonly [xMm: number, yMm: number]

/** What a line is for: it decides how it is drawn on paper and which layer it lies on in a drawing file. */
export type TemplateLayer = 'CUT' | 'MARK' | 'CENTRE' | 'LIMIT' | 'SCALE' | 'TEXT'

export const TEMPLATE_LAYERS: readonly TemplateLayer[] = ['CUT', 'MARK', 'CENTRE', 'LIMIT', 'SCALE', 'TEXT']

/** How wide a letter is, on average, against the height of a capital. */
export const LETTER_WIDTH_PER_HEIGHT = 0.8

export type TextAnchor = 'start' | 'middle' | 'end'

/** The four things a template is drawn with. Arcs run counter-clockwise from startDeg to endDeg. */
export type Primitive =
  | {
      readonly kind: 'line'
      readonly layer: TemplateLayer
      readonly from: TemplatePoint
      readonly to: TemplatePoint
    }
  | {
      readonly kind: 'arc'
      readonly layer: TemplateLayer
      readonly centre: TemplatePoint
      readonly radiusMm: number
      readonly startDeg: number
      readonly endDeg: number
    }
  | { readonly kind: 'polyline'; readonly layer: TemplateLayer; readonly points: readonly TemplatePoint[] }
  | {
      readonly kind: 'text'
      readonly layer: TemplateLayer
      readonly at: TemplatePoint
      readonly text: string
      readonly heightMm: number
      readonly rotationDeg: number
      readonly anchor: TextAnchor
    }

/** A drawing at true size, with what the person who uses it must know. */
export interface Template {
  readonly title: string
  readonly primitives: readonly Primitive[]
  readonly notes: readonly string[]
}

export interface Bounds {
  readonly leftMm: number
  readonly bottomMm: number
  readonly rightMm: number
  readonly topMm: number
}

type Of<Kind extends Primitive['kind']> = Extract<Primitive, { kind: Kind }>

export function line(layer: TemplateLayer, from: TemplatePoint, to: TemplatePoint): Of<'line'> {
  return { kind: 'line', layer, from, to }
}

export function polyline(layer: TemplateLayer, points: readonly TemplatePoint[]): Of<'polyline'> {
  return { kind: 'polyline', layer, points }
}

export function arc(
  layer: TemplateLayer,
  circle: { centre: TemplatePoint; radiusMm: number; startDeg: number; endDeg: number },
): Of<'arc'> {
  return { kind: 'arc', layer, ...circle }
}

export function text(
  at: TemplatePoint,
  words: string,
  how: { heightMm?: number; rotationDeg?: number; anchor?: TextAnchor; layer?: TemplateLayer } = {},
): Primitive {
  return {
    kind: 'text',
    layer: how.layer ?? 'TEXT',
    at,
    text: words,
    heightMm: how.heightMm ?? 3,
    rotationDeg: how.rotationDeg ?? 0,
    anchor: how.anchor ?? 'start',
  }
}

/** The point at an angle, counter-clockwise from +x, on a circle. */
export function pointOnCircle(centre: TemplatePoint, radiusMm: number, angleDeg: number): TemplatePoint {
  const angleRad = (angleDeg * Math.PI) / 180
  return [centre[0] + radiusMm * Math.cos(angleRad), centre[1] + radiusMm * Math.sin(angleRad)]
}

/**
 * The smallest upright rectangle that holds every primitive; a text is taken as 0.8 of its
 * capitals' height wide for each letter, the average of a plain sans face (measured on IBM Plex Sans).
 */
export function boundsOf(primitives: readonly Primitive[]): Bounds {
  const points = primitives.flatMap(extremePoints)
  if (points.length === 0) throw new RangeError('a template without a single line has no size')
  const xs = points.map(([xMm]) => xMm)
  const ys = points.map(([, yMm]) => yMm)
  const least = (values: readonly number[]) => values.reduce((a, b) => Math.min(a, b))
  const most = (values: readonly number[]) => values.reduce((a, b) => Math.max(a, b))
  return { leftMm: least(xs), bottomMm: least(ys), rightMm: most(xs), topMm: most(ys) }
}

function extremePoints(primitive: Primitive): TemplatePoint[] {
  switch (primitive.kind) {
    case 'line':
      return [primitive.from, primitive.to]
    case 'polyline':
      return [...primitive.points]
    case 'arc': {
      const { centre, radiusMm, startDeg, endDeg } = primitive
      const angles = [startDeg, endDeg]
      for (let quarterDeg = Math.ceil(startDeg / 90) * 90; quarterDeg < endDeg; quarterDeg += 90)
        angles.push(quarterDeg)
      return angles.map((angleDeg) => pointOnCircle(centre, radiusMm, angleDeg))
    }
    case 'text': {
      const { at, heightMm, rotationDeg, anchor } = primitive
      const widthMm = primitive.text.length * heightMm * LETTER_WIDTH_PER_HEIGHT
      const startMm = { start: 0, middle: -widthMm / 2, end: -widthMm }[anchor]
      const turnRad = (rotationDeg * Math.PI) / 180
      const corners = [
        [startMm, -0.25 * heightMm],
        [startMm + widthMm, -0.25 * heightMm],
        [startMm, heightMm],
        [startMm + widthMm, heightMm],
      ] as const
      return corners.map(([x, y]) => [
        at[0] + x * Math.cos(turnRad) - y * Math.sin(turnRad),
        at[1] + x * Math.sin(turnRad) + y * Math.cos(turnRad),
      ])
    }
  }
}

/** The same template moved so that its lower left corner lies at the margin. */
export function movedToOrigin(template: Template, marginMm = 0): Template {
  const { leftMm, bottomMm } = boundsOf(template.primitives)
  const move = ([xMm, yMm]: TemplatePoint): TemplatePoint => [
    xMm - leftMm + marginMm,
    yMm - bottomMm + marginMm,
  ]
  return {
    ...template,
    primitives: template.primitives.map((primitive): Primitive => {
      switch (primitive.kind) {
        case 'line':
          return { ...primitive, from: move(primitive.from), to: move(primitive.to) }
        case 'polyline':
          return { ...primitive, points: primitive.points.map(move) }
        case 'arc':
          return { ...primitive, centre: move(primitive.centre) }
        case 'text':
          return { ...primitive, at: move(primitive.at) }
      }
    }),
  }
}
