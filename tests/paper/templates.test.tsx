import { describe, expect, it } from 'vitest'
import { renderPdf } from '@/app/_paper/render'
import { drawingArea, TemplateDocument } from '@/app/_paper/template-document'
import { line, type Template } from '@/lib/core/templates/primitive'
import { PT_PER_MM, pageCount, pageSizesPt, pixels, strokesPt } from './read-pdf'
import { ISSUE } from './sample'
import { TEMPLATES } from './sample-papers'

const lengthsMm = async (pdf: Buffer, page: number) =>
  (await strokesPt(pdf, page)).map(({ from, to }) => Math.hypot(to[0] - from[0], to[1] - from[1]) / PT_PER_MM)

const ruler: Template = {
  title: 'Ruler',
  notes: [],
  primitives: [line('CUT', [0, 0], [150, 0]), line('CUT', [0, 0], [0, 150])],
}

describe.each(['letter', 'a4'] as const)('templates on %s', (paper) => {
  const data = { ...TEMPLATES, paper }

  it('draws 150 mm as 150 mm both ways, by the file’s own numbers', async () => {
    const lengths = await lengthsMm(
      await renderPdf(<TemplateDocument data={{ ...data, templates: [ruler] }} />),
      1,
    )
    expect(lengths.filter((lengthMm) => Math.abs(lengthMm - 150) < 0.001)).toHaveLength(2)
  })

  it('prints a bar of 100 mm and one of 101.6 mm on every sheet', async () => {
    const pdf = await renderPdf(<TemplateDocument data={data} />)
    for (let page = 1; page <= (await pageCount(pdf)); page++) {
      const lengths = await lengthsMm(pdf, page)
      expect(lengths).toContainEqual(expect.closeTo(100, 3))
      expect(lengths).toContainEqual(expect.closeTo(101.6, 3))
    }
  })

  it.each([190, 203, 215, 229, 260])(
    'comes to an end, on a sheet a window, when %i mm high',
    async (heightMm) => {
      const high: Template = {
        title: 'High',
        notes: [],
        primitives: [line('CUT', [0, 0], [150, 0]), line('CUT', [0, 0], [0, heightMm])],
      }
      const pdf = await renderPdf(<TemplateDocument data={{ ...data, templates: [high] }} />)
      // A millimetre more than the drawing at either end; windows overlap by 10 mm.
      const area = drawingArea(paper)
      expect(await pageCount(pdf)).toBe(heightMm + 2 <= area.heightMm ? 1 : 2)
    },
  )

  it('measures 150 mm in the pixels of the printed page', async () => {
    const dotsPerMm = 10
    const pdf = await renderPdf(<TemplateDocument data={{ ...data, templates: [ruler] }} />)
    const image = await pixels(pdf, 1, dotsPerMm)
    const isDark = (x: number, y: number) => (image.data[4 * (y * image.width + x)] ?? 255) < 128
    const longestRun = (count: number, dark: (index: number) => boolean) => {
      let [best, run] = [0, 0]
      for (let index = 0; index < count; index++) {
        run = dark(index) ? run + 1 : 0
        best = Math.max(best, run)
      }
      return best
    }
    const area = drawingArea(paper)
    // The upright leg stands 1 mm inside the window; half a line's width on either side is looked through.
    const columns = Array.from(
      { length: 11 },
      (_, index) => Math.round((area.leftMm + 1) * dotsPerMm) - 5 + index,
    )
    const uprightDots = Math.max(...columns.map((x) => longestRun(image.height, (y) => isDark(x, y))))
    // The corner adds half the other line's width, 0.175 mm; two dots for the edges.
    expect(Math.abs(uprightDots / dotsPerMm - 150)).toBeLessThan(0.4)
  })

  it('puts the same drawing point on both sheets of a join, an overlap of 10 mm apart', async () => {
    const long: Template = {
      title: 'Long',
      notes: [],
      primitives: [line('CUT', [0, 0], [250, 0]), line('MARK', [170, 0], [170, 63])],
    }
    const pdf = await renderPdf(<TemplateDocument data={{ ...data, templates: [long] }} />)
    const area = drawingArea(paper)
    const xsMm: number[] = []
    for (let page = 1; page <= (await pageCount(pdf)); page++) {
      for (const { from, to } of await strokesPt(pdf, page)) {
        if (Math.abs(Math.abs(to[1] - from[1]) / PT_PER_MM - 63) < 0.01) xsMm.push(from[0] / PT_PER_MM)
      }
    }
    // Both windows stack on one sheet; the second begins one window less the overlap further along the drawing.
    expect(xsMm).toHaveLength(2)
    expect((xsMm[0] ?? 0) - (xsMm[1] ?? 0)).toBeCloseTo(area.widthMm - 10, 3)
  })

  it('uses sheets of the size that was asked for', async () => {
    // ISO 216 A4 210 x 297 mm; ASME Y14.1 size A 8.5 x 11 in
    const size = paper === 'a4' ? [210 * PT_PER_MM, 297 * PT_PER_MM] : [612, 792]
    const [first] = await pageSizesPt(
      await renderPdf(<TemplateDocument data={{ ...data, ...ISSUE, paper, templates: [ruler] }} />),
    )
    expect(first?.map((side) => Math.round(side * 100))).toEqual(size.map((side) => Math.round(side * 100)))
  })
})
