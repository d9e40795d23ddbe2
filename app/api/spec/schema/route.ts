import { specJsonSchema } from '@/lib/records/spec/schema'
import { shopRoute } from '@/lib/server/route'

/** The question as JSON Schema. */
export const GET = shopRoute('part.read', () => Promise.resolve(Response.json(specJsonSchema())))
