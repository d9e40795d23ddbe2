import { travellerOfJob } from '@/app/_paper/job-traveller'
import { renderPdf } from '@/app/_paper/render'
import { TravellerDocument } from '@/app/_paper/traveller-document'
import { jobPapers, printing } from '@/tests/paper/shop-records'

const holds = { changes: [], newerRevision: null, madeAt: '2026-11-20T12:00:00Z' }

/** One job's traveller from its records to the finished file. */
export const cases = [1, 3].map((pieceCount) => ({
  title: `traveller PDF, ${pieceCount} ${pieceCount === 1 ? 'piece' : 'pieces'}`,
  run: () =>
    renderPdf(TravellerDocument({ data: travellerOfJob(jobPapers(pieceCount), holds, printing('letter')) })),
}))
