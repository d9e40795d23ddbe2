import { readWeighing } from '@/lib/records/decision/read'
import { markText } from '@/lib/records/decision/rules'
import { decideForm } from '@/lib/records/decision/schema'
import { decide } from '@/lib/records/decision/write'
import { db } from '@/lib/server/db'
import type { Actor } from '@/lib/server/session'

/** Which demo parts are decided, for which side, and why. */
const demoDecisions = [
  {
    part: 0,
    side: 'inHouse',
    whyText:
      'Strap and pot are here, the angle holds after one trial piece, and outside nobody keeps the radius.',
  },
  {
    part: 1,
    side: 'inHouse',
    whyText: 'Mirror of the port arm: the die stays on the press, one trial piece for both.',
  },
] as const

/** Decisions weighed from the demo's estimates and outside answers, as a user would make them. */
export async function loadDemoDecisions(
  parts: readonly { revisionId: number; quantity: number }[],
  owner: Actor,
): Promise<void> {
  if ((await db.rateSheet.count()) === 0) return
  for (const { part: place, side, whyText } of demoDecisions) {
    const part = parts[place]
    const read = part && (await readWeighing(part.revisionId, { pieceCount: part.quantity, dueOn: null }))
    const best = read && (side === 'inHouse' ? read.weighed.bestInHouseKey : read.weighed.bestOutsideKey)
    if (!part || !read || !best) continue
    const typed = {
      revisionId: String(part.revisionId),
      pieceCount: String(part.quantity),
      dueOn: '',
      chosen: best,
      whyText,
      mark: markText(read.marks),
    }
    await decide(decideForm.parse(typed), owner)
  }
}
