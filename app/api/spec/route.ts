import { answerSpec } from '@/lib/records/spec/schema'
import { shopRoute } from '@/lib/server/route'

const mostCharacters = 1_000_000

const faults = (status: number, met: string, allowed: string) =>
  Response.json({ faults: [{ path: 'the whole question', met, allowed }] }, { status })

/** The bend spec of a question, the same answer as `npm run spec`: 400 for what is no JSON, 422 with a line a fault. */
export const POST = shopRoute('part.read', async (request) => {
  const text = await request.text()
  if (text.length > mostCharacters)
    return faults(413, `${text.length} characters`, `at most ${mostCharacters}`)
  let question: unknown
  try {
    question = JSON.parse(text)
  } catch {
    return faults(400, 'no JSON', 'one JSON object')
  }
  const answered = answerSpec(question)
  return answered.ok
    ? Response.json(answered.answer)
    : Response.json({ faults: answered.faults }, { status: 422 })
})
