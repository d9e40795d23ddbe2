import { boundedJson } from '@/app/api/bounded-json'
import { planTubes, readEstimateGround } from '@/lib/records/estimate/read'
import { estimateForm } from '@/lib/records/estimate/schema'
import { wayBases } from '@/lib/records/way/rules'
import { shopRoute } from '@/lib/server/route'

const mostBytes = 64_000

/** How the tube of an estimate as it is typed would be cut: the one part of it that the browser does not work out itself. */
export const POST = shopRoute('estimate.read', async (request) => {
  const posted = await boundedJson(request, mostBytes)
  if (!posted.ok) return posted.answer
  const typed = posted.json
  const revisionId = Number((typed as { revisionId?: unknown } | null)?.revisionId)
  const read = Number.isInteger(revisionId) ? await readEstimateGround(revisionId) : null
  if (!read) return Response.json({ message: 'There is no such revision of a part.' }, { status: 404 })
  const parsed = estimateForm(read.ground.shop).safeParse(typed)
  if (!parsed.success) return Response.json({ message: 'Look at the marked fields.' }, { status: 422 })
  const basis = wayBases(read.ground).find(({ way }) => way === parsed.data.way)
  if (!basis?.part) return Response.json({ message: 'This way has no bend spec to cost.' }, { status: 422 })
  return Response.json({ plans: await planTubes(read.ground, basis, parsed.data) })
})
