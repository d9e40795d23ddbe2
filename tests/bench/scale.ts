import { fork } from 'node:child_process'
import { once } from 'node:events'
import fs from 'node:fs'
import http from 'node:http'
import os from 'node:os'
import path from 'node:path'
import { PrismaPg } from '@prisma/adapter-pg'
import pg from 'pg'
import { startApp } from '@/lib/launch/app-server.mjs'
import { setupKey } from '@/lib/launch/data-folder.mjs'
import { migrate } from '@/lib/launch/migrate.mjs'
import { freePort } from '@/lib/launch/port.mjs'
import { startPostgres } from '@/lib/launch/postgres.mjs'
import { fromRoot } from '@/lib/launch/root.mjs'
import { PrismaClient } from '@/lib/server/generated/prisma/client'
import { logAtOnce } from './fifty-loggers'
import { enterScaleShop, type ScaleShop } from './scale-shop'

/*
 * npm run bench -- scale [small] [large] [rounds]    every page of a small and a large shop by the built app and by a bare
 * node:http and pg server, in turns of half a second, so that whatever else the machine does meets all of them alike.
 */
const [small = 1000, large = 100_000, roundCount = 3] = process.argv.slice(2).map(Number)
const kept = globalThis as { bendwrightDb?: PrismaClient }
const sliceMs = 500
const connectionCounts = [1, 10]
const limits = { overBare: 8, growth: 1.2 }

type Page = { name: string; app: string; bare: string }

function pagesOf(shop: ScaleShop): Page[] {
  const search = (name: 'number' | 'customer' | 'part') => ({
    name: `search by ${name}`,
    app: `/jobs?q=${encodeURIComponent(shop.searches[name])}`,
    bare: `/${name}?q=${encodeURIComponent(`%${shop.searches[name]}%`)}`,
  })
  return [
    { name: 'job list', app: '/jobs', bare: '/jobs' },
    search('number'),
    search('customer'),
    search('part'),
    { name: 'part page', app: `/parts/${shop.partId}`, bare: `/partPage?q=${shop.partId}` },
    { name: 'job page', app: `/jobs/${shop.jobId}`, bare: `/jobPage?q=${shop.jobId}` },
    { name: 'bench screen', app: `/bench/${shop.scanCode}`, bare: `/bench?q=${shop.scanCode}` },
  ]
}

const agent = new http.Agent({ keepAlive: true, maxSockets: 20 })

function get(url: string, cookie: string): Promise<{ ms: number; bytes: number }> {
  const startedMs = performance.now()
  return new Promise((resolve, reject) => {
    const request = http.get(url, { agent, headers: { cookie } }, (answer) => {
      let bytes = 0
      answer.on('data', (chunk: Buffer) => {
        bytes += chunk.length
      })
      answer.once('error', reject)
      answer.once('end', () =>
        answer.statusCode === 200
          ? resolve({ ms: performance.now() - startedMs, bytes })
          : reject(new Error(`${url} answered ${answer.statusCode}`)),
      )
    })
    request.once('error', reject)
  })
}

async function slice(url: string, cookie: string, connectionCount: number, timesMs: number[]): Promise<void> {
  const endMs = performance.now() + sliceMs
  const keepOn = async () => {
    do timesMs.push((await get(url, cookie)).ms)
    while (performance.now() < endMs)
  }
  await Promise.all(Array.from({ length: connectionCount }, keepOn))
}

const at = (timesMs: readonly number[], fraction: number) =>
  [...timesMs].sort((a, b) => a - b)[Math.floor(fraction * timesMs.length)] ?? Number.NaN

const dataFolder = fs.mkdtempSync(path.join(os.tmpdir(), 'bendwright-scale-'))
fs.chmodSync(dataFolder, 0o755) // as root the server runs as another user, who must be able to enter
const database = await startPostgres({ folder: dataFolder })
const stops: (() => unknown)[] = [() => database.stop()]
try {
  const admin = new pg.Client({ connectionString: database.url })
  admin.on('error', () => {}) // the server is stopped below it when anything fails
  await admin.connect()
  const databases: string[] = []
  const shops: ScaleShop[] = []
  const urls: string[] = []
  for (const jobCount of [small, large]) {
    await admin.query(`create database shop_${jobCount}`)
    const url = database.urlOf(`shop_${jobCount}`)
    await migrate(url)
    const startedMs = performance.now()
    // Where lib/server/db keeps its client: each shop is entered through one of its own.
    kept.bendwrightDb = new PrismaClient({ adapter: new PrismaPg({ connectionString: url }) })
    const shop = await enterScaleShop(url, jobCount)
    console.log(
      `${jobCount} jobs entered in ${((performance.now() - startedMs) / 1000).toFixed(0)} s`,
      shop.counts,
    )
    const app = await startApp({
      host: '127.0.0.1',
      port: await freePort(),
      output: fs.openSync(path.join(dataFolder, `app-${jobCount}.log`), 'w'),
      env: {
        DATABASE_URL: url,
        BENDWRIGHT_DATA: dataFolder,
        BENDWRIGHT_SETUP_KEY: setupKey(dataFolder),
        BENDWRIGHT_DEMO: '0',
        BENDWRIGHT_BACKUP: 'off',
      },
    })
    stops.unshift(() => app.stop())
    databases.push(url)
    shops.push(shop)
    urls.push(app.url)
  }
  await admin.end()
  const bare = fork(path.join(import.meta.dirname, 'bare-server.mjs'), {
    execArgv: [],
    env: { ...process.env, BARE_DATABASES: JSON.stringify(databases) },
  })
  stops.unshift(() => bare.kill())
  const [barePort] = (await once(bare, 'message')) as [number]

  const targets = shops.flatMap((shop, size) =>
    pagesOf(shop).flatMap((page) =>
      connectionCounts.flatMap((connectionCount) =>
        (['app', 'bare'] as const).map((server) => ({
          key: `${page.name}/${size}/${connectionCount}/${server}`,
          url:
            server === 'app'
              ? `${urls[size]}${page.app}`
              : `http://127.0.0.1:${barePort}/${size}${page.bare}`,
          cookie: shop.cookies[0] ?? '',
          connectionCount,
          timesMs: [] as number[],
        })),
      ),
    ),
  )
  const bytes: Record<string, number> = {}
  for (const { key, url, cookie } of targets) {
    for (let count = 0; count < 15; count += 1) bytes[key] = (await get(url, cookie)).bytes
  }
  for (let round = 0; round < roundCount; round += 1) {
    for (const { url, cookie, connectionCount, timesMs } of targets)
      await slice(url, cookie, connectionCount, timesMs)
  }
  const timesOf = (key: string) => targets.find((one) => one.key === key)?.timesMs ?? []
  const rows = pagesOf(shops[0] as ScaleShop).flatMap(({ name }) =>
    connectionCounts.map((connectionCount) => {
      const times = (size: number, server: string) => timesOf(`${name}/${size}/${connectionCount}/${server}`)
      const medianMs = at(times(1, 'app'), 0.5)
      return {
        page: name,
        connections: connectionCount,
        medianMs,
        p95Ms: at(times(1, 'app'), 0.95),
        bareMedianMs: at(times(1, 'bare'), 0.5),
        overBare: medianMs / at(times(1, 'bare'), 0.5),
        smallMedianMs: at(times(0, 'app'), 0.5),
        growth: medianMs / at(times(0, 'app'), 0.5),
        bytes: bytes[`${name}/1/${connectionCount}/app`] ?? 0,
      }
    }),
  )
  const number = (value: number, digits = 1) => Number(value.toFixed(digits))
  console.table(
    rows.map((row) => ({
      ...row,
      medianMs: number(row.medianMs),
      p95Ms: number(row.p95Ms),
      bareMedianMs: number(row.bareMedianMs, 2),
      overBare: `${number(row.overBare)}x${row.overBare > limits.overBare ? ' MISSED' : ''}`,
      smallMedianMs: number(row.smallMedianMs),
      growth: `${number(row.growth, 2)}x${row.growth > limits.growth ? ' MISSED' : ''}`,
    })),
  )
  const loggers = await logAtOnce(urls[1] ?? '', databases[1] ?? '', shops[1] as ScaleShop)
  console.log('50 people logging at once:', loggers)
  fs.mkdirSync(fromRoot('reports'), { recursive: true })
  const machine = {
    at: new Date().toISOString(),
    node: process.versions.node,
    cpu: os.cpus()[0]?.model,
    coreCount: os.cpus().length,
    loadAverage: os.loadavg(),
  }
  fs.writeFileSync(
    fromRoot('reports', 'bench-scale.json'),
    `${JSON.stringify({ machine, limits, counts: shops.map(({ counts }) => counts), pages: rows, loggers }, null, 2)}\n`,
  )
} finally {
  if (process.env.BENDWRIGHT_BENCH_KEEP) await once(process, 'SIGINT')
  agent.destroy()
  for (const stop of stops) await stop()
  fs.rmSync(dataFolder, { recursive: true, force: true })
}
