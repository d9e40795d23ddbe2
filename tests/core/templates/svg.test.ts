import { describe, expect, it } from 'vitest'
import { arc, line, type Primitive, polyline, TEMPLATE_LAYERS, text } from '@/lib/core/templates/primitive'
import { lineLook, svgPath, templateSvg } from '@/lib/core/templates/svg'

const svgOf = (primitives: readonly Primitive[], title = 'T', notes: readonly string[] = []) =>
  templateSvg({ title, notes, primitives })
const box = line('CUT', [10, 20], [110, 70])

describe('the page of a scalable drawing', () => {
  it('is what is drawn with 5 mm round it, y turned to run down', () => {
    // 100 + 2 · 5 by 50 + 2 · 5; the view begins at 10 - 5 and at -70 - 5.
    expect(svgOf([box])).toContain('width="110mm" height="60mm" viewBox="5 -75 110 60"')
  })

  it('has a title, its notes, each thing drawn and an end, a line each', () => {
    const rows = svgOf([box, box], 'Die <3', ['Saw it.', 'Dress it.']).split('\n')
    expect(rows).toHaveLength(8)
    expect(rows[2]).toBe('<title>Die &lt;3</title>')
    expect(rows[3]).toBe('<desc>Saw it. Dress it.</desc>')
    expect(rows[6]).toBe('</svg>')
    expect(rows[7]).toBe('')
  })

  it('refuses a length that is no number', () => {
    expect(() => svgOf([line('CUT', [0, 0], [Number.NaN, 1])])).toThrow(/not a number/)
  })
})

describe('a path', () => {
  it('goes from end to end with y turned round', () => {
    expect(svgPath(line('CUT', [1, 2], [3, -4]))).toBe('M1 -2L3 4')
    expect(
      svgPath(
        polyline('CUT', [
          [0, 0],
          [1, 2],
          [3, 4],
        ]),
      ),
    ).toBe('M0 0L1 -2L3 -4')
  })

  it('holds five decimals and never a minus nought', () => {
    expect(svgPath(line('CUT', [1 / 3, -0], [0.000001, -0.000001]))).toBe('M0.33333 0L0 0')
  })

  it('of an arc goes counter-clockwise over its middle, in two parts', () => {
    // About (10, 20) with radius 5: (15, 20) over 45 degrees, 5 sqrt(1/2) = 3.53553, to (10, 25).
    expect(svgPath(arc('CUT', { centre: [10, 20], radiusMm: 5, startDeg: 0, endDeg: 90 }))).toBe(
      'M15 -20A5 5 0 0 0 13.53553 -23.53553A5 5 0 0 0 10 -25',
    )
    expect(svgPath(arc('CUT', { centre: [0, 0], radiusMm: 5, startDeg: -90, endDeg: 90 }))).toBe(
      'M0 5A5 5 0 0 0 5 0A5 5 0 0 0 0 -5',
    )
  })
})

describe('how a layer looks', () => {
  it('is thickest where it is cut, and dashed at axes and limits only', () => {
    const looks = new Map(TEMPLATE_LAYERS.map((layer) => [layer, lineLook(layer)]))
    for (const layer of TEMPLATE_LAYERS.filter((one) => one !== 'CUT'))
      expect(looks.get(layer)?.widthMm).toBeLessThan(looks.get('CUT')?.widthMm ?? 0)
    const dashed = TEMPLATE_LAYERS.filter((layer) => 'dashesMm' in lineLook(layer))
    expect(dashed).toEqual(['CENTRE', 'LIMIT'])
  })

  it('stands on each path, with the dashes where it has them', () => {
    const [cut, axis] = svgOf([box, line('CENTRE', [10, 20], [110, 70])])
      .split('\n')
      .slice(4)
    expect(cut).toBe('<path class="CUT" d="M10 -20L110 -70" fill="none" stroke="#000" stroke-width="0.35"/>')
    expect(axis).toBe(
      '<path class="CENTRE" d="M10 -20L110 -70" fill="none" stroke="#000" stroke-width="0.18" stroke-dasharray="8 1.5 1.5 1.5"/>',
    )
  })
})

describe('words in a scalable drawing', () => {
  const wordsOf = (how: Parameters<typeof text>[2]) =>
    svgOf([text([10, 20], 'a & b', how)])
      .split('\n')
      .find((row) => row.startsWith('<text'))

  it('stand at their point, as large as makes a capital of their height', () => {
    // Capitals are about 0.7 of the type size: 3.5 / 0.7 = 5.
    expect(wordsOf({ heightMm: 3.5 })).toBe(
      '<text class="TEXT" x="10" y="-20" font-family="sans-serif" font-size="5" text-anchor="start">a &amp; b</text>',
    )
  })

  it('turned counter-clockwise on the drawing turn the other way where y runs down, about their own point', () => {
    expect(wordsOf({ heightMm: 3.5, rotationDeg: 90, anchor: 'middle', layer: 'SCALE' })).toBe(
      '<text class="SCALE" x="10" y="-20" font-family="sans-serif" font-size="5" text-anchor="middle" transform="rotate(-90 10 -20)">a &amp; b</text>',
    )
  })

  it('carry no control character and no mark of the language', () => {
    expect(svgOf([box], 'a\u0007b\ufffe\uffff<>"&')).toContain('<title>a b  &lt;&gt;&quot;&amp;</title>')
  })
})
