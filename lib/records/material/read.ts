import 'server-only'
import { z } from 'zod'
import { type Alloy, alloyById, alloys } from '@/lib/core/materials/alloys'
import { families } from '@/lib/records/material/schema'
import { db } from '@/lib/server/db'

const status = z.enum(['verified', 'secondary', 'memory', 'computed'])

/** What an entry of the shop's own holds; one that an older version kept otherwise is left out, not guessed at. */
const kept = z.object({
  name: z.string(),
  family: z.enum(families),
  temper: z.string(),
  form: z.string(),
  elasticModulusMPa: z.number(),
  poisson: z.number(),
  densityKgM3: z.number(),
  yieldMPa: z.number(),
  tensileMPa: z.number(),
  elongationPct: z.number(),
  uniformStrain: z.number().optional(),
  reductionOfAreaPct: z.number().optional(),
  heatTreatable: z.boolean(),
  notes: z.array(z.string()),
  sources: z.record(z.string(), z.object({ source: z.string(), status })),
})

export type ShownAlloy = Omit<Alloy, 'tubeTolerance'> & {
  /** Null for one of the table's. */
  ownVersion: number | null
  /** The shop's own values stand in for the table's of this id. */
  overTable: boolean
}

function shownEntry(entry: { id: string; data: unknown; version: number }): ShownAlloy[] {
  const read = kept.safeParse(entry.data)
  if (!read.success) return []
  return [
    { ...read.data, id: entry.id, ownVersion: entry.version, overTable: alloyById(entry.id) !== undefined },
  ]
}

const ofTable = (alloy: Alloy): ShownAlloy => ({ ...alloy, ownVersion: null, overTable: false })

/** Every material a part may be of: the shop's own first, and the table's that they don't stand in for. */
export async function readAlloys(): Promise<ShownAlloy[]> {
  const entries = await db.materialEntry.findMany({ orderBy: { id: 'asc' }, take: 500 })
  const own = entries.flatMap(shownEntry)
  const taken = new Set(own.map(({ id }) => id))
  return [...own, ...alloys.filter(({ id }) => !taken.has(id)).map(ofTable)]
}

/** One material as it counts now, with the table's values where the shop's own stand in for them. */
export async function readAlloy(id: string): Promise<{ alloy: ShownAlloy; table: Alloy | null } | null> {
  const entry = await db.materialEntry.findUnique({ where: { id } })
  const table = alloyById(id) ?? null
  const [own] = entry ? shownEntry(entry) : []
  if (own) return { alloy: own, table }
  return table ? { alloy: ofTable(table), table: null } : null
}

/** How much of the shop rests on a material. */
export async function readMaterialUse(id: string) {
  const [parts, lots] = await Promise.all([
    db.partRevision.count({ where: { materialId: id } }),
    db.stockLot.count({ where: { materialId: id } }),
  ])
  return { parts, lots }
}
