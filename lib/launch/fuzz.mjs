import { generateClient, installDependencies } from './prepare.mjs'
import { runToEnd } from './run-command.mjs'
import { end, endOnSignals } from './shutdown.mjs'
import { sayWhyStopped } from './steps.mjs'

/**
 * The long fuzz run: every parser, then every page, route and action of the served production build.
 * npm run fuzz [inputs], 100 000 unless told; BENDWRIGHT_FUZZ_SEED tries others.
 */
const runs = process.argv[2] ?? '100000'
const env = { NODE_ENV: 'test', BENDWRIGHT_FUZZ_RUNS: runs }

try {
  endOnSignals()
  await installDependencies()
  await generateClient()
  const parsers = await runToEnd(
    'fuzz parsers',
    process.execPath,
    ['node_modules/vitest/vitest.mjs', 'run', 'tests/fuzz', '--testTimeout=3600000'],
    { env },
  )
  const served = await runToEnd(
    'fuzz the served app',
    process.execPath,
    ['node_modules/@playwright/test/cli.js', 'test', 'tests/e2e/hostile.spec.ts'],
    { env },
  )
  await end(parsers.exitCode === 0 && served.exitCode === 0 ? 0 : 1)
} catch (error) {
  sayWhyStopped(error)
  await end(1)
}
