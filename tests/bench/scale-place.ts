import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { PrismaPg } from '@prisma/adapter-pg'
import pg from 'pg'
import { startApp } from '@/lib/launch/app-server.mjs'
import { setupKey } from '@/lib/launch/data-folder.mjs'
import { migrate } from '@/lib/launch/migrate.mjs'
import { freePort } from '@/lib/launch/port.mjs'
import { startPostgres } from '@/lib/launch/postgres.mjs'
import { PrismaClient } from '@/lib/server/generated/prisma/client'
import { enterScaleShop, type ScaleShop } from './scale-shop'

export type ServedShop = { shop: ScaleShop; databaseUrl: string; appUrl: string; appPid: number }

const kept = globalThis as { bendwrightDb?: PrismaClient }

/**
 * A shop of each size, served by the built app. Where BENDWRIGHT_BENCH_FOLDER names a folder the shops stay in it and
 * are found there the next time: entering the large one takes minutes.
 */
export async function openScalePlace(
  jobCounts: readonly number[],
): Promise<{ served: ServedShop[]; stop: () => Promise<void> }> {
  const chosen = process.env.BENDWRIGHT_BENCH_FOLDER
  const folder = chosen ? path.resolve(chosen) : fs.mkdtempSync(path.join(os.tmpdir(), 'bendwright-scale-'))
  fs.mkdirSync(folder, { recursive: true })
  fs.chmodSync(folder, 0o755) // as root the server runs as another user, who must be able to enter
  const database = await startPostgres({ folder })
  const stops: (() => unknown)[] = [() => database.stop()]
  const stop = async () => {
    for (const one of stops) await one()
    if (!chosen) fs.rmSync(folder, { recursive: true, force: true })
  }
  try {
    const served: ServedShop[] = []
    for (const jobCount of jobCounts) {
      const name = `shop_${jobCount}`
      const databaseUrl = database.urlOf(name)
      const shop = await shopIn(path.join(folder, `${name}.json`), database.url, name, databaseUrl, jobCount)
      const app = await startApp({
        host: '127.0.0.1',
        port: await freePort(),
        output: fs.openSync(path.join(folder, `app-${jobCount}.log`), 'w'),
        env: {
          DATABASE_URL: databaseUrl,
          BENDWRIGHT_DATA: folder,
          BENDWRIGHT_SETUP_KEY: setupKey(folder),
          BENDWRIGHT_DEMO: '0',
          BENDWRIGHT_BACKUP: 'off',
        },
      })
      stops.unshift(() => app.stop())
      served.push({ shop, databaseUrl, appUrl: app.url, appPid: app.pid ?? 0 })
    }
    return { served, stop }
  } catch (error) {
    await stop()
    throw error
  }
}

/** The shop that the note tells of, or one entered now. */
async function shopIn(
  note: string,
  adminUrl: string,
  name: string,
  url: string,
  jobCount: number,
): Promise<ScaleShop> {
  if (fs.existsSync(note)) {
    await migrate(url)
    await query(url, `update "Session" set "expiresAt" = now() + interval '1 day'`)
    // Whoever logged in an earlier run used up its fresh pieces.
    const fresh = await query(
      url,
      `select "scanCode" from "Piece" piece join "Job" job on job.id = piece."jobId"
        where job.status = 'open' and piece.number = 6 and job.id > 10000000
          and not exists (select 1 from "BendRecord" where "pieceId" = piece.id)
        order by job.id limit 500`,
    )
    const shop = JSON.parse(fs.readFileSync(note, 'utf8')) as ScaleShop
    return { ...shop, freshCodes: fresh.map(({ scanCode }) => scanCode ?? '') }
  }
  await query(adminUrl, `drop database if exists ${name}`)
  await query(adminUrl, `create database ${name}`)
  await migrate(url)
  const startedMs = performance.now()
  // Where lib/server/db keeps its client: each shop is entered through one of its own.
  kept.bendwrightDb = new PrismaClient({ adapter: new PrismaPg({ connectionString: url }) })
  const shop = await enterScaleShop(url, jobCount)
  fs.writeFileSync(note, JSON.stringify(shop))
  console.log(
    `${jobCount} jobs entered in ${((performance.now() - startedMs) / 1000).toFixed(0)} s`,
    shop.counts,
  )
  return shop
}

async function query(url: string, text: string): Promise<Record<string, string>[]> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  try {
    return (await client.query<Record<string, string>>(text)).rows
  } finally {
    await client.end()
  }
}
