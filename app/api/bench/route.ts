import { benchEntryAction } from '@/app/bench/actions'
import { shopRoute } from '@/lib/server/route'

/** One entry of the bench; the queue on the device sends it again until it is answered. */
export const POST = shopRoute('bench.write', async (request) => {
  const typed: unknown = await request.json().catch(() => null)
  const outcome = await benchEntryAction(typed)
  const status = outcome.ok ? 200 : outcome.code === 'bad-input' ? 422 : 409
  return Response.json(outcome, { status })
})
