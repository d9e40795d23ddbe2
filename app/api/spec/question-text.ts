import type { SpecFault } from '@/lib/core/spec/contract'

/** The largest question taken: a hundred bends need a hundredth of it. */
export const mostQuestionBytes = 1_000_000
/** A question nests four deep; what nests far deeper is no question. */
export const mostQuestionDepth = 32

export type QuestionRead =
  | { ok: true; json: unknown }
  | { ok: false; status: 400 | 413; faults: readonly SpecFault[] }

const fault = (status: 400 | 413, met: string, allowed: string): QuestionRead => ({
  ok: false,
  status,
  faults: [{ path: 'the whole question', met, allowed }],
})

export const tooLarge = (): QuestionRead =>
  fault(413, 'more than 1 MB', `a question of at most ${mostQuestionBytes / 1_000_000} MB`)

/** How deep lists and objects lie in one another, braces inside text left out; what is not JSON is left to the parser. */
export function nestingDepth(text: string): number {
  let depth = 0
  let deepest = 0
  let inText = false
  for (let at = 0; at < text.length; at += 1) {
    const mark = text[at]
    if (inText) {
      if (mark === '\\') at += 1
      else if (mark === '"') inText = false
    } else if (mark === '"') inText = true
    else if (mark === '{' || mark === '[') {
      depth += 1
      deepest = Math.max(deepest, depth)
    } else if (mark === '}' || mark === ']') depth -= 1
  }
  return deepest
}

/** The question as it was sent, read as JSON once its size and depth are known to be bearable. */
export function readQuestionText(bytes: Uint8Array): QuestionRead {
  if (bytes.byteLength > mostQuestionBytes) return tooLarge()
  let text: string
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    return fault(400, 'bytes that are no UTF-8', 'JSON in UTF-8')
  }
  const depth = nestingDepth(text)
  if (depth > mostQuestionDepth) {
    return fault(400, `${depth} lists and objects in one another`, `at most ${mostQuestionDepth}`)
  }
  try {
    return { ok: true, json: JSON.parse(text) }
  } catch (cause) {
    return fault(400, cause instanceof Error ? cause.message : 'what cannot be parsed', 'one JSON object')
  }
}

/** Reads what was sent and stops as soon as it is too much, whatever length was announced; null then. */
export async function readBounded(
  body: ReadableStream<Uint8Array> | null,
  most: number,
): Promise<Uint8Array | null> {
  const chunks: Uint8Array[] = []
  let byteCount = 0
  const reader = body?.getReader()
  while (reader) {
    const { done, value } = await reader.read()
    if (done) break
    byteCount += value.byteLength
    if (byteCount > most) {
      await reader.cancel()
      return null
    }
    chunks.push(value)
  }
  const whole = new Uint8Array(byteCount)
  let at = 0
  for (const chunk of chunks) {
    whole.set(chunk, at)
    at += chunk.byteLength
  }
  return whole
}
