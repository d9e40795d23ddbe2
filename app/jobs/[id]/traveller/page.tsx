import type { Metadata } from 'next'
import { headers } from 'next/headers'
import { notFound } from 'next/navigation'
import { PartDrawing } from '@/app/_drawing/part-drawing'
import { originOf } from '@/app/_paper/answer'
import { travellerOfJob } from '@/app/_paper/job-traveller'
import { quantityText } from '@/app/_paper/quantity'
import { PrintButton } from '@/app/_shop/print-button'
import { rowId } from '@/app/_shop/row-id'
import { LinkButton } from '@/app/_ui/button'
import { Notice } from '@/app/_ui/notice'
import { PageHead } from '@/app/_ui/page-head'
import { Facts } from '@/app/_ui/section'
import { drawnPart } from '@/lib/records/part/rules'
import { readShop } from '@/lib/records/shop/read'
import { readJobPapers, readTravellerStanding } from '@/lib/records/traveller/read'
import { may, requireActor } from '@/lib/server/session'
import { TravellerSheet } from '../../traveller-sheet'
import { VoidNotice } from '../../void-notice'
import '../../papers.css'
import '../../traveller-print.css'

export const metadata: Metadata = { title: 'Traveller' }

/** The traveller on the screen; the browser prints it as it stands. */
export default async function TravellerPage({ params }: { params: Promise<{ id: string }> }) {
  const actor = await requireActor('job.read')
  const id = rowId((await params).id)
  const [shop, job, standing] = await Promise.all([
    readShop(),
    id === null ? null : readJobPapers(id),
    id === null ? null : readTravellerStanding(id),
  ])
  if (!job || !standing) notFound()
  const data = travellerOfJob(job, standing, {
    shop,
    origin: originOf(await headers()),
    by: actor.name,
    atIso: new Date().toISOString(),
  })
  const lengths = (
    [
      ['Cut blank', data.part.cutLengthMm],
      ['Centreline, developed', data.part.developedLengthMm],
    ] as const
  ).flatMap(([name, lengthMm]) => {
    if (lengthMm === undefined) return []
    const { main, other } = quantityText({ lengthMm }, data.lengthUnit)
    return [[name, `${main} (${other})`] as const]
  })
  return (
    <>
      <PageHead
        kind={`Traveller, issue ${job.travellerIssue}${data.void ? ', VOID' : ''}`}
        title={`${job.number}: ${data.job.partTitle}`}
        trail={[
          { label: 'Jobs', href: '/jobs' },
          { label: job.number, href: `/jobs/${job.id}` },
        ]}
        actions={
          <>
            <PrintButton />
            <a className="button" href={`/jobs/${job.id}/traveller.pdf`}>
              PDF
            </a>
          </>
        }
      >
        Printed {data.printedOn} by {actor.name}. Void once a later issue is made.
      </PageHead>
      <div className="traveller">
        <TravellerSheet data={data}>
          <div className="no-print">
            <VoidNotice
              standing={standing}
              issue={job.travellerIssue}
              act={
                may(actor, 'job.write') &&
                job.status === 'open' && (
                  <LinkButton kind="primary" href={`/jobs/${job.id}/plan-again`}>
                    Plan again
                  </LinkButton>
                )
              }
            />
          </div>
          {(data.remarks ?? []).map((remark) => (
            <Notice key={remark} title={remark} />
          ))}
          <Facts
            facts={[
              ['Customer', data.job.customerName],
              ['Part', `${data.job.partNumber} revision ${data.job.partRevision}, ${data.job.partTitle}`],
              ['Pieces', String(data.job.pieceCount)],
              ['Due', data.job.dueOn],
              ['Tube', data.part.sectionText],
              ['Material', data.part.materialText],
              ['Strength', data.part.valuesFromText ?? 'the material’s own values'],
              ['Ends in', data.part.endTemperText || 'not worked out'],
              ...(data.job.drawingNumber ? ([['Drawing', data.job.drawingNumber]] as const) : []),
              ...lengths,
            ]}
          />
          <PartDrawing part={drawnPart(job.revision)} units={shop.lengthUnit} />
        </TravellerSheet>
      </div>
    </>
  )
}
