import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import pg from 'pg'
import { startApp } from '@/lib/launch/app-server.mjs'
import { restartPatiently } from '@/lib/launch/database.mjs'
import { migrate } from '@/lib/launch/migrate.mjs'
import { freePort } from '@/lib/launch/port.mjs'
import { startPostgres } from '@/lib/launch/postgres.mjs'
import { fromRoot } from '@/lib/launch/root.mjs'
import { halfRecords, lostRecords } from './lost-and-half'
import { enterShop } from './shop-entered'
import { type Acknowledged, type Shop, startLoad, type Unanswered } from './shop-load'

/*
 * The real server on the real database with its real settings, people entering all the while, and kill -9 at a random
 * moment: the app, the database's first process, one of its workers, or all of the database at once.
 */
const targets = ['app', 'postmaster', 'worker', 'database'] as const
type Target = (typeof targets)[number]

const option = (name: string, usual: number) =>
  Number(process.argv.find((arg) => arg.startsWith(`--${name}=`))?.split('=')[1] ?? usual)
const roundCount = option('rounds', 50)
const seed = option('seed', Date.now() % 100_000)
/** With --in-turn a few rounds meet every target. */
const inTurn = process.argv.includes('--in-turn')

/** Mulberry32, so that a run can be had again by its seed (as far as the machine's timing allows). */
let state = seed
function random(): number {
  state = (state + 0x6d2b79f5) | 0
  let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
  mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
  return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32
}

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms))

/** The processes below one, by Linux' own list; elsewhere none, and only the first process is killed. */
function childrenOf(pid: number): number[] {
  const file = `/proc/${pid}/task/${pid}/children`
  if (!fs.existsSync(file)) return []
  return fs.readFileSync(file, 'utf8').trim().split(/\s+/).filter(Boolean).map(Number)
}

function kill(pid: number): void {
  try {
    process.kill(pid, 'SIGKILL')
  } catch {
    // it was gone a moment before
  }
}

const dataFolder = fs.mkdtempSync(path.join(os.tmpdir(), 'bendwright-endurance-'))
fs.chmodSync(dataFolder, 0o755) // as root the server runs as another user, who must be able to enter
let databaseBack: Promise<void> = Promise.resolve()
/** With --careless the database acknowledges before it has written: the rounds must then find what is lost. */
const careless = process.argv.includes('--careless')
const database = await startPostgres({
  folder: dataFolder,
  settings: careless ? { synchronous_commit: 'off', wal_writer_delay: '10s' } : {},
  onDeath: () => {
    databaseBack = restartPatiently(database)
  },
})
await migrate(database.url)
const port = await freePort()
const log = fs.openSync(path.join(dataFolder, 'app.log'), 'a')
const serve = () =>
  startApp({
    host: '127.0.0.1',
    port,
    output: log,
    env: { DATABASE_URL: database.url, BENDWRIGHT_DATA: dataFolder, BENDWRIGHT_SETUP_KEY: 'x'.repeat(24) },
  })

async function untilReady(url: string): Promise<number> {
  const startedMs = Date.now()
  while (Date.now() - startedMs < 60_000) {
    const answer = await fetch(`${url}/api/ready`, { signal: AbortSignal.timeout(5000) }).catch(() => null)
    if (answer?.ok) return Date.now() - startedMs
    await pause(100)
  }
  throw new Error('The shop is not ready a minute after it was killed')
}

function killTarget(target: Target, appPid: number): void {
  const workers = childrenOf(database.pid ?? 0)
  if (target === 'app') kill(appPid)
  else if (target === 'worker' && workers.length > 0)
    kill(workers[Math.floor(random() * workers.length)] ?? 0)
  else for (const pid of [database.pid ?? 0, ...(target === 'database' ? workers : [])]) kill(pid)
}

let app = await serve()
const shop: Shop = { url: app.url, ...(await enterShop(database.url)) }
const kept: Acknowledged[] = []
const unanswered: Unanswered = new Map()
const rounds: { target: Target; afterMs: number; backMs: number; keptCount: number }[] = []
const faults: string[] = []
let sentCount = 0
console.log(`${roundCount} rounds, seed ${seed}`)

for (let round = 1; round <= roundCount && faults.length === 0; round += 1) {
  const drawn = Math.floor(random() * targets.length)
  const target = targets[inTurn ? round % targets.length : drawn] ?? 'app'
  const afterMs = Math.round(150 + random() * 2000)
  const before = kept.length
  const stopLoad = startLoad(shop, kept, unanswered)
  await pause(afterMs)
  killTarget(target, app.pid ?? 0)
  await pause(random() * 400)
  const told = await stopLoad()
  sentCount += told.sentCount
  if (target === 'app') app = await serve()
  await databaseBack
  const backMs = await untilReady(app.url)
  const client = new pg.Client({ connectionString: database.url })
  await client.connect()
  const lost = await lostRecords(client, kept)
  const half = await halfRecords(client)
  await client.end()
  faults.push(...[...told.faults, ...lost, ...half].map((fault) => `round ${round} (${target}): ${fault}`))
  rounds.push({ target, afterMs, backMs, keptCount: kept.length - before })
  console.log(
    `${String(round).padStart(3)}  ${target.padEnd(10)} after ${String(afterMs).padStart(4)} ms  ready again in ${String(backMs).padStart(5)} ms  ${String(kept.length - before).padStart(3)} acknowledged, ${lost.length} lost, ${half.length} half there`,
  )
}

await app.stop()
await database.stop()
fs.closeSync(log)
const counts = (names: readonly string[]) =>
  names.reduce<Record<string, number>>((sum, name) => ({ ...sum, [name]: (sum[name] ?? 0) + 1 }), {})
const report = {
  seed,
  sentCount,
  acknowledged: counts(kept.map(({ kind }) => kind)),
  killed: counts(rounds.map(({ target }) => target)),
  faults,
  rounds,
}
fs.mkdirSync(fromRoot('reports'), { recursive: true })
fs.writeFileSync(fromRoot('reports', 'endurance.json'), `${JSON.stringify(report, null, 2)}\n`)
console.log(JSON.stringify({ sentCount, acknowledged: report.acknowledged, killed: report.killed }))
if (faults.length > 0) {
  console.error(`${faults.join('\n')}\nThe data and the logs are in ${dataFolder}`)
  process.exit(1)
}
// A run in which nothing was acknowledged, or nothing was cut off, has shown nothing.
if (kept.length < roundCount || sentCount <= kept.length) {
  console.error(`Too little happened to show anything: ${sentCount} sent, ${kept.length} acknowledged`)
  process.exit(1)
}
fs.rmSync(dataFolder, { recursive: true, force: true })
console.log(`nothing lost, nothing half there in ${rounds.length} rounds`)
process.exit(0)
