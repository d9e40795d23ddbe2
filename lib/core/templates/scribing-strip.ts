import { trimmed } from './bend-check'
import {
  LETTER_WIDTH_PER_HEIGHT,
  line,
  movedToOrigin,
  type Primitive,
  type Template,
  text,
} from './primitive'

export type ScribeKind = 'datum' | 'tangent' | 'bendCentre' | 'trim' | 'mitre' | 'hole' | 'end'

/** One mark along the tube, measured from the datum end along the blank. */
export interface ScribeMark {
  readonly atMm: number
  readonly kind: ScribeKind
  readonly label: string
}

const STRIP_WIDTH_MM = 52
const LABEL_MM = 2.6
const LABEL_PITCH_MM = 4

/**
 * A strip to lay along the tube with every mark at its place from the datum end, and a rule of its own along one edge
 * so that joined sheets can be checked. Labels of marks closer than a letter stand beside each other, each with a leader to its own mark.
 * Source: arithmetic. Valid: marks within the blank's length. Exact.
 */
export function scribingStripTemplate(strip: {
  readonly blankLengthMm: number
  readonly marks: readonly ScribeMark[]
  readonly name?: string
}): Template {
  const { blankLengthMm, marks } = strip
  if (!(blankLengthMm > 0)) throw new RangeError(`a blank ${blankLengthMm} mm long carries no marks`)
  const outside = marks.find(({ atMm }) => !(atMm >= 0 && atMm <= blankLengthMm))
  if (outside)
    throw new RangeError(
      `the mark “${outside.label}” at ${outside.atMm} mm is off the ${blankLengthMm} mm blank`,
    )
  const inOrder = [...marks].sort((a, b) => a.atMm - b.atMm)
  const places = spread(inOrder.map(({ atMm }) => atMm))
  const rule: Primitive[] = []
  for (let atMm = 0; atMm <= blankLengthMm; atMm += 10) {
    const isHundred = atMm % 100 === 0
    rule.push(line('SCALE', [atMm, 0], [atMm, isHundred ? 6 : atMm % 50 === 0 ? 4.5 : 3]))
    if (isHundred && atMm > 0)
      rule.push(text([atMm + 0.8, 3.4], String(atMm), { heightMm: 2.2, layer: 'SCALE' }))
  }
  const primitives: Primitive[] = [
    line('CUT', [0, 0], [blankLengthMm, 0]),
    line('CUT', [0, 0], [0, STRIP_WIDTH_MM]),
    line('CUT', [0, STRIP_WIDTH_MM], [blankLengthMm, STRIP_WIDTH_MM]),
    line('CUT', [blankLengthMm, 0], [blankLengthMm, STRIP_WIDTH_MM]),
    ...rule,
    ...inOrder.flatMap((mark, index): Primitive[] => {
      const placeMm = places[index] ?? mark.atMm
      const layer = mark.kind === 'bendCentre' ? 'CENTRE' : 'MARK'
      return [
        line(layer, [mark.atMm, 0], [mark.atMm, 12]),
        line('MARK', [mark.atMm, 12], [placeMm, 15]),
        text([placeMm + LABEL_MM / 2, 15.5], `${trimmed(mark.atMm)} ${mark.label}`.slice(0, 28), {
          heightMm: Math.min(LABEL_MM, labelHeightMm(mark)),
          rotationDeg: 90,
        }),
      ]
    }),
  ]
  return movedToOrigin({
    title: `Scribing strip, ${strip.name ?? 'blank'}: ${trimmed(blankLengthMm)} mm from the datum end`,
    primitives,
    notes: [
      'Put the left end at the datum end of the blank and the ruled edge along the tube; every mark is measured from that one end.',
      'Check the strip’s own rule with a tape over its whole length after the sheets are joined.',
    ],
  })
}

function labelHeightMm(mark: ScribeMark): number {
  const letters = Math.min(28, `${trimmed(mark.atMm)} ${mark.label}`.length)
  return (STRIP_WIDTH_MM - 16.5) / (letters * LETTER_WIDTH_PER_HEIGHT)
}

/** Label places no closer than a letter's pitch, each as near to its mark as its neighbours to the left allow. */
function spread(marksMm: readonly number[]): number[] {
  const places: number[] = []
  // The first label keeps clear of the strip's own end line.
  for (const atMm of marksMm) places.push(Math.max(atMm, (places.at(-1) ?? -1) + LABEL_PITCH_MM))
  return places
}
