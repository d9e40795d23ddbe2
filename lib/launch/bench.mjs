/*
 * npm run bench            measures everything in tests/bench, prints a table and writes reports/bench.json
 * npm run bench -- bend    only files whose name holds "bend"
 * npm run bench -- scale   only the pages of a shop with 100,000 jobs, which take some minutes
 */
import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { pathToFileURL } from 'node:url'
import { buildApp, generateClient, installDependencies } from './prepare.mjs'
import { fromRoot } from './root.mjs'
import { runTool } from './run-command.mjs'
import { Stop, sayWhyStopped } from './steps.mjs'

const WARM_UP_MS = 300
const MEASURE_MS = 1500
const FEWEST_RUNS = 20

// As the app runs: React's development build takes longer and checks more.
process.env.NODE_ENV = 'production'

try {
  await installDependencies()
  await generateClient()
  const wanted = process.argv[2] ?? ''
  if (wanted !== 'scale') await measureAlone(wanted)
  if (wanted === '' || wanted === 'scale') await measurePages()
} catch (error) {
  sayWhyStopped(error)
  process.exitCode = 1
}

/** The built app against a bare server, both at once, in a process of its own. */
async function measurePages() {
  await buildApp()
  await runTool('scale', '--import', [
    ...['./tests/support/outside-next.mjs', '--import', 'tsx', 'tests/bench/scale.ts'],
    ...process.argv.slice(3),
  ])
}

async function measureAlone(part) {
  const results = []
  for (const file of benchFiles(part)) {
    const { cases } = await import(pathToFileURL(await compiled(file)).href)
    for (const { title, run, fewestRuns, plainly } of cases)
      results.push({ title, ...(await measure(run, fewestRuns)), ...(plainly && { plainly }) })
  }
  for (const result of results) {
    const plain = results.find(({ title }) => title === result.plainly)
    if (plain) result.timesFaster = plain.medianMs / result.medianMs
  }
  print(results)
  const { benchPageWeight, mostScriptBytes } = await import(
    pathToFileURL(await compiled(fromRoot('tests', 'bench', 'page-weight.ts'))).href
  )
  const weight = benchPageWeight(fromRoot())
  printWeight(weight, mostScriptBytes)
  fs.mkdirSync(fromRoot('reports'), { recursive: true })
  const machine = { node: process.versions.node, cpu: os.cpus()[0]?.model, coreCount: os.cpus().length }
  fs.writeFileSync(
    fromRoot('reports', 'bench.json'),
    `${JSON.stringify({ machine, results, benchPageScriptBytes: weight?.scriptBytes ?? null }, null, 2)}\n`,
  )
}

/** Compiled as the app's own build does it: a loader that keeps every function's name makes each of them slower to make. */
async function compiled(file) {
  const { build } = await import('esbuild')
  const outfile = fromRoot('node_modules', '.cache', 'bendwright', `${path.basename(file, '.ts')}.mjs`)
  await build({
    entryPoints: [file],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    packages: 'external',
    jsx: 'automatic',
    alias: { '@': fromRoot(), 'server-only': fromRoot('tests', 'support', 'empty.ts') },
    logLevel: 'error',
  })
  return outfile
}

function benchFiles(part) {
  const folder = fromRoot('tests', 'bench')
  const names = fs.readdirSync(folder).filter((name) => name.endsWith('.bench.ts') && name.includes(part))
  if (names.length === 0)
    throw new Stop(`There is nothing to measure in ${folder}${part ? ` with "${part}" in its name` : ''}.`)
  return names.sort().map((name) => path.join(folder, name))
}

/** Every run is timed by itself: on a shared machine the median says more than the mean, and the worst more than either. */
async function measure(run, fewestRuns = FEWEST_RUNS) {
  await runFor(run, WARM_UP_MS, 1)
  const timesMs = (await runFor(run, MEASURE_MS, fewestRuns)).sort((a, b) => a - b)
  const at = (fraction) => timesMs[Math.min(timesMs.length - 1, Math.floor(fraction * timesMs.length))]
  return {
    runCount: timesMs.length,
    medianMs: at(0.5),
    p95Ms: at(0.95),
    worstMs: timesMs[timesMs.length - 1],
  }
}

async function runFor(run, limitMs, fewest) {
  const timesMs = []
  for (
    const startedMs = performance.now();
    performance.now() - startedMs < limitMs || timesMs.length < fewest;
  ) {
    const runStartedMs = performance.now()
    await run()
    timesMs.push(performance.now() - runStartedMs)
  }
  return timesMs
}

function printWeight(weight, mostBytes) {
  const kB = (bytes) => `${(bytes / 1000).toFixed(1)} kB`
  if (weight) console.log(`\nScripts of a bench screen: ${kB(weight.scriptBytes)}, at most ${kB(mostBytes)}`)
  else
    console.log(
      '\nScripts of a bench screen: not measured, there is no production build (npm start makes one)',
    )
}

function print(results) {
  const widest = Math.max(...results.map(({ title }) => title.length))
  const columns = ['runCount', 'medianMs', 'p95Ms', 'worstMs']
  console.log(`${''.padEnd(widest)}  ${columns.map((name) => name.padStart(10)).join('')}  against plain`)
  for (const result of results) {
    const cells = columns.map((name) =>
      String(name.endsWith('Ms') ? result[name].toFixed(3) : result[name]).padStart(10),
    )
    const faster = result.timesFaster ? `  ${Math.round(result.timesFaster)} times as fast` : ''
    console.log(`${result.title.padEnd(widest)}  ${cells.join('')}${faster}`)
  }
}
