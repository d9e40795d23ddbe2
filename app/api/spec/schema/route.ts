import { specJsonSchema } from '@/lib/records/spec/schema'
import { shopRoute } from '@/lib/server/route'

/** What a question may hold, as JSON Schema; the same as public/bend-spec.schema.json. */
export const GET = shopRoute('part.read', async () =>
  Response.json(specJsonSchema(), { headers: { 'content-type': 'application/schema+json' } }),
)
