import { PAPER_SIZES, type PaperSize } from '../../lib/core/templates/paper-size'
import { type PlacedText, PT_PER_MM, pageCount, pageTexts } from '../paper/read-pdf'

/** What a page says, line by line from the top, its words from left to right. */
function linesOf(texts: readonly PlacedText[]): { words: string; sizePt: number; bottomPt: number }[] {
  const rows = new Map<number, PlacedText[]>()
  for (const text of texts) {
    if (text.text.trim() === '') continue
    const row = [...rows.keys()].find((bottomPt) => Math.abs(bottomPt - text.bottomPt) < 2) ?? text.bottomPt
    rows.set(row, [...(rows.get(row) ?? []), text])
  }
  return [...rows.entries()]
    .sort(([one], [other]) => other - one)
    .map(([bottomPt, row]) => ({
      words: joined(row),
      sizePt: Math.max(...row.map(({ sizePt }) => sizePt)),
      bottomPt,
    }))
}

/** One line's texts as words: a browser writes a word in several runs, so only a gap is a space. */
function joined(row: readonly PlacedText[]): string {
  let words = ''
  let endPt = Number.POSITIVE_INFINITY
  for (const { text, leftPt, rightPt, sizePt } of [...row].sort((one, other) => one.leftPt - other.leftPt)) {
    words += leftPt - endPt > 0.12 * sizePt ? ` ${text}` : text
    endPt = rightPt
  }
  return words.replace(/\s+/g, ' ').trim()
}

export type PrintedPage = {
  /** The line every page carries. */
  head: string
  lines: { words: string; sizePt: number }[]
  pageLine: string
  /** Texts that reach past the printable part of the sheet. */
  cut: string[]
}

/** A printed traveller page by page, from the places of its texts. */
export async function readPrinted(pdf: Buffer, paper: PaperSize): Promise<PrintedPage[]> {
  const { widthMm } = PAPER_SIZES[paper]
  const pages: PrintedPage[] = []
  for (let number = 1; number <= (await pageCount(pdf)); number++) {
    const texts = await pageTexts(pdf, number)
    const [head, ...rest] = linesOf(texts)
    const foot = rest.pop()
    pages.push({
      head: head?.words ?? '',
      lines: rest,
      pageLine: foot?.words ?? '',
      cut: texts
        .filter(
          ({ text, leftPt, rightPt, bottomPt }) =>
            text.trim() !== '' &&
            (leftPt < 5 * PT_PER_MM || rightPt > (widthMm - 5) * PT_PER_MM || bottomPt < 5 * PT_PER_MM),
        )
        .map(({ text }) => text),
    })
  }
  return pages
}
