import Link from 'next/link'
import { PressAction } from '@/app/_shop/press-action'
import { Section } from '@/app/_ui/section'
import type { TravellerStanding } from '@/lib/records/traveller/rules'
import { reissueTravellerAction } from '../actions'
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
  const { day } = wordsOf(view)
  return (
    <Section title="Papers" id="papers">
      {standing && (
        <VoidNotice
          standing={standing}
          issue={job.travellerIssue}
          act={
            allows('job.write') &&
            job.status === 'open' && (
              <PressAction
                kind="primary"
                label="Make a new issue"
                input={{ id: job.id, version: job.version }}
                action={reissueTravellerAction}
              />
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
    </Section>
  )
}
