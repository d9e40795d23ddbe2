import { describe, expect, it } from 'vitest'
import { boundsOf, type Primitive } from '@/lib/core/templates/primitive'
import { type ScribeMark, scribingStripTemplate } from '@/lib/core/templates/scribing-strip'

const tangent = (atMm: number, label = 'x'): ScribeMark => ({ atMm, kind: 'tangent', label })
const strip = (blankLengthMm: number, marks: readonly ScribeMark[] = []) =>
  scribingStripTemplate({ blankLengthMm, marks })
const linesOn = (primitives: readonly Primitive[], layer: string) =>
  primitives.flatMap((one) => (one.kind === 'line' && one.layer === layer ? [[one.from, one.to]] : []))
const textsOn = (primitives: readonly Primitive[], layer: string) =>
  primitives.filter((one): one is Primitive & { kind: 'text' } => one.kind === 'text' && one.layer === layer)

describe('the strip itself', () => {
  it('is as long as the blank and 52 mm wide', () => {
    expect(linesOn(strip(123).primitives, 'CUT')).toEqual([
      [
        [0, 0],
        [123, 0],
      ],
      [
        [0, 0],
        [0, 52],
      ],
      [
        [0, 52],
        [123, 52],
      ],
      [
        [123, 0],
        [123, 52],
      ],
    ])
  })

  it('has a rule with a line every centimetre, longer at fifties and longest at hundreds', () => {
    const rule = linesOn(strip(250).primitives, 'SCALE')
    // 0 to 250 by tens: 26 lines, both ends among them.
    expect(rule.map(([from]) => from?.[0])).toEqual(Array.from({ length: 26 }, (_, cm) => 10 * cm))
    for (const [from, to] of rule) {
      const xMm = from?.[0] ?? 0
      expect(from).toEqual([xMm, 0])
      expect(to).toEqual([xMm, [0, 100, 200].includes(xMm) ? 6 : [50, 150, 250].includes(xMm) ? 4.5 : 3])
    }
    expect(linesOn(strip(249.9).primitives, 'SCALE')).toHaveLength(25)
  })

  it('numbers its hundreds beside their lines, but not the end it begins at', () => {
    expect(
      textsOn(strip(250).primitives, 'SCALE').map(({ text, at, heightMm }) => ({ text, at, heightMm })),
    ).toEqual([
      { text: '100', at: [100.8, 3.4], heightMm: 2.2 },
      { text: '200', at: [200.8, 3.4], heightMm: 2.2 },
    ])
  })

  it('is named by its part, or as a blank', () => {
    expect(strip(250.504).title).toBe('Scribing strip, blank: 250.5 mm from the datum end')
    expect(scribingStripTemplate({ blankLengthMm: 250, marks: [], name: 'P-9' }).title).toMatch(
      /, P-9: 250 mm/,
    )
  })
})

it('a strip says from which end it measures, and to check its joints', () => {
  const { notes } = strip(250)
  expect(notes).toHaveLength(2)
  expect(notes[0]).toMatch(/left end at the datum end/)
  expect(notes[1]).toMatch(/tape/)
})

describe('a mark on the strip', () => {
  it('is a line across the ruled edge, a leader and its distance and name, upright beside it', () => {
    const { primitives } = strip(300, [tangent(125.5, 'bend 1 begins')])
    expect(linesOn(primitives, 'MARK')).toEqual([
      [
        [125.5, 0],
        [125.5, 12],
      ],
      [
        [125.5, 12],
        [125.5, 15],
      ],
    ])
    // Half a letter of 2.6 to the right of its line, so that the turned letters stand over it. 19 letters: 35.5 / (19 · 0.8) = 2.3355.
    expect(textsOn(primitives, 'TEXT')).toEqual([
      {
        kind: 'text',
        layer: 'TEXT',
        at: [expect.closeTo(126.8, 9), 15.5],
        text: '125.5 bend 1 begins',
        heightMm: expect.closeTo(2.3355, 4),
        rotationDeg: 90,
        anchor: 'start',
      },
    ])
  })

  it('is a chain line where it is the middle of a bend, else a thin one', () => {
    const kinds = ['datum', 'tangent', 'bendCentre', 'trim', 'mitre', 'hole', 'end'] as const
    const layers = kinds.map((kind) => {
      const { primitives } = strip(300, [{ atMm: 50, kind, label: kind }])
      return primitives.find((one) => one.kind === 'line' && one.to[1] === 12)?.layer
    })
    expect(layers).toEqual(['MARK', 'MARK', 'CENTRE', 'MARK', 'MARK', 'MARK', 'MARK'])
  })

  it('may lie at either end of the blank, not past it', () => {
    expect(() => strip(300, [tangent(0), tangent(300)])).not.toThrow()
    for (const atMm of [-0.01, 300.01, Number.NaN])
      expect(() => strip(300, [tangent(10), tangent(atMm, 'stray')])).toThrow(/“stray”.*off the 300 mm blank/)
    for (const blankLengthMm of [0, -1, Number.NaN])
      expect(() => strip(blankLengthMm)).toThrow(/carries no marks/)
  })
})

describe('labels on the strip', () => {
  const placesOf = (marksMm: readonly number[]) =>
    textsOn(
      strip(
        300,
        marksMm.map((atMm) => tangent(atMm)),
      ).primitives,
      'TEXT',
    ).map(({ at }) => at[0] - 1.3)

  it('stand 4 mm apart at the least, each as near to its mark as the one before lets it', () => {
    // The first no nearer than 3 mm to the end line.
    expect(placesOf([0, 1, 2, 50, 53, 60])).toEqual([3, 7, 11, 50, 54, 60].map((mm) => expect.closeTo(mm, 9)))
    expect(placesOf([3, 7, 11])).toEqual([3, 7, 11].map((mm) => expect.closeTo(mm, 9)))
  })

  it('are led to from their own marks, in order along the tube whatever order they were given in', () => {
    const marks = [tangent(52, 'b'), tangent(50, 'a')]
    const { primitives } = strip(300, marks)
    expect(textsOn(primitives, 'TEXT').map(({ text }) => text)).toEqual(['50 a', '52 b'])
    expect(linesOn(primitives, 'MARK').filter(([from]) => from?.[1] === 12)).toEqual([
      [
        [50, 12],
        [50, 15],
      ],
      [
        [52, 12],
        [54, 15],
      ],
    ])
    expect(marks.map(({ label }) => label)).toEqual(['b', 'a'])
  })

  it('never lie on each other, stay on the strip and are cut at 28 letters', () => {
    const long = 'a mark with a very long name indeed'
    const { primitives } = strip(300, [tangent(100, long), tangent(100, 'trim'), tangent(101, long)])
    const labels = textsOn(primitives, 'TEXT')
    expect(labels[0]?.text).toBe('100 a mark with a very long ')
    // 28 letters: (52 - 16.5) / (28 · 0.8) = 1.5848; eight letters would have room for 5.5, so 2.6.
    expect(labels.map(({ heightMm }) => heightMm)).toEqual([
      expect.closeTo(1.5848, 4),
      2.6,
      expect.closeTo(1.5848, 4),
    ])
    const boxes = labels.map((label) => boundsOf([label]))
    for (const [index, box] of boxes.entries()) {
      expect(box.topMm).toBeLessThan(52)
      expect(box.bottomMm).toBeGreaterThan(15)
      expect(box.leftMm).toBeGreaterThan(boxes[index - 1]?.rightMm ?? 0)
    }
  })
})
