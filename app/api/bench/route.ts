import { boundedJson } from '@/app/api/bounded-json'
import { benchEntryAction } from '@/app/bench/actions'
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

/** 503: nothing is wrong with the entry, and the device sends it again until the shop's computer can keep it. */
function statusOf(code: string): number {
  if (['disk-full', 'no-database', 'no-file-store'].includes(code)) return 503
  return code === 'bad-input' ? 422 : 409
}
