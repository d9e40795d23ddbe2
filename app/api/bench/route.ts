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
  const status = outcome.ok ? 200 : outcome.code === 'bad-input' ? 422 : 409
  return Response.json(outcome, { status })
})
