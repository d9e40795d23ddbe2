import { createHash } from 'node:crypto'

/** Screens ask some two hundred different things; a list of ids of any length makes more, and a connection holds each plan. */
const mostNames = 500
const names = new Map<string, string>()

/**
 * A name for a query, so that each connection parses it once and PostgreSQL may keep its plan. The text's own hash, so
 * that two versions of this module in one process never name two texts alike. Empty where enough are named already.
 */
export function statementName({ sql }: { readonly sql: string }): string {
  const known = names.get(sql)
  if (known !== undefined) return known
  if (names.size >= mostNames) return ''
  const name = createHash('sha256').update(sql).digest('hex').slice(0, 32)
  names.set(sql, name)
  return name
}
