export type AuditDifference = { name: string; before: string; after: string }

function inWords(value: unknown): string {
  if (value === null || value === undefined || value === '') return '–'
  return typeof value === 'string' ? value : JSON.stringify(value)
}

function record(value: unknown): Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
    ? (value as Record<string, unknown>)
    : {}
}

/** What a change changed: every value that is not what it was. Bookkeeping of the row itself is left out. */
export function auditDifferences(before: unknown, after: unknown): AuditDifference[] {
  const one = record(before)
  const other = record(after)
  return Object.keys(other)
    .filter((name) => !['id', 'version', 'updatedAt', 'createdAt'].includes(name))
    .map((name) => ({ name: nameInWords(name), before: inWords(one[name]), after: inWords(other[name]) }))
    .filter((difference) => difference.before !== difference.after)
}

export type Save = { before: unknown; after: unknown }
export type StaleDifference = AuditDifference & { yours: string | null }

/** What others saved over a form's record, from the value it was opened with to the one there is now, beside what was typed. */
export function staleDifferences(saves: readonly Save[], typed: unknown): StaleDifference[] {
  const firstBefore: Record<string, unknown> = {}
  const lastAfter: Record<string, unknown> = {}
  for (const { before, after } of saves) {
    const was = record(before)
    for (const [key, value] of Object.entries(record(after))) {
      if (!(key in firstBefore)) firstBefore[key] = was[key]
      lastAfter[key] = value
    }
  }
  const own = record(typed)
  return Object.keys(lastAfter).flatMap((key) =>
    auditDifferences({ [key]: firstBefore[key] }, { [key]: lastAfter[key] }).map((difference) => ({
      ...difference,
      yours: key in own ? inWords(own[key]) : null,
    })),
  )
}

/** 'minimumSpanMm' as 'minimum span mm': the names carry their units. */
export function nameInWords(name: string): string {
  return name
    .replace(/([a-z0-9])([A-Z])/g, '$1 $2')
    .toLowerCase()
    .replace(/\bmpa\b/, 'MPa')
    .replace(/\bkn\b/, 'kN')
}

/** Where a record of this kind has a page of its own. */
export function recordHref(entity: string, entityId: string): string | null {
  const pages: Readonly<Record<string, string>> = {
    User: '/people',
    Press: '/shop/presses',
    Die: '/shop/dies',
    Strap: '/shop/straps',
    Filler: '/shop/fillers',
    Part: '/parts',
    Customer: '/customers',
    Quote: '/quotes',
    Job: '/jobs',
    Nonconformance: '/faults',
    Release: '/releases',
    StockLot: '/stock',
  }
  if (entity === 'Shop') return '/shop/settings'
  if (entity === 'RateSheet') return '/shop/rates'
  const page = pages[entity]
  return page && /^\d+$/.test(entityId) ? `${page}/${entityId}` : null
}
