import Link from 'next/link'
import { LinkButton } from '@/app/_ui/button'
import { FoldSection } from '@/app/_ui/fold'
import type { TravellerStanding } from '@/lib/records/traveller/rules'
import { VoidNotice } from '../void-notice'
import { type JobView, wordsOf } from './job-view'
import '../papers.css'

/** Every paper of the job, and whether its traveller still holds. */
export function PapersSection({ view, standing }: { view: JobView; standing: TravellerStanding | null }) {
  const { job, revision, allows } = view
  const at = `/jobs/${job.id}`
  const isMeasured = job.pieces.some(
    ({ status, bendRecords }) => status !== 'scrapped' && bendRecords.length > 0,
  )
  const isVoid = standing !== null && standing.changes.length > 0
  const { day } = wordsOf(view)
  return (
    <FoldSection
      title="Papers"
      id="papers"
      summary={`traveller issue ${job.travellerIssue}${isVoid ? ' is VOID' : ''}, labels, templates${job.releases.length > 0 ? ', releases' : ''}`}
      open
    >
      {standing && (
        <VoidNotice
          standing={standing}
          issue={job.travellerIssue}
          act={
            allows('job.write') &&
            job.status === 'open' && (
              <LinkButton kind="primary" href={`${at}/plan-again`}>
                Plan again
              </LinkButton>
            )
          }
        />
      )}
      <ul className="papers">
        <li>
          <Link href={`${at}/traveller`}>Traveller, issue {job.travellerIssue}</Link>
          <a href={`${at}/traveller.pdf`}>Traveller PDF</a>
        </li>
        <li>
          <a href={`${at}/labels.pdf`}>Labels on sheets</a>
          <a href={`${at}/labels.pdf?stock=roll`}>Labels on a roll</a>
        </li>
        <li>
          <Link href={`/parts/${revision.part.id}/templates?rev=${revision.letter}`}>
            True-size templates
          </Link>
        </li>
        <li>
          {isMeasured ? (
            <a href={`${at}/first-article.pdf`}>First-article report</a>
          ) : (
            <span className="muted">First-article report: once a piece is measured</span>
          )}
        </li>
        {job.releases.map((release) => (
          <li key={release.id}>
            <Link href={`/releases/${release.id}`}>Release {release.number}</Link>
            <a href={`/releases/${release.id}/inspection.pdf`}>Inspection record</a>
            <a href={`/releases/${release.id}/packing.pdf`}>Packing list</a>
            <span className="muted small">
              {day(release.at)}, {release.by.name}: {release.pieces.length === 1 ? 'piece' : 'pieces'}{' '}
              {release.pieces.map(({ piece }) => piece.number).join(', ')}
            </span>
          </li>
        ))}
      </ul>
    </FoldSection>
  )
}
