import { type FieldUnits, fieldName, fieldText } from '@/lib/core/field-words'

export type AuditDifference = { name: string; before: string; after: string }

const metric: FieldUnits = { lengthUnit: 'mm', currency: 'USD' }

/** Bookkeeping of the row itself. */
const unsaid = new Set(['id', 'version', 'updatedAt', 'createdAt', 'submitKey'])
const deepest = 4

/** Every value of a record by its place in it. What lies deeper than people read is one value. */
function placesOf(value: unknown, path: string[] = []): Map<string, { path: string[]; value: unknown }> {
  if (typeof value !== 'object' || value === null || path.length >= deepest) {
    return new Map([[path.join('.'), { path, value }]])
  }
  const inside = Object.entries(value).filter(([key]) => !unsaid.has(key))
  // An empty list or record in a record is a value too: what was in it is gone.
  if (inside.length === 0 && path.length > 0) return new Map([[path.join('.'), { path, value: null }]])
  return new Map(inside.flatMap(([key, within]) => [...placesOf(within, [...path, key])]))
}

function recordOf(value: unknown): Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
    ? (value as Record<string, unknown>)
    : {}
}

/** What a change changed: every value that is not what it was, as people name it and read it. */
export function auditDifferences(
  before: unknown,
  after: unknown,
  units: FieldUnits = metric,
): AuditDifference[] {
  return differences(before, after, units).map(({ name, before: was, after: is }) => {
    return { name, before: was, after: is }
  })
}

function differences(before: unknown, after: unknown, units: FieldUnits) {
  const one = recordOf(before)
  const other = recordOf(after)
  // A change may name only what it changed: what the later record does not have was left as it was.
  const was = placesOf(Object.fromEntries(Object.keys(other).map((key) => [key, one[key] ?? null])))
  const is = placesOf(other)
  return [...new Set([...is.keys(), ...was.keys()])].flatMap((place) => {
    const path = (is.get(place) ?? was.get(place))?.path ?? []
    const key = path.at(-1) ?? ''
    const [from, to] = [was.get(place)?.value, is.get(place)?.value].map((value) =>
      fieldText(key, value, units),
    )
    if (from === undefined || to === undefined || from === to) return []
    return [{ place, key, name: fieldName(path), before: from, after: to }]
  })
}

export type Save = { before: unknown; after: unknown }
export type StaleDifference = AuditDifference & { yours: string | null }

/** What others saved over a form's record, from the value it was opened with to the one there is now, beside what was typed. */
export function staleDifferences(
  saves: readonly Save[],
  typed: unknown,
  units: FieldUnits = metric,
): StaleDifference[] {
  const firstBefore: Record<string, unknown> = {}
  const lastAfter: Record<string, unknown> = {}
  for (const { before, after } of saves) {
    const was = recordOf(before)
    for (const [key, value] of Object.entries(recordOf(after))) {
      if (!(key in firstBefore)) firstBefore[key] = was[key]
      lastAfter[key] = value
    }
  }
  const own = placesOf(recordOf(typed))
  return differences(firstBefore, lastAfter, units).map(({ place, key, ...said }) => {
    const mine = own.get(place)
    return { ...said, yours: mine ? fieldText(key, mine.value, units) : null }
  })
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
