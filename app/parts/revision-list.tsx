import Link from 'next/link'
import type { ReactNode } from 'react'
import type { LengthUnit } from '@/lib/core/units'
import { type RevisionFacts, revisionDifferences } from '@/lib/records/part/rules'

type Listed = RevisionFacts & { id: number; letter: string; createdAt: Date; frozenAt: Date | null }

/** Every revision, the newest first, with what it has otherwise than the one before. */
export function RevisionList({
  partId,
  revisions,
  shownId,
  unit,
  moment,
}: {
  partId: number
  revisions: readonly Listed[]
  shownId: number
  unit: LengthUnit
  moment: (at: Date) => ReactNode
}) {
  return (
    <ol className="ruled-list" reversed>
      {revisions.map((revision, index) => {
        const before = revisions[index + 1]
        const differences = before ? revisionDifferences(before, revision, unit) : []
        return (
          <li key={revision.id}>
            <div className="row">
              <span className="strong">
                {revision.id === shownId ? (
                  `Revision ${revision.letter}, shown here`
                ) : (
                  <Link href={index === 0 ? `/parts/${partId}` : `/parts/${partId}?rev=${revision.letter}`}>
                    Revision {revision.letter}
                  </Link>
                )}
              </span>
              <span className="muted small">
                {moment(revision.createdAt)}
                {revision.frozenAt ? <>, frozen {moment(revision.frozenAt)}</> : ', may still change'}
              </span>
            </div>
            {differences.length > 0 && (
              <ul className="plain-list small">
                {differences.map(({ what, before: was, after }) => (
                  <li key={what}>
                    {what}: <del>{was}</del> <ins>{after}</ins>
                  </li>
                ))}
              </ul>
            )}
          </li>
        )
      })}
    </ol>
  )
}
