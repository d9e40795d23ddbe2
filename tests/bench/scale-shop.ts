import pg from 'pg'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'
import { openJob } from '@/lib/records/job/write'
import { db } from '@/lib/server/db'
import { asJson } from '@/lib/server/json'
import { hashToken, newToken, sessionCookie } from '@/lib/server/session'
import { loadDemo } from '@/prisma/demo/load'
import { actorWithRole } from '../support/actor'

export type ScaleShop = {
  cookies: string[]
  jobId: number
  partId: number
  scanCode: string
  /** The job's revision. */
  revisionId: number
  /** What a search is for: one job's number, one customer's name, one part's name. */
  searches: { number: string; customer: string; part: string }
  /** Open pieces without a try, for people who log. */
  freshCodes: string[]
  counts: Record<string, number>
}

const piecesPerJob = 6
const loggerCount = 50

/**
 * A shop of this size: the demo shop, one job opened as anybody opens it, and copies of that job with its part, pieces,
 * operations and tries. A tenth of the jobs is open; each has 6 pieces and 10 tries, and taught one lesson.
 */
export async function enterScaleShop(databaseUrl: string, jobCount: number): Promise<ScaleShop> {
  process.env.DATABASE_URL = databaseUrl
  await db.shop.create({ data: { name: 'Tidewrack Fabrication' } })
  await db.rateSheet.create({ data: { rates: asJson(defaultShopRates), reasonText: 'starting figures' } })
  const owner = await actorWithRole('owner')
  await loadDemo(owner)
  const cookies: string[] = []
  for (let count = 0; count < loggerCount; count += 1) {
    const { userId } = await actorWithRole('owner', `Logger ${count}`)
    const token = newToken()
    await db.session.create({
      data: { tokenHash: hashToken(token), userId, expiresAt: new Date(Date.now() + 86_400_000) },
    })
    cookies.push(`${sessionCookie}=${token}`)
  }
  const { revisionId } = await db.setup.findFirstOrThrow({
    where: { revision: { bends: { some: { position: 2 } } } },
    select: { revisionId: true },
    orderBy: { id: 'asc' },
  })
  const { jobId } = await openJob(
    { revisionId, quantity: piecesPerJob, dueOn: new Date('2027-06-01'), way: '' },
    owner,
  )
  await db.$disconnect()
  const client = new pg.Client({ connectionString: databaseUrl })
  await client.connect()
  try {
    return { cookies, ...(await copyJob(client, { jobId, revisionId, userId: owner.userId, jobCount })) }
  } finally {
    await client.end()
  }
}

async function copyJob(
  client: pg.Client,
  from: { jobId: number; revisionId: number; userId: number; jobCount: number },
): Promise<Omit<ScaleShop, 'cookies'>> {
  const { jobId, revisionId, userId, jobCount } = from
  // Whole copies of what was checked once: rules and keys are not checked again for each.
  await client.query('set session_replication_role = replica')
  const partCount = Math.max(1, Math.floor(jobCount / 5))
  const customerCount = Math.max(1, Math.floor(jobCount / 50))
  const base = 10_000_000
  const run = (sql: string) => client.query(sql)
  await run(`insert into "Customer" (id, name)
    select ${base} + n, 'Yard ' || md5('c' || n) from generate_series(1, ${customerCount}) n`)
  await run(`insert into "Part" (id, number, name, "customerId", "createdAt")
    select ${base} + n, 'P-' || (${base} + n), 'Rail ' || md5('p' || n), ${base} + 1 + n % ${customerCount}, now() - n * interval '1 minute'
    from generate_series(1, ${partCount}) n`)
  await copy(client, 'PartRevision', `t.id = ${revisionId}`, partCount, {
    id: `${base} + n`,
    partId: `${base} + n`,
  })
  await copy(client, 'Bend', `t."revisionId" = ${revisionId}`, partCount, {
    id: `${base} + n * 20 + t.position`,
    revisionId: `${base} + n`,
  })
  await copy(client, 'Setup', `t."revisionId" = ${revisionId}`, partCount, {
    id: `${base} + n`,
    revisionId: `${base} + n`,
  })
  await copy(client, 'Job', `t.id = ${jobId}`, jobCount, {
    id: `${base} + n`,
    number: `'J-' || (${base} + n)`,
    customerId: `${base} + 1 + (1 + n % ${partCount}) % ${customerCount}`,
    revisionId: `${base} + 1 + n % ${partCount}`,
    dueOn: `date '2026-01-01' + n % 700`,
    status: `(case when n % 10 = 0 then 'open' else 'closed' end)::"JobStatus"`,
    createdAt: `now() - n * interval '1 minute'`,
  })
  await copy(client, 'JobOperation', `t."jobId" = ${jobId}`, jobCount, {
    id: `${base} + n * 40 + t.position`,
    jobId: `${base} + n`,
  })
  await copy(client, 'Piece', `t."jobId" = ${jobId}`, jobCount, {
    id: `${base} + n * ${piecesPerJob} + t.number - 1`,
    jobId: `${base} + n`,
    scanCode: `substr(md5('s' || n || '-' || t.number), 1, 24)`,
    status: `(case when n % 10 = 0 then 'open' else 'released' end)::"PieceStatus"`,
  })
  // Two bends of each of the first five pieces; the sixth is still to be bent.
  await run(`insert into "BendRecord" (id, "pieceId", "bendPosition", "tryNumber", at, "byId", "targetAtPressDeg", "angleAtPressDeg",
      "angleFinalDeg", look, "gaugeText", "gaugeUncertaintyDeg", verdict, reasons, setup, "clientKey")
    select ${base} + n * 10 + k, ${base} + n * ${piecesPerJob} + k / 2, 1 + k % 2, 1, now() - n * interval '1 minute', ${userId}, 31, 31.2,
      30.1, 'clean', 'protractor', 0.1, 'pass', '[]', '{"observed":{"value":1.02,"sd":0.05}}', 'k-' || n || '-' || k
    from generate_series(1, ${jobCount}) n, generate_series(0, 9) k`)
  await run(`insert into "Lesson" (kind, "materialId", "sectionText", method, "jobId", "bendRecordId", value, "acceptedAt")
    select 'springbackFactor', plan ->> 'materialId', plan ->> 'sectionText', plan ->> 'method', ${base} + n, ${base} + n * 10, 1.02, now()
    from generate_series(1, ${jobCount}) n, "Job" job where job.id = ${jobId}`)
  await run('vacuum analyze')
  await run('checkpoint')
  const n = jobCount < 20 ? jobCount : Math.floor(jobCount / 20) * 10
  const { rows } =
    await run(`select job.id as "jobId", job."revisionId", job.number, revision."partId", part.name as part, customer.name as customer,
      (select "scanCode" from "Piece" where "jobId" = job.id and number = 3) as "scanCode"
    from "Job" job join "PartRevision" revision on revision.id = job."revisionId" join "Part" part on part.id = revision."partId"
    join "Customer" customer on customer.id = job."customerId" where job.id = ${base + n}`)
  const [row] = rows
  const fresh = await run(`select "scanCode" from "Piece" piece join "Job" job on job.id = piece."jobId"
    where job.status = 'open' and piece.number = 6 and job.id > ${base} order by job.id limit ${loggerCount * 10}`)
  const counts =
    await run(`select (select count(*)::int from "Job") as jobs, (select count(*)::int from "Piece") as pieces,
    (select count(*)::int from "BendRecord") as tries, (select count(*)::int from "JobOperation") as operations,
    (select count(*)::int from "Part") as parts, (select count(*)::int from "Customer") as customers`)
  return {
    jobId: row.jobId,
    partId: row.partId,
    scanCode: row.scanCode,
    revisionId: row.revisionId,
    searches: { number: row.number, customer: row.customer.slice(0, 14), part: row.part.slice(0, 14) },
    freshCodes: fresh.rows.map(({ scanCode }) => scanCode),
    counts: counts.rows[0],
  }
}

/** Copies rows n = 1 to count times, with other values in some columns. */
async function copy(
  client: pg.Client,
  table: string,
  where: string,
  count: number,
  others: Record<string, string>,
): Promise<void> {
  const { rows } = await client.query<{ name: string }>(
    'select column_name as name from information_schema.columns where table_name = $1 and table_schema = $2',
    [table, 'public'],
  )
  const names = rows.map(({ name }) => name)
  const values = names.map((name) => others[name] ?? (name === 'quoteLineId' ? 'null::int' : `t."${name}"`))
  await client.query(
    `insert into "${table}" (${names.map((name) => `"${name}"`).join(', ')})
     select ${values.join(', ')} from "${table}" t, generate_series(1, ${count}) n where ${where}`,
  )
}
