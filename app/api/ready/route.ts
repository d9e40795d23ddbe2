import { readReadiness } from '@/lib/records/shop/read'

export const dynamic = 'force-dynamic'

/** The database answers and is as new as the program: only then is it worth sending people here. */
export async function GET(): Promise<Response> {
  const state = await readReadiness()
  return Response.json(state, { status: state.ready ? 200 : 503 })
}
