import { fork } from 'node:child_process'
import { once } from 'node:events'
import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { fromRoot } from '@/lib/launch/root.mjs'
import { logAtOnce } from './fifty-loggers'
import { benchPageWeight, mostScriptBytes } from './page-weight'
import { openScalePlace, type ServedShop } from './scale-place'
import { growthLimit, printRows, rowOf } from './scale-report'
import { targetsOf } from './scale-targets'
import { measureStarts } from './start-times'
import { type Asked, agent, takeTurns } from './turns'

/*
 * npm run bench -- scale [small] [large] [rounds]    a small and a large shop served by the built app and by a bare
 * node:http and pg server: pages, data, a paper, fifty people logging at once, and starts.
 */
const [small = 1000, large = 100_000, roundCount = 3] = process.argv.slice(2).map(Number)
const connectionCounts = [1, 10]

const place = await openScalePlace([small, large])
const { served } = place
const bare = fork(path.join(import.meta.dirname, 'bare-server.mjs'), {
  execArgv: ['--import', 'tsx'],
  env: { ...process.env, BARE_DATABASES: JSON.stringify(served.map(({ databaseUrl }) => databaseUrl)) },
})
try {
  const [barePort] = (await once(bare, 'message')) as [number]
  const [smallShop, largeShop] = served as [ServedShop, ServedShop]
  const smallTargets = targetsOf(smallShop.shop)
  const pairs = targetsOf(largeShop.shop).flatMap((target, index) =>
    connectionCounts.map((connectionCount) => {
      const askedOf = (url: string, from: ServedShop, pid: number, body = target.body): Asked => ({
        key: target.name,
        url,
        cookie: from.shop.cookies[0] ?? '',
        connectionCount,
        pid,
        body,
        timesMs: [],
        processorMs: 0,
        bytes: 0,
      })
      const inSmall = smallTargets[index] ?? target
      return {
        target,
        connectionCount,
        asked: {
          small: askedOf(`${smallShop.appUrl}${inSmall.app}`, smallShop, smallShop.appPid, inSmall.body),
          large: askedOf(`${largeShop.appUrl}${target.app}`, largeShop, largeShop.appPid),
          bare:
            target.bare === null
              ? null
              : askedOf(`http://127.0.0.1:${barePort}/1${target.bare}`, largeShop, bare.pid ?? 0),
        },
      }
    }),
  )
  await takeTurns(
    pairs.flatMap(({ asked }) => [asked.small, asked.large, ...(asked.bare ? [asked.bare] : [])]),
    roundCount,
  )
  const rows = pairs.map(({ target, connectionCount, asked }) => rowOf(target, connectionCount, asked))
  printRows(rows)
  const loggers = await logAtOnce(largeShop.appUrl, largeShop.databaseUrl, largeShop.shop)
  console.log('50 people logging at once:', loggers)
  const starts = await measureStarts()
  console.log(
    `First start on an empty folder ${(starts.firstMs / 1000).toFixed(1)} s, warm start ${(starts.warmMs / 1000).toFixed(1)} s`,
  )
  const weight = benchPageWeight()
  console.log(
    `Scripts of a bench screen: ${((weight?.scriptBytes ?? Number.NaN) / 1000).toFixed(1)} kB, at most ${mostScriptBytes / 1000} kB`,
  )
  const machine = {
    at: new Date().toISOString(),
    node: process.versions.node,
    cpu: os.cpus()[0]?.model,
    coreCount: os.cpus().length,
    loadAverage: os.loadavg(),
  }
  const file = process.env.BENDWRIGHT_BENCH_JSON ?? fromRoot('reports', 'bench-scale.json')
  fs.mkdirSync(path.dirname(file), { recursive: true })
  const counts = served.map(({ shop }) => shop.counts)
  const result = { machine, growthLimit, roundCount, counts, rows, loggers, starts, benchPageScripts: weight }
  fs.writeFileSync(file, `${JSON.stringify(result, null, 2)}\n`)
  console.log(`Kept in ${file}`)
} finally {
  agent.destroy()
  bare.kill()
  await place.stop()
}
