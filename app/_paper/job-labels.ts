import { tubeText } from '@/lib/records/part/rules'
import type { JobPapers } from '@/lib/records/traveller/rules'
import { cleanText } from './clean-text'
import { benchUrl, materialName, type Printing, paperIssue, pieceName } from './job-traveller'
import type { LabelData } from './label-document'

/** Common label sizes: a 62 by 29 mm roll; on sheets two across with room for a long name. */
const STOCKS = {
  roll: { kind: 'roll', widthMm: 62, heightMm: 29 },
  sheet: { kind: 'sheet', widthMm: 90, heightMm: 36 },
} as const

/** One label for each piece that is not scrapped. */
export function labelsOfJob(job: JobPapers, printing: Printing, stock: keyof typeof STOCKS): LabelData {
  const { revision } = job
  return {
    ...paperIssue(printing, job.travellerIssue),
    shopName: printing.shop.name,
    stock: STOCKS[stock],
    labels: job.pieces
      .filter(({ status }) => status !== 'scrapped')
      .map((piece) => ({
        headline: pieceName(job.number, piece.number),
        lines: [
          cleanText(`${revision.part.number} rev ${revision.letter}, ${revision.part.name}`, 60),
          `${materialName(revision.materialId)}, ${tubeText(revision, printing.shop.lengthUnit)}`,
          piece.stockPiece
            ? `lot ${piece.stockPiece.lot.number}, heat ${piece.stockPiece.lot.heatNumber || 'not noted'}`
            : 'lot ________  heat ________',
        ],
        scanUrl: benchUrl(printing.origin, piece.scanCode),
      })),
  }
}
