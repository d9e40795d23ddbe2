import { DataTable } from '@/app/_ui/data-table'
import { moneyText } from '@/app/_ui/money'
import { issueDifferences, quoteSnapshot } from '@/lib/records/quote/rules'

type Sent = { issue: number; snapshot: unknown }

/** What this sending offered otherwise than the one before it. */
export function IssueChanges({
  before,
  after,
  currency,
}: {
  before: Sent | undefined
  after: Sent
  currency: string
}) {
  if (!before) return null
  const [old, now] = [quoteSnapshot.safeParse(before.snapshot), quoteSnapshot.safeParse(after.snapshot)]
  if (!old.success || !now.success) return null
  const rows = issueDifferences(old.data, now.data, (cents) => moneyText(cents, currency))
  if (rows.length === 0) return <p className="muted small">The same as issue {before.issue}.</p>
  return (
    <details open>
      <summary>
        {rows.length} {rows.length === 1 ? 'change' : 'changes'} from issue {before.issue}
      </summary>
      <DataTable
        caption={`What issue ${after.issue} has otherwise than issue ${before.issue}`}
        captionHidden
        rows={rows}
        rowKey={({ what }) => what}
        columns={[
          { key: 'what', head: 'What', title: true, cell: ({ what }) => what },
          { key: 'was', head: `Issue ${before.issue}`, cell: (row) => row.before },
          { key: 'now', head: `Issue ${after.issue}`, cell: (row) => row.after },
        ]}
      />
    </details>
  )
}
