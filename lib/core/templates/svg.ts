import { boundsOf, type Primitive, pointOnCircle, type Template, type TemplateLayer } from './primitive'

const LINE_WIDTH_MM: Readonly<Record<TemplateLayer, number>> = {
  CUT: 0.35,
  MARK: 0.2,
  CENTRE: 0.18,
  LIMIT: 0.2,
  SCALE: 0.2,
  TEXT: 0.2,
}
const DASHES_MM: Readonly<Partial<Record<TemplateLayer, string>>> = {
  CENTRE: '8 1.5 1.5 1.5',
  LIMIT: '2.5 1.5',
}

/** How a layer's lines look, in millimetres, for every way of drawing a template. */
export function lineLook(layer: TemplateLayer): { readonly widthMm: number; readonly dashesMm?: string } {
  const dashesMm = DASHES_MM[layer]
  return dashesMm ? { widthMm: LINE_WIDTH_MM[layer], dashesMm } : { widthMm: LINE_WIDTH_MM[layer] }
}

/** The path of a line, arc or polyline with y down, one user unit a millimetre. A text has none. */
export function svgPath(primitive: Exclude<Primitive, { kind: 'text' }>): string {
  switch (primitive.kind) {
    case 'line':
      return `M${xy(primitive.from)}L${xy(primitive.to)}`
    case 'polyline':
      return `M${primitive.points.map(xy).join('L')}`
    case 'arc': {
      const { centre, radiusMm, startDeg, endDeg } = primitive
      // An arc of half a turn or more is drawn as two, so that a reader never has to guess which way round.
      const middleDeg = (startDeg + endDeg) / 2
      const [start, middle, end] = [startDeg, middleDeg, endDeg].map((deg) =>
        xy(pointOnCircle(centre, radiusMm, deg)),
      )
      return `M${start}A${number(radiusMm)} ${number(radiusMm)} 0 0 0 ${middle}A${number(radiusMm)} ${number(radiusMm)} 0 0 0 ${end}`
    }
  }
}

/**
 * The template as a scalable drawing whose width and height are given in millimetres, so that it opens at true size.
 * Source: W3C Scalable Vector Graphics 1.1, chapter 7 (units and viewBox).
 */
export function templateSvg(template: Template): string {
  const marginMm = 5
  const { leftMm, bottomMm, rightMm, topMm } = boundsOf(template.primitives)
  const [widthMm, heightMm] = [rightMm - leftMm + 2 * marginMm, topMm - bottomMm + 2 * marginMm]
  const view = [leftMm - marginMm, -topMm - marginMm, widthMm, heightMm].map(number).join(' ')
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${number(widthMm)}mm" height="${number(heightMm)}mm" viewBox="${view}">`,
    `<title>${escaped(template.title)}</title>`,
    `<desc>${escaped(template.notes.join(' '))}</desc>`,
    ...template.primitives.map(svgElement),
    '</svg>',
    '',
  ].join('\n')
}

function svgElement(primitive: Primitive): string {
  if (primitive.kind === 'text') {
    const [x, y] = [number(primitive.at[0]), number(-primitive.at[1])]
    const turn =
      primitive.rotationDeg === 0 ? '' : ` transform="rotate(${number(-primitive.rotationDeg)} ${x} ${y})"`
    // Letter height is that of capitals, about 0.7 of the type size.
    return `<text class="${primitive.layer}" x="${x}" y="${y}" font-family="sans-serif" font-size="${number(primitive.heightMm / 0.7)}" text-anchor="${primitive.anchor}"${turn}>${escaped(primitive.text)}</text>`
  }
  const { widthMm, dashesMm } = lineLook(primitive.layer)
  const dashes = dashesMm ? ` stroke-dasharray="${dashesMm}"` : ''
  return `<path class="${primitive.layer}" d="${svgPath(primitive)}" fill="none" stroke="#000" stroke-width="${widthMm}"${dashes}/>`
}

function xy([xMm, yMm]: readonly [number, number]): string {
  return `${number(xMm)} ${number(-yMm)}`
}

function number(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError('a template holds a length that is not a number')
  return String(Number(value.toFixed(5)) || 0)
}

function escaped(words: string): string {
  // Control characters are not allowed in the file at all.
  const allowed = words.replace(/[\p{Cc}\ufffe\uffff]/gu, ' ')
  return allowed.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;')
}
