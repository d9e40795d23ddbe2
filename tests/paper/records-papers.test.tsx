import jsQR from 'jsqr'
import { describe, expect, it } from 'vitest'
import { InspectionDocument } from '@/app/_paper/inspection-document'
import { labelsOfJob } from '@/app/_paper/job-labels'
import { travellerOfJob } from '@/app/_paper/job-traveller'
import { LabelDocument } from '@/app/_paper/label-document'
import { PackingDocument } from '@/app/_paper/packing-document'
import { inspectionOf, packingOf } from '@/app/_paper/release-papers'
import { renderPdf } from '@/app/_paper/render'
import { TemplateDocument } from '@/app/_paper/template-document'
import { TravellerDocument } from '@/app/_paper/traveller-document'
import { partTemplates } from '@/app/parts/part-templates'
import { specNumbers } from '@/app/parts/spec-numbers'
import { PAPER_SIZES } from '@/lib/core/templates/paper-size'
import { readPrinted } from '@/tests/support/printed-traveller'
import { PT_PER_MM, pageCount, pageSizesPt, pageTexts, pixels, strokesPt, wholeText } from './read-pdf'
import { jobPapers, paperShop, printing, releasePapers } from './shop-records'

const holds = { changes: [], newerRevision: null, madeAt: '2026-11-20T12:00:00Z' }
const long = `${'Wahrscheinlichkeitsrechnung'.repeat(9)} שלום 🧨 </Text>`

async function overflowing(pdf: Buffer, paper: 'letter' | 'a4'): Promise<string[]> {
  const out: string[] = []
  for (let page = 1; page <= (await pageCount(pdf)); page++) {
    for (const { text, rightPt, bottomPt } of await pageTexts(pdf, page)) {
      if (rightPt > (PAPER_SIZES[paper].widthMm - 4) * PT_PER_MM || bottomPt < 0) out.push(text)
    }
  }
  return out
}

describe('papers filled from records', () => {
  it('a traveller says what the bend spec warns of, in the shop’s unit; of the filler’s creep in its trial’s steps', () => {
    const job = jobPapers(1)
    const { input } = job.plan
    if (!input) throw new Error('the plan asks nothing of the model')
    // As planned by a version that did not know this warning: it is told from what was asked, not from what was answered.
    const bends = input.bends.map((bend, index) => (index === 1 ? { ...bend, straightBeforeMm: 50.8 } : bend))
    const warned = { ...job, plan: { ...job.plan, input: { ...input, bends } } }
    // The unit is inches: 50.8 mm are two.
    const { remarks, trialSteps } = travellerOfJob(warned, holds, printing('letter'))
    expect(remarks?.join(' ')).toMatch(
      /The straight of 2\sin between bends 1 and 2 is shorter than [\d.]+\sin/,
    )
    expect(remarks?.join(' ')).not.toMatch(/creeps/)
    expect(trialSteps.join(' ')).toMatch(/creeps/)
  })

  it.each(['letter', 'a4'] as const)('a traveller keeps long names inside %s', async (paper) => {
    const job = jobPapers(1)
    const named = {
      ...job,
      customer: { name: long, addressText: '' },
      revision: { ...job.revision, part: { number: long, name: long, customerRef: long } },
    }
    const pdf = await renderPdf(<TravellerDocument data={travellerOfJob(named, holds, printing(paper))} />)
    expect(await overflowing(pdf, paper)).toEqual([])
    const { widthMm, heightMm } = PAPER_SIZES[paper]
    const [first] = await pageSizesPt(pdf)
    expect(first?.[0]).toBeCloseTo(widthMm * PT_PER_MM, 2)
    expect(first?.[1]).toBeCloseTo(heightMm * PT_PER_MM, 2)
  })

  it.each(['letter', 'a4'] as const)(
    'a traveller on %s keeps every operation whole, and a piece of two bends on one page',
    async (paper) => {
      const data = travellerOfJob(jobPapers(1), holds, printing(paper))
      const pages = await readPrinted(await renderPdf(<TravellerDocument data={data} />), paper)
      const [first, ...others] = pages.slice(0, -1)
      for (const { title } of data.operations)
        expect(
          pages
            .flatMap(({ lines, head }) => [{ words: head }, ...lines])
            .filter(({ words }) => words.includes(title)),
        ).not.toEqual([])
      expect(first?.head).toContain('Traveller')
      // A page that begins with an operation was left by the one before it as a whole.
      for (const { head } of others) expect(head).toMatch(/^(planned|\d+ Step)/)
      for (const { lines } of [first, ...others].filter((page) => page !== undefined))
        expect(lines.at(-1)?.words).not.toMatch(/Step \w+$|Operations, in order/)
      expect(
        pages
          .at(-1)
          ?.lines.map(({ words }) => words)
          .join(' '),
      ).toContain('Piece J-0004/1')
      for (const { cut } of pages) expect(cut).toEqual([])
    },
  )

  it('a traveller for one piece has its code and no other’s', async () => {
    const data = travellerOfJob(jobPapers(3), holds, printing('letter'), 2)
    expect(data.pieces.map(({ pieceNumber }) => pieceNumber)).toEqual(['J-0004/2'])
    const pdf = await renderPdf(<TravellerDocument data={data} />)
    const last = await pageCount(pdf)
    const codes: (string | undefined)[] = []
    for (const page of [last - 1, last]) {
      const image = await pixels(pdf, page, 5)
      codes.push(jsQR(image.data, image.width, image.height)?.data)
    }
    expect(codes).toContain('https://shop.test/bench/abcdefghijklmnopqrst0002')
  })

  it('says that it is void, on each page, when the set-up has changed', async () => {
    const changed = { ...holds, changes: ['die was D-1, is D-2'] }
    const pdf = await renderPdf(
      <TravellerDocument data={travellerOfJob(jobPapers(1), changed, printing('letter'))} />,
    )
    for (let page = 1; page <= (await pageCount(pdf)); page++) {
      const words = (await pageTexts(pdf, page)).map(({ text }) => text).join(' ')
      expect(words).toContain('die was D-1, is D-2')
    }
  })

  it.each(['roll', 'sheet'] as const)('labels on a %s read back as the bench’s address', async (stock) => {
    const data = labelsOfJob(jobPapers(1), printing('a4'), stock)
    const image = await pixels(await renderPdf(<LabelDocument data={data} />), 1, 8)
    expect(jsQR(image.data, image.width, image.height)?.data).toBe(
      'https://shop.test/bench/abcdefghijklmnopqrst0001',
    )
  })

  it.each(['letter', 'a4'] as const)(
    'an inspection record of six pieces is one page of %s',
    async (paper) => {
      const pdf = await renderPdf(
        <InspectionDocument data={inspectionOf(releasePapers(), paperShop(paper))} />,
      )
      expect(await pageCount(pdf)).toBe(1)
      const words = await wholeText(pdf)
      for (const part of ['32.2°', '31 to 33°', '88121', 'Jon', 'clear', '±0.2°'])
        expect(words).toContain(part)
    },
  )

  it('a packing list counts what is owed: of 8, this release had 6, so 2, whatever came later', async () => {
    const data = packingOf(releasePapers(), paperShop('letter'))
    expect(data.lines[0]).toMatchObject({ orderedPieces: 8, shippedPieces: 6, owedPieces: 2 })
    const words = await wholeText(await renderPdf(<PackingDocument data={data} />))
    expect(words).toContain('Handle with care.')
  })

  it.each(['letter', 'a4'] as const)('a bend check’s leg prints 80 mm long on %s', async (paper) => {
    // The template's straight legs are at least 80 mm; the drawn tube is 38.1 mm high.
    const { revision, plan } = jobPapers()
    const { templates, missing } = partTemplates({ partNumber: 'P-1', letter: 'A' }, revision, plan.input)
    expect(missing).toEqual([])
    expect(templates.map(({ key }) => key)).toEqual(
      ['bend-1', 'bend-2', 'die-1', 'die-2', 'far-end', 'strip'].filter((key) =>
        templates.some((one) => one.key === key),
      ),
    )
    const bend = templates.find(({ key }) => key === 'bend-1')
    if (!bend) throw new Error('no bend check')
    const issue = { paper, revision: 1, printedOn: '', printedAtIso: '2026-11-25T15:00:00Z' }
    const pdf = await renderPdf(
      <TemplateDocument data={{ ...issue, shopName: 'T', belongsTo: 'P', templates: [bend.template] }} />,
    )
    const lengthsMm = (await strokesPt(pdf, 1)).map(
      ({ from, to }) => Math.hypot(to[0] - from[0], to[1] - from[1]) / PT_PER_MM,
    )
    expect(lengthsMm.some((mm) => Math.abs(mm - 80) < 0.05)).toBe(true)
    expect(lengthsMm.some((mm) => Math.abs(mm - 38.1) < 0.05)).toBe(true)
    expect(lengthsMm.filter((mm) => Math.abs(mm - 100) < 0.05).length).toBeGreaterThan(0)
  })

  it('the appendix prints each number once, and every number that another was made from', () => {
    const { plan } = jobPapers()
    if (!plan.input) throw new Error('no question')
    const { chains } = specNumbers(plan.input, 'mm')
    const names = chains.map(({ name }) => name)
    expect(new Set(names).size).toBe(names.length)
    const sources = chains.flatMap(({ inputs }) => inputs.map(({ from }) => from))
    expect(sources.filter((from) => from !== 'entered or set' && !names.includes(from))).toEqual([])
    expect(names).toContain('Bend 1: press force')
  })
})
