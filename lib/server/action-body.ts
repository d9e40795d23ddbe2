const mostCharacters = 1_000_000
const mostDepth = 60

/** Values that have no JSON of their own, as React writes them: nothing else begins with a single dollar sign. */
const special = /^\$(\$|undefined$|NaN$|Infinity$|-Infinity$|-0$|D\d|n-?\d+$)/

/**
 * Whether the body of an action that came as one text can be read: JSON with no reference to another part, for there is
 * none. React's reader throws on such a body, which would be our fault in the log and a 500 on the wire.
 */
export function isReadableActionText(text: string): boolean {
  if (text.length > mostCharacters) return false
  let root: unknown
  try {
    root = JSON.parse(text)
  } catch {
    return false
  }
  return Array.isArray(root) && isPlain(root, 0)
}

function isPlain(value: unknown, depth: number): boolean {
  if (depth > mostDepth) return false
  if (typeof value === 'string') return !value.startsWith('$') || special.test(value)
  if (typeof value !== 'object' || value === null) return true
  return Object.values(value).every((one) => isPlain(one, depth + 1))
}
