import { Document, Page, Text } from '@react-pdf/renderer'
import { createElement } from 'react'
import { travellerOfJob } from '@/app/_paper/job-traveller'
import { renderPdf } from '@/app/_paper/render'
import { style } from '@/app/_paper/style'
import { TravellerDocument } from '@/app/_paper/traveller-document'
import { jobPapers, printing } from '@/tests/paper/shop-records'

const holds = { changes: [], newerRevision: null, madeAt: '2026-11-20T12:00:00Z' }

const traveller = (pieceCount: number) =>
  renderPdf(TravellerDocument({ data: travellerOfJob(jobPapers(pieceCount), holds, printing('letter')) }))

/** What the renderer itself takes: as many pages of plain lines, about as many words, no boxes, no drawing. */
function plainPages(pageCount: number) {
  const lines = Array.from({ length: 45 }, (_, index) =>
    createElement(
      Text,
      { key: index, style: { fontSize: 9, lineHeight: 1.25 } },
      `Line ${index} of a plain page.`,
    ),
  )
  const pages = Array.from({ length: pageCount }, (_, index) =>
    createElement(Page, { key: index, size: 'LETTER', style: style.page }, lines),
  )
  return renderPdf(createElement(Document, null, pages))
}

/** One job's traveller from its records to the finished file, beside plain pages by the same renderer. */
export const cases = [
  { title: 'plain pages, 5', run: () => plainPages(5) },
  { title: 'traveller PDF, 1 piece, 5 pages', run: () => traveller(1), plainly: 'plain pages, 5' },
  { title: 'plain pages, 10', run: () => plainPages(10) },
  { title: 'traveller PDF, 6 pieces, 10 pages', run: () => traveller(6), plainly: 'plain pages, 10' },
]
