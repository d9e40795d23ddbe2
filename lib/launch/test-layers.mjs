import fs from 'node:fs'
import { generateClient, installDependencies } from './prepare.mjs'
import { fromRoot } from './root.mjs'
import { runToEnd } from './run-command.mjs'
import { end, endOnSignals } from './shutdown.mjs'
import { Stop, say, sayWhyStopped, secondsSince } from './steps.mjs'
import { countPlaywright, countVitest } from './test-counts.mjs'

const TOOLS = {
  biome: 'node_modules/@biomejs/biome/bin/biome',
  eslint: 'node_modules/eslint/bin/eslint.js',
  tsc: 'node_modules/typescript/bin/tsc',
  next: 'node_modules/next/dist/bin/next',
  vitest: 'node_modules/vitest/vitest.mjs',
  playwright: 'node_modules/@playwright/test/cli.js',
}

/** In the order they run; one that finds a fault early comes before one that takes long. */
const LAYERS = [
  { name: 'format', group: 'lint', run: () => check('format', [TOOLS.biome, 'check', '--colors=off']) },
  { name: 'lint', group: 'lint', run: () => check('lint', [TOOLS.eslint, '.']) },
  { name: 'types', group: 'lint', run: checkTypes },
  { name: 'migrations', group: 'lint', run: () => check('migrations', ['lib/launch/db-diff.mjs', 'diff']) },
  { name: 'unit', group: 'unit', run: () => vitest('unit') },
  { name: 'records', group: 'records', run: () => vitest('records') },
  { name: 'e2e', group: 'e2e', run: playwright },
]

export async function runTests(args) {
  try {
    const layers = chosenLayers(args)
    endOnSignals()
    // What a developer has set for the shop must not decide where tests write.
    delete process.env.DATABASE_URL
    delete process.env.BENDWRIGHT_DATA
    process.env.NEXT_TELEMETRY_DISABLED = '1'
    await installDependencies()
    await generateClient()
    fs.mkdirSync(fromRoot('reports'), { recursive: true })
    const results = []
    for (const layer of layers) results.push(await runLayer(layer))
    report(results)
    await end(results.some(({ failed }) => failed > 0) ? 1 : 0)
  } catch (error) {
    sayWhyStopped(error)
    console.log('\n0 passed, 1 failed')
    await end(1)
  }
}

function chosenLayers(args) {
  const groups = [...new Set(LAYERS.map(({ group }) => group))]
  const only = args.flatMap((arg) => arg.match(/^--only=(.+)$/)?.[1].split(',') ?? [`?${arg}`])
  const unknown = only.filter((name) => !groups.includes(name))
  if (unknown.length > 0) {
    throw new Stop(
      `Unknown: ${unknown.join(' ').replaceAll('?', '')}. There is --only= with any of ${groups.join(', ')}.`,
    )
  }
  return only.length === 0 ? LAYERS : LAYERS.filter(({ group }) => only.includes(group))
}

async function runLayer({ name, run }) {
  const startedMs = Date.now()
  say(`${name} ...`)
  let counts
  try {
    counts = await run()
  } catch (error) {
    sayWhyStopped(error)
    counts = { passed: 0, failed: 1, skipped: 0 }
  }
  const result = { name, took: secondsSince(startedMs), ...counts }
  say(`${name}: ${result.passed} passed, ${result.failed} failed in ${result.took.trim()}`)
  return result
}

/** A tool that says yes or no counts as one test; what it has to say is shown when it says no. */
async function check(title, args) {
  const { exitCode, output } = await runToEnd(title, process.execPath, args, { piped: true, mixErrors: true })
  if (exitCode !== 0) console.log(output.trimEnd())
  return { passed: exitCode === 0 ? 1 : 0, failed: exitCode === 0 ? 0 : 1, skipped: 0 }
}

async function checkTypes() {
  const generated = await check('route types', [TOOLS.next, 'typegen'])
  return generated.failed > 0 ? generated : check('types', [TOOLS.tsc, '--noEmit', '-p', '.'])
}

async function vitest(project) {
  const file = fromRoot('reports', `${project}.json`)
  return counted(file, countVitest, project, [
    ...[TOOLS.vitest, 'run', '--project', project],
    ...['--reporter=dot', '--reporter=json', `--outputFile.json=${file}`],
  ])
}

function playwright() {
  return counted(fromRoot('reports', 'e2e.json'), countPlaywright, 'e2e', [TOOLS.playwright, 'test'])
}

/** Runs a test runner and counts from the report it writes. One that fails without a failed test failed once itself. */
async function counted(file, count, title, args) {
  fs.rmSync(file, { force: true })
  const { exitCode, reason } = await runToEnd(title, process.execPath, args, { env: { NODE_ENV: 'test' } })
  const counts = fs.existsSync(file)
    ? count(JSON.parse(fs.readFileSync(file, 'utf8')))
    : { passed: 0, failed: 0, skipped: 0 }
  if (counts.failed === 0 && (exitCode !== 0 || counts.passed === 0)) {
    console.log(
      `${title}: ${counts.passed === 0 ? 'no test ran' : 'every test passed, yet the runner failed'} (${reason})`,
    )
    return { ...counts, failed: 1 }
  }
  return counts
}

function report(results) {
  const sum = (key) => results.reduce((total, result) => total + result[key], 0)
  console.log('')
  for (const { name, took, passed, failed, skipped } of results) {
    const rest = skipped > 0 ? `, ${skipped} skipped` : ''
    console.log(`${took}  ${name.padEnd(11)} ${passed} passed, ${failed} failed${rest}`)
  }
  console.log(`\n${sum('passed')} passed, ${sum('failed')} failed`)
}
