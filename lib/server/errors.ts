/** Every expected "no", with the HTTP status a route answers it with. */
export const refusalStatus = {
  'not-signed-in': 401,
  'not-allowed': 403,
  'not-found': 404,
  'changed-meanwhile': 409,
  'already-done': 409,
  'wrong-state': 409,
  'still-in-use': 409,
  'too-many-tries': 429,
  'bad-input': 422,
  'too-large': 413,
  'bad-file': 415,
  'not-enough': 409,
  'disk-full': 507,
  'no-database': 503,
  'no-file-store': 503,
} as const

export type RefusalCode = keyof typeof refusalStatus

/** An expected "no": rolls the transaction back and reaches the person as its message. */
export class Refused extends Error {
  readonly code: RefusalCode
  /** Where the message belongs in the form, as the schema spells the path: 'lines.0.quantity'. */
  readonly field: string | undefined

  /** What was saved by somebody else meanwhile, as changedMeanwhile names it. */
  readonly stale: string | undefined

  constructor(code: RefusalCode, message: string, field?: string, stale?: string) {
    super(message)
    this.name = 'Refused'
    this.code = code
    this.field = field
    this.stale = stale
  }
}

export function changedMeanwhile(what: string): Refused {
  return new Refused(
    'changed-meanwhile',
    `Somebody else saved this ${what} while you were working on it. What you typed is still here.`,
    undefined,
    what,
  )
}
