import 'server-only'
import { fillerById, fillers } from '@/lib/core/materials/fillers'
import type { Filler } from '@/lib/core/materials/low-melt'
import { ownLowMelt } from '@/lib/core/materials/own-filler'
import { keptAlloy } from '@/lib/records/filler-alloy/rules'
import type { NewFillerAlloy } from '@/lib/records/filler-alloy/schema'
import { db } from '@/lib/server/db'

/** A filler with its entry where it is the shop's own; null for one of the table. */
export type ShownFiller = { filler: Filler; entry: { values: NewFillerAlloy; version: number } | null }

function shownEntry({ data, version }: { data: unknown; version: number }): ShownFiller[] {
  const kept = keptAlloy(data)
  return kept ? [{ filler: ownLowMelt(kept.own), entry: { values: kept.values, version } }] : []
}

/** Everything a bore can be filled with: the shop's own alloys first, then the table. */
export async function readFillerTable(): Promise<ShownFiller[]> {
  const entries = await db.fillerAlloy.findMany({ orderBy: { id: 'asc' }, take: 500 })
  return [...entries.flatMap(shownEntry), ...fillers.map((filler) => ({ filler, entry: null }))]
}

export async function readFillerOfTable(id: string): Promise<ShownFiller | null> {
  const entry = await db.fillerAlloy.findUnique({ where: { id } })
  const [own] = entry ? shownEntry(entry) : []
  if (own) return own
  const filler = fillerById(id)
  return filler ? { filler, entry: null } : null
}

/** The pots that hold an alloy. */
export function readPotsOf(fillerId: string) {
  return db.filler.findMany({
    where: { fillerId },
    orderBy: { shopNumber: 'asc' },
    select: { id: true, shopNumber: true, name: true },
    take: 100,
  })
}
