import 'server-only'
import { cache } from 'react'
import { z } from 'zod'
import type { EndCut } from '@/lib/core/drawing/part'
import { alloyById, alloys } from '@/lib/core/materials/alloys'
import type { SpecMaterial } from '@/lib/core/spec/contract'
import { literalSearch } from '@/lib/records/fields'
import { readAcceptedEvidence } from '@/lib/records/lesson/read'
import { factorFrom, methodText, sectionText } from '@/lib/records/lesson/rules'
import type { RevisionFacts } from '@/lib/records/part/rules'
import { db, type Prisma } from '@/lib/server/db'

export const partsPerPage = 50
/** Pages are counted this far ahead of the one asked for: counting every part would take longer the more there are. */
const pagesAhead = 20

export type PartState = 'open' | 'quoted' | 'archived'

/** Parts, newest first, a page at a time; the search looks at number, name, the customer's reference and the customer. */
export async function readParts(ask: {
  search: string
  page: number
  state: PartState | null
  customerId?: number
}) {
  const search = literalSearch(ask.search)
  const has = { contains: search, mode: 'insensitive' } as const
  // Looked up first: with the customer's name in the same OR no index could be used.
  const customers =
    search === ''
      ? []
      : await db.customer.findMany({ where: { name: has }, select: { id: true }, take: 5000 })
  const where: Prisma.PartWhereInput = {
    archivedAt: ask.state === 'archived' ? { not: null } : null,
    ...(ask.customerId !== undefined && { customerId: ask.customerId }),
    ...(ask.state === 'open' && { revisions: { none: { frozenAt: { not: null } } } }),
    ...(ask.state === 'quoted' && { revisions: { some: { frozenAt: { not: null } } } }),
    ...(search !== '' && {
      OR: [
        { number: has },
        { name: has },
        { customerRef: has },
        { customerId: { in: customers.map(({ id }) => id) } },
      ],
    }),
  }
  const [count, parts] = await Promise.all([
    db.part.count({ where, take: (ask.page - 1 + pagesAhead) * partsPerPage }),
    db.part.findMany({
      where,
      orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
      skip: (ask.page - 1) * partsPerPage,
      take: partsPerPage,
      select: {
        id: true,
        number: true,
        name: true,
        customerRef: true,
        customer: { select: { id: true, name: true } },
        revisions: {
          orderBy: { id: 'desc' },
          take: 1,
          select: {
            letter: true,
            shape: true,
            widthMm: true,
            heightMm: true,
            wallMm: true,
            materialId: true,
            frozenAt: true,
            bends: { select: { id: true } },
          },
        },
      },
    }),
  ])
  return { parts, count, pageCount: Math.max(1, Math.ceil(count / partsPerPage)) }
}

const revisionSelect = {
  id: true,
  letter: true,
  shape: true,
  widthMm: true,
  heightMm: true,
  wallMm: true,
  cornerRadiusMm: true,
  materialId: true,
  straightAfterMm: true,
  startCut: true,
  endCut: true,
  angleToleranceDeg: true,
  lengthToleranceMm: true,
  radiusToleranceMm: true,
  sectionToleranceFraction: true,
  generalTolerance: true,
  weldedAfter: true,
  couldHurt: true,
  notesText: true,
  typicalQuantity: true,
  createdAt: true,
  frozenAt: true,
  version: true,
  bends: {
    orderBy: { position: 'asc' },
    select: { straightBeforeMm: true, angleDeg: true, centrelineRadiusMm: true, rotationDeg: true },
  },
} as const satisfies Prisma.PartRevisionSelect

type RevisionRow = Prisma.PartRevisionGetPayload<{ select: typeof revisionSelect }>

export type Revision = RevisionFacts &
  Pick<RevisionRow, 'id' | 'letter' | 'createdAt' | 'frozenAt' | 'version'>

/** The cuts are kept as the form's schema made them. */
function revisionOf(row: RevisionRow): Revision {
  return { ...row, startCut: row.startCut as EndCut, endCut: row.endCut as EndCut }
}

/** A part with all its revisions, the newest first; read once a request. */
export const readPart = cache(async (id: number) => {
  const part = await db.part.findUnique({
    where: { id },
    select: {
      id: true,
      number: true,
      name: true,
      customerRef: true,
      archivedAt: true,
      version: true,
      customer: { select: { id: true, name: true } },
      revisions: { orderBy: { id: 'desc' }, select: revisionSelect },
    },
  })
  if (!part) return null
  const revisions = part.revisions.map(revisionOf)
  const newest = revisions[0]
  return newest ? { ...part, revisions, newest } : null
})

export type PartWithRevisions = NonNullable<Awaited<ReturnType<typeof readPart>>>

/** One revision with the part it belongs to, for what is made from it. */
export async function readRevision(id: number) {
  const row = await db.partRevision.findUnique({
    where: { id },
    select: {
      ...revisionSelect,
      part: {
        select: {
          id: true,
          number: true,
          name: true,
          customerRef: true,
          customer: { select: { id: true, name: true } },
        },
      },
    },
  })
  return row ? { ...revisionOf(row), part: row.part } : null
}

/** What happened to a part and its revisions, the latest first. */
export async function readPartHistory(part: { id: number; revisionIds: readonly number[] }) {
  return db.auditEntry.findMany({
    where: {
      OR: [
        { entity: 'Part', entityId: String(part.id) },
        { entity: { in: ['PartRevision', 'Setup'] }, entityId: { in: part.revisionIds.map(String) } },
      ],
    },
    orderBy: { id: 'desc' },
    take: 50,
    select: { id: true, at: true, actorText: true, action: true, detailText: true },
  })
}

/** What finished bends taught about this tube, for each way of holding it: the springback factor to plan with. */
export async function readLearnedFactors(
  revision: Pick<RevisionFacts, 'materialId' | 'shape' | 'widthMm' | 'heightMm' | 'wallMm'>,
): Promise<Record<string, { factor: number; sd: number; text: string }>> {
  const methods = (['hollow', 'sand', 'lowMelt'] as const).flatMap((support) =>
    [false, true].map((strap) => methodText({ support, strap })),
  )
  const section = sectionText(revision)
  const evidence = await readAcceptedEvidence(revision.materialId)
  const learned = methods.map((method) => factorFrom(evidence, { sectionText: section, method }))
  return Object.fromEntries(
    learned.flatMap(({ mean, sd, bendCount, materialBendCount, text }, index) =>
      bendCount + materialBendCount === 0 ? [] : [[methods[index] ?? '', { factor: mean, sd, text }]],
    ),
  )
}

const ownMaterial = z.object({
  name: z.string().optional(),
  family: z.enum(['aluminium', 'steel', 'stainless', 'titanium', 'copper']).optional(),
  elasticModulusMPa: z.number().optional(),
  yieldMPa: z.number().optional(),
  tensileMPa: z.number().optional(),
  uniformStrain: z.number().optional(),
  elongationPct: z.number().optional(),
  reductionOfAreaPct: z.number().optional(),
  poisson: z.number().optional(),
  densityKgM3: z.number().optional(),
})

export type MaterialChoice = { id: string; name: string; family: string }

/** Every material a part may be of: the table's, and the shop's own in its place or beside it. */
export async function readMaterialChoices(): Promise<MaterialChoice[]> {
  const own = await db.materialEntry.findMany({ orderBy: { id: 'asc' }, select: { id: true, data: true } })
  const choices = new Map<string, MaterialChoice>(
    alloys.map(({ id, name, family, temper }) => [
      id,
      { id, name: name.includes(temper) ? name : `${name} ${temper}`, family },
    ]),
  )
  for (const { id, data } of own) {
    const read = ownMaterial.safeParse(data)
    if (!read.success) continue
    const known = choices.get(id)
    choices.set(id, {
      id,
      name: `${read.data.name ?? known?.name ?? id} (the shop’s own values)`,
      family: read.data.family ?? known?.family ?? 'own',
    })
  }
  return [...choices.values()]
}

/** The shop's own values for a material id: over the table's where the table has it, alone where not. Null: the table's hold. */
export async function readOwnMaterial(id: string): Promise<SpecMaterial | null> {
  const entry = await db.materialEntry.findUnique({ where: { id }, select: { data: true } })
  const read = ownMaterial.safeParse(entry?.data)
  if (!read.success) return null
  const { name: _name, ...values } = read.data
  return alloyById(id) ? { id, ...values } : values
}
