import { SCALE_BAR_IN, SCALE_BAR_MM } from './paper-size'
import { boundsOf, line, type Primitive, type Template, type TemplatePoint, text } from './primitive'

/** A 100 mm bar and, below it, a 4 in bar, each with ticks; `at` is the left end of the upper one. */
export function scaleBars(at: TemplatePoint): Primitive[] {
  return [
    ...bar(
      at,
      Array.from({ length: 11 }, (_, cm) => cm * 10),
      `${SCALE_BAR_MM} mm`,
    ),
    ...bar(
      [at[0], at[1] - 8],
      Array.from({ length: 4 * SCALE_BAR_IN + 1 }, (_, quarter) => (quarter * 25.4) / 4),
      `${SCALE_BAR_IN} in`,
    ),
  ]
}

/** The template with the two bars under it, for files that are not printed by us. */
export function withScaleBars(template: Template): Template {
  const { leftMm, bottomMm } = boundsOf(template.primitives)
  return { ...template, primitives: [...template.primitives, ...scaleBars([leftMm, bottomMm - 10])] }
}

function bar([xMm, yMm]: TemplatePoint, ticksMm: readonly number[], words: string): Primitive[] {
  const lengthMm = ticksMm.at(-1) ?? 0
  return [
    line('SCALE', [xMm, yMm], [xMm + lengthMm, yMm]),
    ...ticksMm.map((tickMm, index) => {
      const isEnd = index === 0 || index === ticksMm.length - 1
      return line('SCALE', [xMm + tickMm, yMm], [xMm + tickMm, yMm + (isEnd ? 4 : 2)])
    }),
    text([xMm + lengthMm + 2, yMm], words, { layer: 'SCALE', heightMm: 3 }),
  ]
}
