import type { ReactNode } from 'react'
import { Notice } from '@/app/_ui/notice'
import type { TravellerStanding } from '@/lib/records/traveller/rules'

/** Says that no print of this traveller may be worked from, and what changed; nothing while it holds. */
export function VoidNotice({
  standing,
  issue,
  act,
}: {
  standing: TravellerStanding
  issue: number
  act: ReactNode
}) {
  return (
    <>
      {standing.changes.length > 0 && (
        <Notice kind="stop" title={`VOID: do not work from traveller issue ${issue}`} actions={act}>
          <p>What it was made from has changed:</p>
          <ul>
            {standing.changes.map((change) => (
              <li key={change}>{change}</li>
            ))}
          </ul>
        </Notice>
      )}
      {standing.newerRevision && (
        <Notice kind="caution" title={`The part has revision ${standing.newerRevision} by now`}>
          This job makes the older one. Ask the office before work goes on.
        </Notice>
      )}
    </>
  )
}
