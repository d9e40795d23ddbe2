import pg from 'pg'
import { beforeAll, describe, expect, it, vi } from 'vitest'
import { readActual } from '@/lib/records/actual/read'
import { readAim } from '@/lib/records/bend-record/read'
import { readCustomers } from '@/lib/records/customer/read'
import { readEstimateGround } from '@/lib/records/estimate/read'
import { readFaults } from '@/lib/records/fault/read'
import { readBarsForJob, readJob, readJobs } from '@/lib/records/job/read'
import type { JobPlan } from '@/lib/records/job/rules'
import { readBenchOperations } from '@/lib/records/operation/read'
import { readLearnedFactors, readPart, readParts, readRevision } from '@/lib/records/part/read'
import { readBenchPieces, readPieceByCode } from '@/lib/records/piece/read'
import { readBeginnings, readDueJobs, readOpenAnswers, readOpenFaults } from '@/lib/records/today/read'
import { readJobPapers, readTravellerStanding } from '@/lib/records/traveller/read'
import { enterScaleShop, type ScaleShop } from '../bench/scale-shop'
import { freshDatabase } from '../support/database'

type Asked = { text: string; values: unknown[] }

/** Ten, so that the job looked at is open in both. */
const jobCounts = [10, 6000]
const shops: { url: string; shop: ScaleShop; asked: Map<string, Asked[]> }[] = []

type Read = {
  read: (shop: ScaleShop) => Promise<unknown>
  /**
   * Rows that PostgreSQL may look at for it, however large the shop is. A search may read the small tables through where
   * that is less work than an index, but neither pieces (36,000) nor tries (60,000).
   */
  mostRows: number
}

// A list of fifty rows, what stands beside each, and a thousand rows counted ahead for the pages after it.
const listRows = 2000
const searchRows = 10_000
/** What an earlier bend teaches is taken from the latest 500, each with its try. */
const learnedRows = 1200

/** What each screen reads, as its page does. */
const reads: Readonly<Record<string, Read>> = {
  'the job list': { read: () => readJobs({ q: '', page: 1, pageSize: 50 }), mostRows: listRows },
  'jobs by number': {
    read: ({ searches }) => readJobs({ q: searches.number, page: 1, pageSize: 50 }),
    mostRows: 100,
  },
  'jobs by customer': {
    read: ({ searches }) => readJobs({ q: searches.customer, page: 1, pageSize: 50 }),
    mostRows: searchRows,
  },
  'jobs by part': {
    read: ({ searches }) => readJobs({ q: searches.part, page: 1, pageSize: 50 }),
    mostRows: searchRows,
  },
  'the part list': { read: () => readParts({ search: '', page: 1, state: null }), mostRows: 4000 },
  'parts by name': {
    read: ({ searches }) => readParts({ search: searches.part, page: 1, state: null }),
    mostRows: searchRows,
  },
  // Counts the parts, quotes and jobs of each of fifty customers.
  'the customer list': {
    read: () => readCustomers({ search: '', page: 1, archived: false }),
    mostRows: 5000,
  },
  'the list of faults': {
    read: () => readFaults({ state: 'open', search: '', page: 1 }),
    mostRows: listRows,
  },
  'what is due today': { read: () => readDueJobs(), mostRows: listRows },
  'what waits today': {
    read: () => Promise.all([readOpenFaults(), readOpenAnswers(new Date()), readBeginnings()]),
    mostRows: listRows,
  },
  'a part': { read: ({ partId }) => readPart(partId), mostRows: 100 },
  'what a part’s bends taught': {
    read: async ({ partId }) => {
      const part = await readPart(partId)
      return part && readLearnedFactors(part.newest)
    },
    mostRows: learnedRows,
  },
  'what an estimate is made from': {
    read: ({ revisionId }) => readEstimateGround(revisionId),
    mostRows: 1000 + learnedRows,
  },
  'a job': { read: ({ jobId }) => readJob(jobId), mostRows: 500 },
  'the bars a job may take': {
    read: async ({ jobId, revisionId }) => {
      const revision = await readRevision(revisionId)
      return revision && readBarsForJob({ id: jobId }, revision)
    },
    mostRows: 500,
  },
  'a job against its estimate': { read: ({ jobId }) => readActual(jobId), mostRows: 500 },
  'a job’s papers': {
    read: ({ jobId }) => Promise.all([readJobPapers(jobId), readTravellerStanding(jobId)]),
    mostRows: learnedRows,
  },
  // Goes through every open piece (3,600), with its job, to find those that are due first.
  'the bench’s pieces': { read: () => readBenchPieces(), mostRows: 10_000 },
  'a piece by its code': { read: ({ scanCode }) => readPieceByCode(scanCode), mostRows: 100 },
  'what to bend to': {
    read: async ({ scanCode, jobId }) => {
      const piece = await readPieceByCode(scanCode)
      return piece && readAim(piece.job.plan as unknown as JobPlan, jobId, 1)
    },
    mostRows: learnedRows,
  },
  'the operations at the bench': { read: ({ jobId }) => readBenchOperations(jobId, 1), mostRows: 100 },
}

/** Every statement that reaches PostgreSQL while this runs, whoever sends it. */
async function statementsOf(run: () => Promise<unknown>): Promise<Asked[]> {
  const asked: Asked[] = []
  // eslint-disable-next-line @typescript-eslint/unbound-method -- called with its own client below
  const send = pg.Client.prototype.query as (...args: unknown[]) => unknown
  const spy = vi.spyOn(pg.Client.prototype, 'query')
  spy.mockImplementation(function (this: pg.Client, ...args: unknown[]) {
    const first = args[0] as string | { text: string; values?: unknown[] }
    const values = Array.isArray(args[1]) ? (args[1] as unknown[]) : []
    asked.push(
      typeof first === 'string'
        ? { text: first, values }
        : { text: first.text, values: first.values ?? values },
    )
    return send.apply(this, args)
  })
  try {
    await run()
  } finally {
    spy.mockRestore()
  }
  return asked
}

beforeAll(async () => {
  for (const jobCount of jobCounts) {
    const { url } = await freshDatabase()
    const shop = await enterScaleShop(url, jobCount)
    const asked = new Map<string, Asked[]>()
    for (const [title, { read }] of Object.entries(reads))
      asked.set(title, await statementsOf(() => read(shop)))
    shops.push({ url, shop, asked })
  }
}, 480_000)

type Plan = {
  'Relation Name'?: string
  'Node Type': string
  'Actual Rows': number
  'Actual Loops': number
  'Rows Removed by Filter'?: number
  'Rows Removed by Index Recheck'?: number
  Plans?: Plan[]
}

const nodesOf = (plan: Plan): Plan[] => [plan, ...(plan.Plans ?? []).flatMap(nodesOf)]

/** Rows of tables that were looked at, those thrown away afterwards too: an index read from end to end shows here. */
const rowsLookedAt = (plan: Plan): number =>
  nodesOf(plan)
    .filter((node) => node['Relation Name'] !== undefined)
    .reduce(
      (sum, node) =>
        sum +
        (node['Actual Rows'] +
          (node['Rows Removed by Filter'] ?? 0) +
          (node['Rows Removed by Index Recheck'] ?? 0)) *
          node['Actual Loops'],
      0,
    )

/** How PostgreSQL answers what a screen reads in the large shop. */
async function plansOf(title: string): Promise<{ text: string; plan: Plan }[]> {
  const large = shops.at(-1)
  const client = new pg.Client({ connectionString: large?.url })
  await client.connect()
  try {
    // Small tables it would rather read whole: told not to, it does so only where no index serves.
    await client.query('set enable_seqscan = off')
    const plans: { text: string; plan: Plan }[] = []
    for (const { text, values } of large?.asked.get(title) ?? []) {
      const { rows } = await client.query<{ 'QUERY PLAN': [{ Plan: Plan }] }>(
        `explain (analyze, timing off, format json) ${text}`,
        values,
      )
      const plan = rows[0]?.['QUERY PLAN'][0].Plan
      if (plan) plans.push({ text, plan })
    }
    return plans
  } finally {
    await client.end()
  }
}

describe.each(Object.keys(reads))('%s', (title) => {
  it('asks the database as often for six thousand jobs as for ten', () => {
    const [few = 0, many = 0] = shops.map(({ asked }) => asked.get(title)?.length)
    expect(few).toBeGreaterThan(0)
    expect(many).toBeLessThanOrEqual(few)
  })

  it('has an index for every row it reads, and looks at no more rows than it may', async () => {
    let rowCount = 0
    for (const { text, plan } of await plansOf(title)) {
      expect(
        nodesOf(plan).map((node) => node['Node Type']),
        text,
      ).not.toContain('Seq Scan')
      rowCount += rowsLookedAt(plan)
    }
    expect(rowCount).toBeLessThanOrEqual(reads[title]?.mostRows ?? 0)
  })
})
