import { describe, expect, it } from 'vitest'
import { dxfText, polylineGroups, templateDxf, textGroups, writeDxf } from '@/lib/core/templates/dxf'
import { arc, line, type Primitive, polyline, text } from '@/lib/core/templates/primitive'
import { numberOf, pointOf, readGroups, readSection, wordOf } from '@/tests/support/read-dxf'

const fileOf = (...primitives: Primitive[]) => templateDxf({ title: 'Die 3 °', notes: [], primitives })
const drawn = (...primitives: Primitive[]) => readSection(fileOf(...primitives), 'ENTITIES')
const codesOf = (groups: readonly (readonly [number, unknown])[]) => groups.map(([code]) => code)

describe('what a drawing exchange file says of itself', () => {
  const file = () => fileOf(line('CUT', [-3, 4], [50, 60.25]), line('MARK', [0, -7], [1, 1]))
  const after = (name: string, count: number) => {
    const groups = readGroups(file())
    const at = groups.findIndex(({ code, value }) => code === 9 && value === name)
    return groups.slice(at + 1, at + 1 + count).map(({ code, value }) => [code, value])
  }

  it('opens with its title and unit as a comment, codes three places wide', () => {
    expect(file().split('\r\n').slice(0, 4)).toEqual([
      '999',
      'Die 3 %%d (units: millimetres)',
      '  0',
      'SECTION',
    ])
  })

  it('gives the two corners of what is drawn, and decimal lengths', () => {
    expect(after('$EXTMIN', 3)).toEqual([
      [10, '-3.000000'],
      [20, '-7.000000'],
      [30, '0.000000'],
    ])
    expect(after('$EXTMAX', 3)).toEqual([
      [10, '50.000000'],
      [20, '60.250000'],
      [30, '0.000000'],
    ])
    expect(after('$LUNITS', 1)).toEqual([[70, '2']])
  })

  it('has header, tables and entities in that order', () => {
    const groups = readGroups(file())
    expect(
      groups.filter((_, index) => groups[index - 1]?.value === 'SECTION').map(({ value }) => value),
    ).toEqual(['HEADER', 'TABLES', 'ENTITIES'])
  })

  it('lists three line types, each with its dashes and their whole length', () => {
    const tables = readSection(file(), 'TABLES')
    expect(numberOf(tables[0], 70)).toBe(3)
    const types = tables.filter(({ type }) => type === 'LTYPE')
    const dashesOf = (at: number) =>
      types[at]?.groups.filter(({ code }) => code === 49).map(({ value }) => Number(value))
    expect(types.map((one) => wordOf(one, 2))).toEqual(['CONTINUOUS', 'CENTER', 'DASHED'])
    expect([0, 1, 2].map(dashesOf)).toEqual([[], [8, -1.5, 1.5, -1.5], [2.5, -1.5]])
    // 8 + 3 · 1.5 = 12.5; 2.5 + 1.5 = 4.
    expect(types.map((one) => [numberOf(one, 73), numberOf(one, 40)])).toEqual([
      [0, 0],
      [4, 12.5],
      [2, 4],
    ])
    for (const one of types) expect([numberOf(one, 70), numberOf(one, 72)]).toEqual([0, 65])
  })

  it('lists six layers: axes chain-dotted, limits dashed, the rest whole', () => {
    const tables = readSection(file(), 'TABLES')
    const layers = tables.filter(({ type }) => type === 'LAYER')
    expect(layers.map((one) => [wordOf(one, 2), wordOf(one, 6)])).toEqual([
      ['CUT', 'CONTINUOUS'],
      ['MARK', 'CONTINUOUS'],
      ['CENTRE', 'CENTER'],
      ['LIMIT', 'DASHED'],
      ['SCALE', 'CONTINUOUS'],
      ['TEXT', 'CONTINUOUS'],
    ])
    expect(tables.filter(({ type }) => type === 'TABLE').map((one) => numberOf(one, 70))).toEqual([3, 6])
    // Colours are whole numbers 1 to 255, or a reader cannot tell them.
    for (const one of layers) expect(wordOf(one, 62)).toMatch(/^[1-9]\d?$/)
  })
})

describe('what is drawn in a drawing exchange file', () => {
  it('is a line from end to end on its layer', () => {
    const [one] = drawn(line('LIMIT', [1, 2.5], [-3, 4]))
    expect([one?.type, wordOf(one, 8)]).toEqual(['LINE', 'LIMIT'])
    expect([pointOf(one, 10), pointOf(one, 11)]).toEqual([
      [1, 2.5, 0],
      [-3, 4, 0],
    ])
  })

  it('is a polyline as its corners in order, between its head and its end, all on its layer', () => {
    const all = drawn(
      polyline('MARK', [
        [0, 0],
        [1, 2],
        [3, 4],
      ]),
    )
    expect(all.map(({ type }) => type)).toEqual(['POLYLINE', 'VERTEX', 'VERTEX', 'VERTEX', 'SEQEND'])
    expect(all.map((one) => wordOf(one, 8))).toEqual(Array(5).fill('MARK'))
    expect([wordOf(all[0], 66), wordOf(all[0], 70)]).toEqual(['1', '0'])
    expect(pointOf(all[0], 10)).toEqual([0, 0, 0])
    expect(all.slice(1, 4).map((one) => pointOf(one, 10))).toEqual([
      [0, 0, 0],
      [1, 2, 0],
      [3, 4, 0],
    ])
    for (const corner of all.slice(1, 4)) expect(wordOf(corner, 70)).toBeUndefined()
  })

  it('says of a polyline in space that it is one, at its head (8) and at each corner (32)', () => {
    const groups = polylineGroups(
      'P',
      [
        [1, 2, 3],
        [4, 5, 6],
      ],
      true,
    )
    expect(groups.filter(([code]) => code === 70)).toEqual([
      [70, 8],
      [70, 32],
      [70, 32],
    ])
    expect(groups.filter(([code]) => code === 30)).toEqual([
      [30, 0],
      [30, 3],
      [30, 6],
    ])
  })

  it.each([
    [-90, 0, 270, 0],
    [30, 150, 30, 150],
    [330, 390, 330, 30],
    [-450, -360, 270, 0],
  ])('is an arc from %d to %d degrees as one from %d to %d', (startDeg, endDeg, from, to) => {
    const [one] = drawn(arc('CENTRE', { centre: [5, 6], radiusMm: 7.5, startDeg, endDeg }))
    expect([one?.type, wordOf(one, 8), numberOf(one, 40)]).toEqual(['ARC', 'CENTRE', 7.5])
    expect(pointOf(one, 10)).toEqual([5, 6, 0])
    expect([numberOf(one, 50), numberOf(one, 51)]).toEqual([from, to])
  })

  it('is words with their height, turn and place', () => {
    const [one] = drawn(text([1, 2], 'R 50', { heightMm: 4, rotationDeg: 30 }))
    expect([one?.type, wordOf(one, 8), wordOf(one, 1)]).toEqual(['TEXT', 'TEXT', 'R 50'])
    expect(pointOf(one, 10)).toEqual([1, 2, 0])
    expect([numberOf(one, 40), numberOf(one, 50)]).toEqual([4, 30])
    expect(wordOf(one, 72)).toBeUndefined()
  })

  it('says where words do not start at their point: 1 about it, 2 up to it, with the point again', () => {
    for (const [anchor, wanted] of [
      ['middle', '1'],
      ['end', '2'],
    ] as const) {
      const [one] = drawn(text([1, 2], 'R 50', { anchor }))
      expect(wordOf(one, 72)).toBe(wanted)
      expect(pointOf(one, 11)).toEqual([1, 2, 0])
    }
    const plain = textGroups('N', { at: [1, 2], words: 'a', heightMm: 3 })
    expect(codesOf(plain)).toEqual([0, 8, 10, 20, 30, 40, 1, 50])
    expect(plain.at(-1)).toEqual([50, 0])
    expect(codesOf(textGroups('N', { at: [1, 2], words: 'a', heightMm: 3, anchor: 'start' }))).not.toContain(
      72,
    )
  })
})

describe('a number in a drawing exchange file', () => {
  const written = (code: number, value: number) =>
    readGroups(
      writeDxf({
        title: '',
        layers: [],
        extents: { from: [0, 0, 0], to: [1, 1, 0] },
        entities: [[code, value]],
      }),
    )
      .filter((group) => group.code === code)
      .at(-1)?.value

  it('is whole from code 60 to 79 and has six places under and over that', () => {
    expect([59, 60, 66, 79, 80].map((code) => written(code, 7))).toEqual([
      '7.000000',
      '7',
      '7',
      '7',
      '7.000000',
    ])
  })
  it('is never minus nought', () => {
    expect([-0, -0.0000001].map((value) => written(40, value))).toEqual(['0.000000', '0.000000'])
  })
  it('that is none is refused', () => {
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => written(40, value)).toThrow(/not a number/)
  })
})

describe('words in a drawing exchange file', () => {
  it('have plain letters for signs a reader of release 12 lacks', () => {
    expect(dxfText('Ø 38 ø 39 ⌀ 40')).toBe('%%c 38 %%c 39 %%c 40')
    expect(dxfText('20×40 ‘a’ “b” 1–2 3—4 −5')).toBe('20x40 \'a\' "b" 1-2 3-4 -5')
    expect(dxfText('é ü Å ½')).toBe('e u A 1?2')
  })
  it('have one question mark for any run of others, and a blank for a run of breaks', () => {
    expect(dxfText('a船舶b')).toBe('a?b')
    expect(dxfText('a\r\n\tb')).toBe('a b')
    expect(dxfText('a\n船b')).toBe('a?b')
    expect(dxfText('a船\nb')).toBe('a?b')
    expect(dxfText('a\u007fb')).toBe('a?b')
  })
  it('keep the whole of ASCII from blank to tilde', () => {
    const all = Array.from({ length: 95 }, (_, at) => String.fromCharCode(32 + at)).join('')
    expect(dxfText(all)).toBe(all)
  })
  it('end at 250 letters', () => {
    expect(dxfText('x'.repeat(250))).toHaveLength(250)
    expect(dxfText(`${'x'.repeat(250)}yz`)).toBe('x'.repeat(250))
  })
})
