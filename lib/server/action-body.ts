const mostCharacters = 1_000_000
const mostDepth = 60
/** An action takes one thing, or what it answered last and a form. */
const mostArguments = 2

/** Values that have no JSON of their own, as React writes them: nothing else begins with a single dollar sign. */
const special = /^\$(\$|undefined$|NaN$|Infinity$|-Infinity$|-0$|D\d)/

/** The framework's own reader fails on the head of a part that is longer, or that holds a control character. */
const mostNameCharacters = 1000
const controlCharacter = /[\u0000-\u001f\u007f]/

/** A form among an action's arguments; its fields stand beside, as _1_name. */
const formReference = /^\$K[\da-f]{1,4}$/

/**
 * Whether the body of an action that came as one text can be read: JSON with no reference to another part, for there is
 * none. React's reader throws on such a body, which would be our fault in the log and a 500 on the wire.
 */
export function isReadableActionText(text: string): boolean {
  return isReadableList(text, special)
}

/**
 * Whether the parts of an action's body can be read. Of all that React can write in parts our pages send two things: the
 * arguments with a form among them, and, before the scripts are there, a form that names its action itself.
 */
export function isReadableActionForm(form: FormData, namedInHeader: boolean): boolean {
  const names = [...form].flatMap(([name, value]) => (typeof value === 'string' ? name : [name, value.name]))
  if (names.some((name) => name.length > mostNameCharacters || controlCharacter.test(name))) return false
  if (!namedInHeader) return isReadablePlainForm(form)
  const [root, ...more] = form.getAll('0')
  if (typeof root !== 'string' || more.length > 0 || form.has('__proto__')) return false
  if (![...form.keys()].every((name) => name === '0' || /^_[\da-f]{1,4}_/.test(name))) return false
  return isReadableList(root, special, formReference)
}

function isReadablePlainForm(form: FormData): boolean {
  const own = [...form.keys()].filter((name) => name.startsWith('$ACTION_') && name !== '$ACTION_KEY').sort()
  const last = own.at(-1)
  if (last === undefined) return true
  if (/^\$ACTION_ID_[\da-f]+$/.test(last)) return own.length === 1
  const at = /^\$ACTION_REF_(\d{1,4})$/.exec(last)?.[1]
  const [action, bound] = [form.get(`$ACTION_${at}:0`), form.get(`$ACTION_${at}:1`)]
  if (own.join() !== `$ACTION_${at}:0,$ACTION_${at}:1,$ACTION_REF_${at}`) return false
  if (typeof action !== 'string' || typeof bound !== 'string') return false
  return /^\{"id":"[\da-f]+","bound":"\$@1"\}$/.test(action) && isReadableList(bound, special)
}

function isReadableList(text: string, ...allowed: readonly RegExp[]): boolean {
  if (text.length > mostCharacters) return false
  let root: unknown
  try {
    root = JSON.parse(text)
  } catch {
    return false
  }
  return Array.isArray(root) && root.length <= mostArguments && isPlain(root, allowed, 0)
}

function isPlain(value: unknown, allowed: readonly RegExp[], depth: number): boolean {
  if (depth > mostDepth) return false
  if (typeof value === 'string') return !value.startsWith('$') || allowed.some((form) => form.test(value))
  if (typeof value !== 'object' || value === null) return true
  return Object.values(value).every((one) => isPlain(one, allowed, depth + 1))
}
