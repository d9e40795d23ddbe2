import 'server-only'
import type { LearnedFactor } from '@/lib/core/statistics/springback-factor'
import { type FactorEvidence, factorFrom } from '@/lib/records/lesson/rules'
import { db, type Tx } from '@/lib/server/db'

/** The latest lessons count, so that a plan takes as long to make in ten years as today. */
const mostCounted = 500
const mostTriesOfJob = 1000

/** A bend that showed a factor, short as the statement below makes it: section, method, factor, its standard deviation. */
type Shown = [sectionText: string, method: string, value: number, sd: number | null]

const evidenceOf = (shown: readonly Shown[]): FactorEvidence[] =>
  shown.map(([sectionText, method, value, sd]) => ({ sectionText, method, value, sd }))

/**
 * What the accepted lessons of each material say, for every tube and way of holding it. The database hands a material's
 * hundreds of bends over as one value: as rows they cost more than everything else of a bench screen.
 */
async function readEvidence(
  tx: Tx | typeof db,
  materialIds: readonly string[],
): Promise<Map<string, FactorEvidence[]>> {
  const rows = await tx.$queryRaw<{ materialId: string; shown: Shown[] }[]>`
    select asked.id as "materialId", taught.shown
    from unnest(${[...new Set(materialIds)]}::text[]) asked (id), lateral (
      select coalesce(jsonb_agg(jsonb_build_array(lesson."sectionText", lesson.method, lesson.value,
          record.setup #> '{observed,sd}') order by lesson.id desc), '[]') as shown
      from (select * from "Lesson" where kind = 'springbackFactor' and "materialId" = asked.id
          and "acceptedAt" is not null order by id desc limit ${mostCounted}) lesson
        left join "BendRecord" record on record.id = lesson."bendRecordId") taught`
  return new Map(rows.map(({ materialId, shown }) => [materialId, evidenceOf(shown)]))
}

export async function readAcceptedEvidence(materialId: string): Promise<FactorEvidence[]> {
  return (await readEvidence(db, [materialId])).get(materialId) ?? []
}

/** What the tries of a job show that no lesson of it has settled: one that was accepted counts already, one declined never. */
async function readTried(tx: Tx | typeof db, jobId: number): Promise<{ value: number; sd: number }[]> {
  const [row] = await tx.$queryRaw<{ tried: { value: number; sd: number }[] }[]>`
    select coalesce(jsonb_agg(observed order by id), '[]') as tried
    from (select record.id, record.setup -> 'observed' as observed
      from "Piece" piece join "BendRecord" record on record."pieceId" = piece.id
      where piece."jobId" = ${jobId} and record.verdict <> 'waiting'
        and jsonb_typeof(record.setup -> 'observed') = 'object'
        and not exists (select 1 from "Lesson" lesson
          where lesson.kind = 'springbackFactor' and lesson."bendRecordId" = record.id
            and (lesson."acceptedAt" is not null or lesson."declinedAt" is not null))
      order by record.id desc limit ${mostTriesOfJob}) counted`
  return row?.tried ?? []
}

/** The factor to plan with: accepted lessons of the material, and the tries of one job that is not over yet. */
export async function readLearnedFactor(
  tx: Tx | typeof db,
  of: { materialId: string; sectionText: string; method: string; jobId?: number },
): Promise<LearnedFactor> {
  const { materialId, sectionText, method, jobId } = of
  const [evidence, tried] = await Promise.all([
    readEvidence(tx, [materialId]),
    jobId === undefined ? [] : readTried(tx, jobId),
  ])
  const own = tried.map((one) => ({ ...one, sectionText, method }))
  return factorFrom([...(evidence.get(materialId) ?? []), ...own], of)
}

/** Some years of a shop that logs every bend: the screen is drawn whole, and says so where there are more. */
const mostLessons = 20_000

/** The newest lessons, oldest first, with the job, the bend and the planned minutes behind each. */
export async function readLessons() {
  const newest = await db.lesson.findMany({
    orderBy: { id: 'desc' },
    take: mostLessons + 1,
    select: {
      kind: true,
      materialId: true,
      sectionText: true,
      method: true,
      operationKey: true,
      value: true,
      at: true,
      acceptedAt: true,
      declinedAt: true,
      bendRecord: { select: { pieceId: true } },
      job: { select: { id: true, number: true } },
    },
  })
  return {
    lessons: newest.slice(0, mostLessons).reverse(),
    mostLessons,
    hasOlder: newest.length > mostLessons,
  }
}

/** Operations of jobs with their clocks: what their logged minutes are held against. */
export async function readClockedOperations(jobIds: readonly number[]) {
  return db.jobOperation.findMany({
    where: { jobId: { in: [...jobIds] } },
    select: {
      jobId: true,
      key: true,
      name: true,
      plannedSetUpMinutes: true,
      plannedRunMinutesPerPiece: true,
      logs: { select: { pieceId: true, startedAt: true, endedAt: true } },
      job: { select: { pieces: { select: { id: true } } } },
    },
  })
}

type Tube = { materialId: string; sectionText: string; method: string }

/** The factor that is planned with for each of these tubes. */
export async function readFactors(tubes: readonly Tube[]): Promise<LearnedFactor[]> {
  const evidence = await readEvidence(
    db,
    tubes.map(({ materialId }) => materialId),
  )
  return tubes.map((tube) => factorFrom(evidence.get(tube.materialId) ?? [], tube))
}

/** What accepting a job's bends would do to the factor of each tube. */
export async function readFactorMoves(groups: readonly (Tube & { job: { id: number } })[]) {
  const [evidence, undecided] = await Promise.all([
    readEvidence(
      db,
      groups.map(({ materialId }) => materialId),
    ),
    readUndecided([...new Set(groups.map(({ job }) => job.id))]),
  ])
  return groups.map((tube) => {
    const accepted = evidence.get(tube.materialId) ?? []
    const taught = undecided.get(`${tube.job.id} ${tube.materialId}`) ?? []
    return {
      jobId: tube.job.id,
      method: tube.method,
      now: factorFrom(accepted, tube),
      then: factorFrom([...taught, ...accepted].slice(0, mostCounted), tube),
    }
  })
}

/** The bends of jobs that wait for the owner's decision, by job and material. */
async function readUndecided(jobIds: readonly number[]): Promise<Map<string, FactorEvidence[]>> {
  const rows = await db.$queryRaw<{ jobId: number; materialId: string; shown: Shown[] }[]>`
    select lesson."jobId", lesson."materialId",
      jsonb_agg(jsonb_build_array(lesson."sectionText", lesson.method, lesson.value,
        record.setup #> '{observed,sd}') order by lesson.id desc) as shown
    from "Lesson" lesson left join "BendRecord" record on record.id = lesson."bendRecordId"
    where lesson.kind = 'springbackFactor' and lesson."jobId" = any(${[...jobIds]}::int[])
      and lesson."acceptedAt" is null and lesson."declinedAt" is null
    group by lesson."jobId", lesson."materialId"`
  return new Map(rows.map(({ jobId, materialId, shown }) => [`${jobId} ${materialId}`, evidenceOf(shown)]))
}
