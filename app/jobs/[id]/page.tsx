import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { BendLink } from '@/app/_drawing/bend-link'
import { PartDrawing } from '@/app/_drawing/part-drawing'
import { rowId } from '@/app/_shop/row-id'
import { RevealTarget } from '@/app/_ui/fold'
import { Section } from '@/app/_ui/section'
import { SectionNav } from '@/app/_ui/section-nav'
import { readActual } from '@/lib/records/actual/read'
import { readBarsForJob, readJob } from '@/lib/records/job/read'
import { readRevision } from '@/lib/records/part/read'
import { drawnPart } from '@/lib/records/part/rules'
import { nextStep } from '@/lib/records/progress/rules'
import { readShop } from '@/lib/records/shop/read'
import { readFillers } from '@/lib/records/tooling/read'
import { readTravellerStanding } from '@/lib/records/traveller/read'
import { may, requireActor } from '@/lib/server/session'
import { ActualSection } from './actual-section'
import { EndSection } from './end-section'
import { FaultsSection } from './faults-section'
import { FillerSection } from './filler-section'
import { JobFacts, JobHead } from './job-head'
import type { JobView } from './job-view'
import { OperationsSection } from './operations-section'
import { PapersSection } from './papers-section'
import { PiecesSection } from './pieces-section'
import { StockSection } from './stock-section'
import { TriesSection } from './tries-section'
import '../jobs.css'

export const metadata: Metadata = { title: 'Job' }

/** The sections of a job below its drawing, in the order the work goes. A new one gets its line here. */
const sections = [
  { id: 'pieces', label: 'Pieces', show: PiecesSection },
  { id: 'tries', label: 'Tries', show: TriesSection },
  { id: 'faults', label: 'Faults', show: FaultsSection },
  { id: 'stock', label: 'Stock', show: StockSection },
  { id: 'filler', label: 'Filler', show: FillerSection },
  { id: 'operations', label: 'Operations', show: OperationsSection },
] as const

export default async function JobPage({ params }: { params: Promise<{ id: string }> }) {
  const actor = await requireActor('job.read')
  const id = rowId((await params).id)
  const job = id === null ? null : await readJob(id)
  const [shop, revision] = await Promise.all([readShop(), job && readRevision(job.revisionId)])
  if (!job || !revision) notFound()
  const isOpen = job.status === 'open'
  const [bars, fillers] = await Promise.all([
    isOpen ? readBarsForJob({ id: job.id }, revision) : [],
    isOpen && may(actor, 'filler.write') ? readFillers() : [],
  ])
  const step = nextStep({
    id: job.id,
    status: job.status,
    bendCount: revision.bends.length,
    pieces: job.pieces,
    faults: job.faults,
    reservedCount: job.stockPieces.filter(({ usedAt }) => usedAt === null).length,
    openLessons: may(actor, 'lesson.accept') && job.lessons.some((one) => !one.acceptedAt && !one.declinedAt),
  })
  const view: JobView = {
    job,
    revision,
    shop,
    allows: (permission) => may(actor, permission),
    bars,
    fillers,
    openId: step.href?.startsWith('#') ? step.href.slice(1) : '',
  }
  const [actual, standing] = await Promise.all([
    may(actor, 'estimate.read') ? readActual(job.id) : null,
    readTravellerStanding(job.id),
  ])
  return (
    <>
      <JobHead view={view} step={step} />
      <SectionNav
        label="Parts of this job"
        links={[
          ...sections,
          { id: 'papers', label: 'Papers' },
          ...(actual ? [{ id: 'actual', label: 'Against the estimate' }] : []),
          { id: 'end', label: job.status === 'open' ? 'Due and closing' : 'What it taught' },
        ].map((section) => ({
          href: `/jobs/${job.id}#${section.id}`,
          label: section.label,
        }))}
      />
      <BendLink className="stack stack-loose">
        <Section title="Drawing" id="drawing">
          <PartDrawing part={drawnPart(revision)} units={shop.lengthUnit} />
        </Section>
        {sections.map((section) => (
          <section.show key={section.id} view={view} />
        ))}
        <PapersSection view={view} standing={standing} />
        <JobFacts view={view} />
        {actual && <ActualSection report={actual} />}
        <EndSection view={view} />
      </BendLink>
      <RevealTarget />
    </>
  )
}
