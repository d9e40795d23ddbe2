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
  return Response.json(outcome, { status: outcome.ok ? 200 : (statuses[outcome.code] ?? 422) })
})

/** An entry typed wrongly is 400; one that was understood, and that the shop's rules forbid, 422. */
const statuses: Readonly<Record<string, number>> = {
  'bad-input': 400,
  'not-signed-in': 401,
  'not-allowed': 403,
  'not-found': 404,
  'changed-meanwhile': 409,
  'too-large': 413,
  'bad-file': 415,
  'no-database': 503,
  'no-file-store': 503,
  'disk-full': 507,
}
