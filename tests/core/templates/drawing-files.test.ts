import { describe, expect, it } from 'vitest'
import { bendCheckTemplate } from '@/lib/core/templates/bend-check'
import { dxfText, templateDxf } from '@/lib/core/templates/dxf'
import { centrelinePath, partDxf } from '@/lib/core/templates/part-dxf'
import { withScaleBars } from '@/lib/core/templates/scale-bars'
import { templateSvg } from '@/lib/core/templates/svg'
import { numberOf, pointOf, readGroups, readSection } from '@/tests/support/read-dxf'

const readEntities = (file: string) => readSection(file, 'ENTITIES')

const template = () =>
  withScaleBars(bendCheckTemplate({ finalAngleDeg: 90, finalRadiusMm: 100, tubeHeightMm: 40 }))

describe('drawing exchange file of a template', () => {
  const file = () => templateDxf(template())

  it('is release 12 and ASCII, opens with a section and ends with EOF', () => {
    const groups = readGroups(file())
    expect(groups[groups.findIndex(({ value }) => value === '$ACADVER') + 1]).toEqual({
      code: 1,
      value: 'AC1009',
    })
    expect(groups.at(-1)).toEqual({ code: 0, value: 'EOF' })
    expect(/^[\x20-\x7e\r\n]*$/.test(file())).toBe(true)
  })

  it('opens and closes every section and table', () => {
    const values = readGroups(file())
      .filter(({ code }) => code === 0)
      .map(({ value }) => value)
    const count = (word: string) => values.filter((value) => value === word).length
    expect(count('SECTION')).toBe(3)
    expect(count('ENDSEC')).toBe(3)
    expect(count('TABLE')).toBe(count('ENDTAB'))
    expect(count('POLYLINE')).toBe(count('SEQEND'))
  })

  it('lists every layer it draws on', () => {
    const groups = readGroups(file())
    const listed = groups.flatMap(({ code, value }, index) =>
      code === 0 && value === 'LAYER' ? [groups[index + 1]?.value] : [],
    )
    const used = new Set(
      readEntities(file()).flatMap(({ groups: own }) =>
        own.filter(({ code }) => code === 8).map(({ value }) => value),
      ),
    )
    for (const layer of used) expect(listed).toContain(layer)
  })

  it('keeps the outside arc at 120 mm and a quarter turn', () => {
    // By hand: 100 + 40 / 2
    const arc = readEntities(file()).find((entity) => entity.type === 'ARC' && numberOf(entity, 40) === 120)
    expect([numberOf(arc, 50), numberOf(arc, 51)]).toEqual([270, 0])
  })

  it('has a bar of 100 mm and one of 4 in, 101.6 mm', () => {
    const lengths = readEntities(file())
      .filter(
        ({ type, groups }) =>
          type === 'LINE' && groups.some(({ code, value }) => code === 8 && value === 'SCALE'),
      )
      .map((line) => numberOf(line, 11) - numberOf(line, 10))
    expect(lengths).toContainEqual(expect.closeTo(100, 6))
    expect(lengths).toContainEqual(expect.closeTo(101.6, 6))
  })
})

describe('text in a drawing exchange file', () => {
  it('writes degree, plus-minus and diameter in the reference’s own codes', () => {
    expect(dxfText('32° ±1 Ø38')).toBe('32%%d %%p1 %%c38')
  })

  it('never lets a line break through, which would start a new group', () => {
    expect(dxfText('x\r\n  0\r\nEOF')).toBe('x   0 EOF')
  })

  it('puts a question mark for what ASCII has no letter for', () => {
    expect(dxfText('Łódź 船 é')).toBe('?odz ? e')
  })
})

describe('part as a drawing exchange file', () => {
  // Out along x, up along y, then away along z: both bends turn a right angle at radius 50.
  const part = {
    title: 'TW-117',
    points: [
      [0, 0, 0],
      [300, 0, 0],
      [300, 200, 0],
      [300, 200, 250],
    ] as const,
    centrelineRadiiMm: [50, 50],
  }

  it('cuts each leg back by R tan(45) = 50 mm at a right angle', () => {
    const { straights } = centrelinePath(part)
    expect(straights).toEqual(
      [
        [
          [0, 0, 0],
          [250, 0, 0],
        ],
        [
          [300, 50, 0],
          [300, 150, 0],
        ],
        [
          [300, 200, 50],
          [300, 200, 250],
        ],
      ].map((ends) => ends.map((at) => at.map((value) => expect.closeTo(value, 9)))),
    )
  })

  it('puts an arc out of the drawing plane back on its tangent points by the arbitrary axis rule', () => {
    // Second bend turns from +y to +z: normal +x, centre (300, 150, 50). DXF Reference: Ax = Wz x N = +y, Ay = N x Ax = +z.
    const arc = readEntities(partDxf(part)).filter(({ type }) => type === 'ARC')[1]
    expect(pointOf(arc, 210)).toEqual([1, 0, 0])
    expect(pointOf(arc, 10)).toEqual([150, 50, 300])
    expect([numberOf(arc, 50), numberOf(arc, 51)]).toEqual([270, 0])
  })

  it('refuses a leg shorter than its tangents', () => {
    expect(() => partDxf({ ...part, centrelineRadiiMm: [160, 50] })).toThrow(/too short/)
  })

  it('lays the blank out straight with its marks', () => {
    const blank = { lengthMm: 700, marks: [{ atMm: 250, kind: 'tangent', label: 'bend 1 start' }] } as const
    const lines = readEntities(partDxf({ ...part, blank })).filter(
      ({ type, groups }) => type === 'LINE' && groups.some(({ value }) => value === 'BLANK'),
    )
    expect(lines.map((line) => [numberOf(line, 10), numberOf(line, 11)])).toEqual([
      [0, 700],
      [250, 250],
    ])
  })
})

describe('scalable drawing of a template', () => {
  it('opens at true size: its width in millimetres is its view’s width', () => {
    const svg = templateSvg(template())
    const [, widthMm, , viewWidth] =
      /width="([\d.]+)mm" height="([\d.]+)mm" viewBox="\S+ \S+ (\S+) \S+"/.exec(svg) ?? []
    expect(widthMm).toBe(viewWidth)
  })

  it('escapes what a name could smuggle in', () => {
    const svg = templateSvg(
      bendCheckTemplate({
        finalAngleDeg: 30,
        finalRadiusMm: 100,
        tubeHeightMm: 40,
        name: '<script>&"\u0000',
      }),
    )
    expect(svg).not.toContain('<script>')
    expect(svg).toContain('&lt;script&gt;&amp;&quot; ')
  })
})
