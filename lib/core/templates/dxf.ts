import { boundsOf, type Primitive, TEMPLATE_LAYERS, type Template } from './primitive'

/** One group of a drawing exchange file: a code that says what the value is, and the value. */
export type DxfGroup = readonly [code: number, value: string | number]

export interface DxfLayer {
  readonly name: string
  readonly colour: number
  readonly lineType: 'CONTINUOUS' | 'CENTER' | 'DASHED'
}

const TEMPLATE_DXF_LAYERS: readonly DxfLayer[] = TEMPLATE_LAYERS.map((name) => ({
  name,
  colour: { CUT: 7, MARK: 5, CENTRE: 3, LIMIT: 1, SCALE: 8, TEXT: 7 }[name],
  lineType: name === 'CENTRE' ? 'CENTER' : name === 'LIMIT' ? 'DASHED' : 'CONTINUOUS',
}))

/** A template as a drawing exchange file, one drawing unit a millimetre. */
export function templateDxf(template: Template): string {
  const { leftMm, bottomMm, rightMm, topMm } = boundsOf(template.primitives)
  return writeDxf({
    title: template.title,
    layers: TEMPLATE_DXF_LAYERS,
    extents: { from: [leftMm, bottomMm, 0], to: [rightMm, topMm, 0] },
    entities: template.primitives.flatMap(primitiveGroups),
  })
}

/**
 * A drawing exchange file of release 12 (AC1009) in ASCII: header, line types, layers, entities, end.
 * Every group is two lines, code then value. Release 12 has no unit variable, so the unit is said in a comment (group 999).
 * Source: Autodesk, DXF Reference (release 12): group codes 0, 2, 6, 8, 10-31, 40, 50, 51, 62, 66, 70, 72, 999.
 */
export function writeDxf(drawing: {
  readonly title: string
  readonly layers: readonly DxfLayer[]
  readonly extents: {
    readonly from: readonly [number, number, number]
    readonly to: readonly [number, number, number]
  }
  readonly entities: readonly DxfGroup[]
}): string {
  const { from, to } = drawing.extents
  const groups: DxfGroup[] = [
    [999, `${drawing.title} (units: millimetres)`],
    ...section('HEADER', [
      [9, '$ACADVER'],
      [1, 'AC1009'],
      [9, '$EXTMIN'],
      ...point(10, from),
      [9, '$EXTMAX'],
      ...point(10, to),
      [9, '$LUNITS'],
      [70, 2],
    ]),
    ...section('TABLES', [...lineTypeTable(), ...layerTable(drawing.layers)]),
    ...section('ENTITIES', drawing.entities),
    [0, 'EOF'],
  ]
  return groups
    .map(([code, value]) => `${String(code).padStart(3)}\r\n${groupText(code, value)}\r\n`)
    .join('')
}

export function point(code: number, [x, y, z]: readonly [number, number, number]): DxfGroup[] {
  return [
    [code, x],
    [code + 10, y],
    [code + 20, z],
  ]
}

export function lineGroups(
  layer: string,
  from: readonly [number, number, number],
  to: readonly [number, number, number],
): DxfGroup[] {
  return [[0, 'LINE'], [8, layer], ...point(10, from), ...point(11, to)]
}

export function polylineGroups(
  layer: string,
  points: readonly (readonly [number, number, number])[],
  spatial = false,
): DxfGroup[] {
  return [
    [0, 'POLYLINE'],
    [8, layer],
    [66, 1],
    ...point(10, [0, 0, 0]),
    [70, spatial ? 8 : 0],
    ...points.flatMap((at): DxfGroup[] => [
      [0, 'VERTEX'],
      [8, layer],
      ...point(10, at),
      ...(spatial ? [[70, 32] as const] : []),
    ]),
    [0, 'SEQEND'],
    [8, layer],
  ]
}

export function textGroups(
  layer: string,
  text: {
    at: readonly [number, number]
    words: string
    heightMm: number
    rotationDeg?: number
    anchor?: 'start' | 'middle' | 'end'
  },
): DxfGroup[] {
  const at = [text.at[0], text.at[1], 0] as const
  const justified: DxfGroup[] =
    text.anchor && text.anchor !== 'start' ? [[72, text.anchor === 'middle' ? 1 : 2], ...point(11, at)] : []
  return [
    [0, 'TEXT'],
    [8, layer],
    ...point(10, at),
    [40, text.heightMm],
    [1, text.words],
    [50, text.rotationDeg ?? 0],
    ...justified,
  ]
}

function primitiveGroups(primitive: Primitive): DxfGroup[] {
  const { layer } = primitive
  switch (primitive.kind) {
    case 'line':
      return lineGroups(layer, [...primitive.from, 0], [...primitive.to, 0])
    case 'polyline':
      return polylineGroups(
        layer,
        primitive.points.map(([x, y]) => [x, y, 0]),
      )
    case 'arc':
      return [
        [0, 'ARC'],
        [8, layer],
        ...point(10, [...primitive.centre, 0]),
        [40, primitive.radiusMm],
        [50, turn(primitive.startDeg)],
        [51, turn(primitive.endDeg)],
      ]
    case 'text':
      return textGroups(layer, { ...primitive, words: primitive.text })
  }
}

function section(name: string, groups: readonly DxfGroup[]): DxfGroup[] {
  return [[0, 'SECTION'], [2, name], ...groups, [0, 'ENDSEC']]
}

function lineTypeTable(): DxfGroup[] {
  const kinds: readonly (readonly [name: string, look: string, dashesMm: readonly number[]])[] = [
    ['CONTINUOUS', 'Solid line', []],
    ['CENTER', '____ _ ____ _', [8, -1.5, 1.5, -1.5]],
    ['DASHED', '__ __ __ __', [2.5, -1.5]],
  ]
  const entries = kinds.flatMap(([name, look, dashesMm]): DxfGroup[] => [
    [0, 'LTYPE'],
    [2, name],
    [70, 0],
    [3, look],
    [72, 65],
    [73, dashesMm.length],
    [40, dashesMm.reduce((sum, dashMm) => sum + Math.abs(dashMm), 0)],
    ...dashesMm.map((dashMm): DxfGroup => [49, dashMm]),
  ])
  return [[0, 'TABLE'], [2, 'LTYPE'], [70, kinds.length], ...entries, [0, 'ENDTAB']]
}

function layerTable(layers: readonly DxfLayer[]): DxfGroup[] {
  const entries = layers.flatMap((layer): DxfGroup[] => [
    [0, 'LAYER'],
    [2, layer.name],
    [70, 0],
    [62, layer.colour],
    [6, layer.lineType],
  ])
  return [[0, 'TABLE'], [2, 'LAYER'], [70, layers.length], ...entries, [0, 'ENDTAB']]
}

function turn(angleDeg: number): number {
  return ((angleDeg % 360) + 360) % 360
}

/** Whole-number group codes are 60 to 79; 10 to 59 are reals. Everything else is text. */
function groupText(code: number, value: string | number): string {
  if (typeof value === 'string') return dxfText(value)
  if (!Number.isFinite(value)) throw new RangeError('a drawing holds a length that is not a number')
  return code >= 60 && code <= 79 ? String(Math.round(value)) : (Number(value.toFixed(6)) || 0).toFixed(6)
}

/**
 * Text for a file that is ASCII and ends every value with the line: the reference's own codes for degree, plus-minus and
 * diameter, a plain letter where one exists, a question mark otherwise, and never a line break.
 */
export function dxfText(words: string): string {
  const coded = words
    .replace(/°/g, '%%d')
    .replace(/±/g, '%%p')
    .replace(/[Øø⌀]/g, '%%c')
    .replace(/×/g, 'x')
    .replace(/[’‘]/g, "'")
    .replace(/[“”]/g, '"')
    .replace(/[–—−]/g, '-')
  const plain = coded.normalize('NFKD').replace(/\p{M}/gu, '')
  return plain.replace(/[^\x20-\x7e]+/gu, (odd) => (/^\s+$/u.test(odd) ? ' ' : '?')).slice(0, 250)
}
