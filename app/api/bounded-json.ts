import { mostQuestionDepth, nestingDepth, readBounded } from './spec/question-text'

export type JsonRead = { ok: true; json: unknown } | { ok: false; answer: Response }

const refused = (status: 400 | 413, message: string): JsonRead => ({
  ok: false,
  answer: Response.json({ ok: false, code: 'bad-input', message, fields: {} }, { status }),
})

/** What was posted to a route as JSON, read only as far as its size and depth are bearable. */
export async function boundedJson(request: Request, mostBytes: number): Promise<JsonRead> {
  const bytes = await readBounded(request.body, mostBytes)
  if (bytes === null) return refused(413, `At most ${mostBytes / 1000} kB`)
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes)
    if (nestingDepth(text) > mostQuestionDepth) return refused(400, 'Nested too deep')
    return { ok: true, json: JSON.parse(text) as unknown }
  } catch {
    return refused(400, 'This is not JSON in UTF-8')
  }
}
