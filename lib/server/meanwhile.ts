import 'server-only'
import { db, Prisma } from '@/lib/server/db'

/** What somebody else saved over the version a form was opened with, and the version to go on from. */
export type Meanwhile = {
  /** The field of the form that holds the version, and what it has to be for the next save to count. */
  field: 'version' | 'baseId'
  value: number
  saves: { by: string; at: string; action: string; before: unknown; after: unknown }[]
  /** The shop's, for the values of those saves. */
  units: { lengthUnit: 'in' | 'mm'; currency: string }
}

export type StaleRecord = { entity: Prisma.ModelName; idField?: 'id' | 'revisionId' }

/** By the word a refusal names the record with. */
const records: Readonly<Record<string, StaleRecord>> = {
  customer: { entity: 'Customer' },
  person: { entity: 'User' },
  part: { entity: 'Part' },
  'set-up': { entity: 'Setup', idField: 'revisionId' },
  job: { entity: 'Job' },
  quote: { entity: 'Quote' },
  bender: { entity: 'Source' },
  request: { entity: 'Ask' },
  material: { entity: 'MaterialEntry' },
  alloy: { entity: 'FillerAlloy' },
  press: { entity: 'Press' },
  die: { entity: 'Die' },
  strap: { entity: 'Strap' },
  filler: { entity: 'Filler' },
  lot: { entity: 'StockLot' },
  bar: { entity: 'StockPiece' },
  'shop’s settings': { entity: 'Shop' },
  fault: { entity: 'Nonconformance' },
}

const entry = { actorText: true, at: true, action: true, before: true, after: true } as const
type Entry = Prisma.AuditEntryGetPayload<{ select: typeof entry }>

const asSave = ({ actorText, at, ...rest }: Entry) => ({ by: actorText, at: at.toISOString(), ...rest })

/** Reads it from the history: every save raises the version by one and leaves one line. */
export async function readMeanwhile(what: string, input: unknown): Promise<Meanwhile | undefined> {
  const typed = (typeof input === 'object' && input !== null ? input : {}) as Record<string, unknown>
  if (what === 'sheet of rates') return ratesMeanwhile(typed.baseId)
  const record = records[what]
  if (!record) return undefined
  const id = record.entity === 'Shop' ? 1 : typed[record.idField ?? 'id']
  if ((typeof id !== 'number' && typeof id !== 'string') || typeof typed.version !== 'number')
    return undefined
  const table = Prisma.raw(`"${record.entity}"`)
  const column = Prisma.raw(`"${record.idField ?? 'id'}"`)
  const rows = await db.$queryRaw<{ version: number }[]>`
    select version from ${table} where ${column}::text = ${String(id)}`
  const value = rows[0]?.version
  if (value === undefined || value <= typed.version) return undefined
  const entries = await db.auditEntry.findMany({
    where: { entity: record.entity, entityId: String(id) },
    orderBy: { id: 'desc' },
    take: Math.min(value - typed.version, 20),
    select: entry,
  })
  return { field: 'version', value, saves: entries.reverse().map(asSave), units: await shopUnits() }
}

function shopUnits() {
  return db.shop.findUniqueOrThrow({ where: { id: 1 }, select: { lengthUnit: true, currency: true } })
}

/** Rates are not changed but followed by a newer sheet. */
async function ratesMeanwhile(baseId: unknown): Promise<Meanwhile | undefined> {
  if (typeof baseId !== 'number') return undefined
  const sheets = await db.rateSheet.findMany({
    where: { id: { gt: baseId } },
    orderBy: { id: 'asc' },
    take: 20,
    select: { id: true },
  })
  const last = sheets.at(-1)
  if (!last) return undefined
  const entries = await db.auditEntry.findMany({
    where: { entity: 'RateSheet', entityId: { in: sheets.map(({ id }) => String(id)) } },
    orderBy: { id: 'asc' },
    select: entry,
  })
  return { field: 'baseId', value: last.id, saves: entries.map(asSave), units: await shopUnits() }
}
