import { boundedJson } from '@/app/api/bounded-json'
import { benchEntryAction } from '@/app/bench/actions'
import { type RefusalCode, refusalStatus } from '@/lib/server/errors'
import { shopRoute } from '@/lib/server/route'

/** A picture in base64 and what stands around it. */
const mostBytes = 8_100_000

/** One entry of the bench; the queue on the device sends it again until it is answered. */
export const POST = shopRoute('bench.write', async (request) => {
  const read = await boundedJson(request, mostBytes)
  if (!read.ok) return read.answer
  const outcome = await benchEntryAction(read.json)
  return Response.json(outcome, { status: outcome.ok ? 200 : statusOf(outcome.code) })
})

/** An entry typed wrongly is 400; one that was understood, and that the shop's rules forbid, 422. */
function statusOf(code: RefusalCode): number {
  switch (code) {
    case 'bad-input':
      return 400
    case 'wrong-state':
    case 'already-done':
    case 'still-in-use':
    case 'not-enough':
      return 422
    default:
      return refusalStatus[code]
  }
}
