import { type ChainLink, Trace } from '@/lib/core/mechanics/trace'
import { bendSpec } from '@/lib/core/spec/bend-spec'
import type { SpecAnswer, SpecInput } from '@/lib/core/spec/contract'

/** The answer with the record of how each of its numbers came about. */
export function explainedSpec(input: SpecInput): { readonly answer: SpecAnswer; readonly trace: Trace } {
  const trace = new Trace()
  return { answer: bendSpec(input, trace), trace }
}

/** A field's name in the record: bends[0].pressForceKn and bends.0.pressForceKn are the same. */
export function traceKey(path: string): string {
  return path.replace(/\[(\d+)\]/g, '.$1').replace(/^\./, '')
}

/**
 * Where a number of the answer came from: every step it needed, in order, itself last.
 * Throws RangeError where the answer has no such number; SpecRefusal where there is no answer.
 */
export function explain(input: SpecInput, path: string): readonly ChainLink[] {
  const { trace } = explainedSpec(input)
  const chain = trace.chain(traceKey(path))
  if (chain.length === 0) throw new RangeError(`the answer has no number ${path}`)
  return chain
}
