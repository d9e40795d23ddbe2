import jsQR from 'jsqr'
import { describe, expect, it } from 'vitest'
import { FirstArticleDocument } from '@/app/_paper/first-article-document'
import { InspectionDocument, LIMITS_OF_INSPECTION } from '@/app/_paper/inspection-document'
import { LabelDocument } from '@/app/_paper/label-document'
import { NumbersDocument } from '@/app/_paper/numbers-document'
import { PackingDocument } from '@/app/_paper/packing-document'
import { QuoteDocument } from '@/app/_paper/quote-document'
import { renderPdf } from '@/app/_paper/render'
import { RequestDocument } from '@/app/_paper/request-document'
import { TravellerDocument } from '@/app/_paper/traveller-document'
import { PAPER_SIZES } from '@/lib/core/templates/paper-size'
import { PT_PER_MM, pageCount, pageTexts, pixels, wholeText } from './read-pdf'
import { TRAVELLER } from './sample'
import { FIRST_ARTICLE, INSPECTION, LABELS, NUMBERS, PACKING, QUOTE, REQUEST } from './sample-papers'

/** What people paste: controls, direction marks, other scripts, emoji, no spaces, markup. */
const HOSTILE = `a\u0000b\u001b[31m\r\n\u202Eevil\u2066 שלום العربية 船舶 🧨👩‍🔧 ${'W'.repeat(400)} </Text><script> %PDF-1.7 endobj (\\`

async function overflowing(pdf: Buffer, paper: 'letter' | 'a4'): Promise<string[]> {
  const { widthMm } = PAPER_SIZES[paper]
  const out: string[] = []
  for (let page = 1; page <= (await pageCount(pdf)); page++) {
    for (const { text, rightPt, bottomPt } of await pageTexts(pdf, page)) {
      if (rightPt > (widthMm - 4) * PT_PER_MM || bottomPt < 0) out.push(text)
    }
  }
  return out
}

describe('traveller', () => {
  it('tells the angle at the press and the one after melt-out, each with its range', async () => {
    const text = await wholeText(await renderPdf(<TravellerDocument data={TRAVELLER} />))
    for (const words of [
      'At the press, ram back, filled',
      '35.1°',
      'range 34.2° to 36.0°',
      'After melt-out, empty, cold',
      'range 31.1° to 32.9°',
      '41.3°',
    ]) {
      expect(text).toContain(words)
    }
  })

  it('says nothing of melt-out where nothing is melted out', async () => {
    const bends = TRAVELLER.bends.map(({ afterMeltOut: _, ...bend }) => bend)
    const operations = TRAVELLER.operations.filter(({ sequence }) => sequence === 40)
    const text = await wholeText(
      await renderPdf(<TravellerDocument data={{ ...TRAVELLER, bends, operations, trialSteps: [] }} />),
    )
    expect(text).not.toMatch(/melt-out/i)
    expect(text).toContain('Expect, ram back')
  })

  it('puts the caution in the operation that has the hazard', async () => {
    const text = await wholeText(await renderPdf(<TravellerDocument data={TRAVELLER} />))
    const fill = text.slice(text.indexOf('Oil, plug one end, fill'), text.indexOf('Strap on the outside'))
    expect(fill).toContain('Never plug both ends')
    expect(fill).toContain('trapped water')
    expect(fill).toContain('lead or cadmium')
  })

  it('gives 85 degrees Celsius as 185 Fahrenheit beside it', async () => {
    // By hand: 85 * 1.8 + 32 = 185
    expect(await wholeText(await renderPdf(<TravellerDocument data={TRAVELLER} />))).toContain('185 °F')
  })

  it('is one job paper and a page for each piece, numbered n of m', async () => {
    const pdf = await renderPdf(<TravellerDocument data={TRAVELLER} />)
    const pages = await pageCount(pdf)
    const text = await wholeText(pdf)
    for (let page = 1; page <= pages; page++) expect(text).toContain(`page ${page} of ${pages}`)
    for (const { pieceNumber } of TRAVELLER.pieces) expect(text).toContain(`Piece ${pieceNumber}`)
  })

  it('carries a code that an independent reader opens as the piece’s bench address', async () => {
    const pdf = await renderPdf(<TravellerDocument data={TRAVELLER} />)
    const image = await pixels(pdf, (await pageCount(pdf)) - 2, 6)
    expect(jsQR(image.data, image.width, image.height)?.data).toBe(TRAVELLER.pieces[0]?.benchUrl)
  })

  it('is marked void on every page once it is reissued', async () => {
    const pdf = await renderPdf(
      <TravellerDocument
        data={{ ...TRAVELLER, void: { because: 'replaced by revision 3', since: '10 March 2026' } }}
      />,
    )
    const pages = await pageCount(pdf)
    for (let page = 1; page <= pages; page++) {
      const text = (await pageTexts(pdf, page)).map((item) => item.text).join(' ')
      expect(text).toContain('VOID since 10 March 2026: replaced by revision 3')
    }
  })

  it('prints the same bytes from the same data', async () => {
    const [first, second] = [
      await renderPdf(<TravellerDocument data={TRAVELLER} />),
      await renderPdf(<TravellerDocument data={TRAVELLER} />),
    ]
    expect(first.equals(second)).toBe(true)
  })

  it('runs over as many pages as 320 operations take and loses none', async () => {
    const [operation] = TRAVELLER.operations.slice(1)
    const operations = Array.from({ length: 320 }, (_, index) => ({
      ...operation,
      sequence: index + 1,
      title: `Step-${index + 1}x`,
      instruction: 'Do it.',
      setPoints: [],
      hazards: [],
    }))
    const pdf = await renderPdf(
      <TravellerDocument data={{ ...TRAVELLER, operations, pieces: TRAVELLER.pieces.slice(0, 1) }} />,
    )
    const text = await wholeText(pdf)
    for (const { title } of operations) expect(text).toContain(title)
    expect(await pageCount(pdf)).toBeGreaterThan(10)
    expect(await overflowing(pdf, 'letter')).toEqual([])
    // Three hundred operations are a stress, not a page: on a busy machine they take their time.
  }, 120_000)

  it.each(['letter', 'a4'] as const)('keeps hostile text inside %s', async (paper) => {
    const data = {
      ...TRAVELLER,
      paper,
      shopName: HOSTILE,
      job: { ...TRAVELLER.job, customerName: HOSTILE, partTitle: HOSTILE, partNumber: HOSTILE },
      part: { ...TRAVELLER.part, materialText: HOSTILE },
      operations: TRAVELLER.operations.map((operation) => ({
        ...operation,
        title: HOSTILE,
        instruction: HOSTILE,
      })),
      marks: TRAVELLER.marks.map((mark) => ({ ...mark, label: HOSTILE })),
    }
    const pdf = await renderPdf(<TravellerDocument data={data} />)
    expect(await overflowing(pdf, paper)).toEqual([])
    expect(await wholeText(pdf)).toContain('page 1 of')
  })
})

describe('inspection record', () => {
  it('prints each verdict as a word, with the rule and the gauge’s uncertainty', async () => {
    const text = await wholeText(await renderPdf(<InspectionDocument data={INSPECTION} />))
    for (const words of ['cannot say', 'conceded', 'FAIL', 'ISO 14253-1', '±0.2°', '31 to 33°', '32.9°'])
      expect(text).toContain(words)
  })

  it('says what it is not', async () => {
    const text = await wholeText(await renderPdf(<InspectionDocument data={INSPECTION} />))
    expect(text).toContain(LIMITS_OF_INSPECTION)
    expect(text).not.toMatch(/\bsafe\b/i)
  })

  it('is one page for six pieces of two bends', async () => {
    expect(await pageCount(await renderPdf(<InspectionDocument data={INSPECTION} />))).toBe(1)
  })
})

describe('quote', () => {
  it('prints every break with its price, validity and the code to accept it', async () => {
    const pdf = await renderPdf(<QuoteDocument data={QUOTE} />)
    const text = await wholeText(pdf)
    for (const words of ['$412.50', '$1,134.00', '$2,876.00', '8 April 2026', 'revision 2', 'ukaszewicz'])
      expect(text).toContain(words)
    const image = await pixels(pdf, 1, 6)
    expect(jsQR(image.data, image.width, image.height)?.data).toBe(QUOTE.acceptUrl)
  })

  it('shows subtotal, tax and total where one quantity stands', async () => {
    const totals = {
      subtotalCents: 113400,
      taxes: [{ label: 'Sales tax', rateFraction: 0.0725, amountCents: 8222 }],
      totalCents: 121622,
    }
    const text = await wholeText(await renderPdf(<QuoteDocument data={{ ...QUOTE, totals }} />))
    for (const words of ['$1,134.00', 'Sales tax 7.25', '$82.22', '$1,216.22']) expect(text).toContain(words)
  })
})

describe('labels', () => {
  it.each([
    { kind: 'roll', widthMm: 62, heightMm: 29 },
    { kind: 'sheet', widthMm: 90, heightMm: 36 },
  ] as const)('on a $kind carry a code that can be read', async (stock) => {
    const pdf = await renderPdf(
      <LabelDocument data={{ ...LABELS, stock, labels: LABELS.labels.slice(0, 1) }} />,
    )
    const image = await pixels(pdf, 1, 8)
    expect(jsQR(image.data, image.width, image.height)?.data).toBe(LABELS.labels[0]?.scanUrl)
  })

  it.each([
    { kind: 'roll', widthMm: 40, heightMm: 20 },
    { kind: 'sheet', widthMm: 40, heightMm: 20 },
  ] as const)('on a $kind stay one page and can be scanned, whatever is written on them', async (stock) => {
    const labels = LABELS.labels.slice(0, 1).map((label) => ({
      ...label,
      headline: HOSTILE,
      lines: Array.from({ length: 12 }, () => HOSTILE),
    }))
    const pdf = await renderPdf(<LabelDocument data={{ ...LABELS, shopName: HOSTILE, stock, labels }} />)
    expect(await pageCount(pdf)).toBe(1)
    const image = await pixels(pdf, 1, 8)
    expect(jsQR(image.data, image.width, image.height)?.data).toBe(labels[0]?.scanUrl)
  })

  it('refuse a size that holds no code', () => {
    expect(() =>
      LabelDocument({ data: { ...LABELS, stock: { kind: 'roll', widthMm: 30, heightMm: 10 } } }),
    ).toThrow(RangeError)
  })
})

describe('every paper', () => {
  const papers = {
    'inspection record': (
      <InspectionDocument
        data={{ ...INSPECTION, partTitle: HOSTILE, customerName: HOSTILE, decisionRule: HOSTILE }}
      />
    ),
    'first article': (
      <FirstArticleDocument
        data={{ ...FIRST_ARTICLE, paper: 'letter', reason: HOSTILE, partTitle: HOSTILE }}
      />
    ),
    quote: (
      <QuoteDocument data={{ ...QUOTE, terms: [HOSTILE], customer: { ...QUOTE.customer, name: HOSTILE } }} />
    ),
    request: (
      <RequestDocument data={{ ...REQUEST, paper: 'letter', tolerances: [HOSTILE], deliverTo: HOSTILE }} />
    ),
    'packing list': <PackingDocument data={{ ...PACKING, remarks: HOSTILE, carrierText: HOSTILE }} />,
    'numbers appendix': (
      <NumbersDocument data={{ ...NUMBERS, belongsTo: HOSTILE, defaultsUsed: [HOSTILE] }} />
    ),
  }
  it.each(Object.entries(papers))('%s keeps hostile text inside the sheet', async (_, paper) => {
    const pdf = await renderPdf(paper)
    expect(await overflowing(pdf, 'letter')).toEqual([])
    expect(await wholeText(pdf)).toContain('void if reissued')
  })
})
