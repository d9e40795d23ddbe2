/**
 * A pure function that keeps the answers to its latest questions: a screen that asks again does not wait again.
 * Questions are alike when their JSON is, so they hold plain values only. The answer is the same object each time and
 * must not be written to. What throws, or promises and fails, is asked anew.
 */
export function remembered<Question extends readonly unknown[], Answer>(
  answer: (...question: Question) => Answer,
  mostKept: number,
): (...question: Question) => Answer {
  const kept = new Map<string, Answer>()
  return (...question) => {
    const key = JSON.stringify(question)
    const known = kept.get(key)
    if (known !== undefined) {
      // Last asked, last to go.
      kept.delete(key)
      kept.set(key, known)
      return known
    }
    const found = answer(...question)
    if (kept.size >= mostKept) kept.delete(kept.keys().next().value as string)
    kept.set(key, found)
    if (found instanceof Promise) found.catch(() => kept.delete(key))
    return found
  }
}
