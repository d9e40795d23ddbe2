import pg from 'pg'
import { beforeAll, describe, expect, it, vi } from 'vitest'
import { readAim } from '@/lib/records/bend-record/read'
import { readJob, readJobs } from '@/lib/records/job/read'
import type { JobPlan } from '@/lib/records/job/rules'
import { readBenchOperations } from '@/lib/records/operation/read'
import { readLearnedFactors, readPart, readParts } from '@/lib/records/part/read'
import { readBenchPieces, readPieceByCode } from '@/lib/records/piece/read'
import { enterScaleShop, type ScaleShop } from '../bench/scale-shop'
import { freshDatabase } from '../support/database'

type Asked = { text: string; values: unknown[] }

const jobCounts = [1, 20]
const shops: { url: string; shop: ScaleShop; asked: Map<string, Asked[]> }[] = []

/** What each screen reads, as its page does. */
const reads: Readonly<Record<string, (shop: ScaleShop) => Promise<unknown>>> = {
  'the job list': () => readJobs({ q: '', page: 1, pageSize: 50 }),
  'jobs by number': ({ searches }) => readJobs({ q: searches.number, page: 1, pageSize: 50 }),
  'jobs by customer': ({ searches }) => readJobs({ q: searches.customer, page: 1, pageSize: 50 }),
  'jobs by part': ({ searches }) => readJobs({ q: searches.part, page: 1, pageSize: 50 }),
  'the part list': () => readParts({ search: '', page: 1, state: null }),
  'parts by name': ({ searches }) => readParts({ search: searches.part, page: 1, state: null }),
  'a part': ({ partId }) => readPart(partId),
  'what a part’s bends taught': async ({ partId }) => {
    const part = await readPart(partId)
    return part && readLearnedFactors(part.newest)
  },
  'a job': ({ jobId }) => readJob(jobId),
  'the bench’s pieces': () => readBenchPieces(),
  'a piece by its code': ({ scanCode }) => readPieceByCode(scanCode),
  'what to bend to': async ({ scanCode, jobId }) => {
    const piece = await readPieceByCode(scanCode)
    return piece && readAim(piece.job.plan as unknown as JobPlan, jobId, 1)
  },
  'the operations at the bench': ({ jobId }) => readBenchOperations(jobId, 1),
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
    for (const [title, read] of Object.entries(reads)) asked.set(title, await statementsOf(() => read(shop)))
    shops.push({ url, shop, asked })
  }
}, 240_000)

describe.each(Object.keys(reads))('%s', (title) => {
  it('asks the database as often for twenty jobs as for one', () => {
    const [one = 0, twenty = 0] = shops.map(({ asked }) => asked.get(title)?.length)
    expect(one).toBeGreaterThan(0)
    expect(twenty).toBe(one)
  })

  it('has an index for every row it reads', async () => {
    const [, many] = shops
    const client = new pg.Client({ connectionString: many?.url })
    await client.connect()
    try {
      // With so few rows PostgreSQL would rather read them all: told not to, it does so only where no index serves.
      await client.query('set enable_seqscan = off')
      for (const { text, values } of many?.asked.get(title) ?? []) {
        const { rows } = await client.query(`explain ${text}`, values)
        const plan = rows.map((row: Record<string, string>) => row['QUERY PLAN']).join('\n')
        expect(plan, text).not.toContain('Seq Scan')
      }
    } finally {
      await client.end()
    }
  })
})
