import { answerSpec } from '@/lib/records/spec/schema'
import { shopRoute } from '@/lib/server/route'
import { mostQuestionBytes, readBounded, readQuestionText, tooLarge } from './question-text'

/**
 * The bend spec of a question, as `npm run spec` answers it. Faults come as { faults: [{ path, met, allowed }] }:
 * 422 where the question can't be answered, 400 where it isn't JSON, 413 where it is too long.
 */
export const POST = shopRoute('part.read', async (request) => {
  const bytes = await readBounded(request.body, mostQuestionBytes)
  const question = bytes === null ? tooLarge() : readQuestionText(bytes)
  if (!question.ok) return Response.json({ faults: question.faults }, { status: question.status })
  const answered = answerSpec(question.json)
  return answered.ok
    ? Response.json(answered.answer)
    : Response.json({ faults: answered.faults }, { status: 422 })
})
