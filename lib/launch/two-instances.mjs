/*
 * npm run two-instances              the browser tests against two instances of the app behind a plain proxy, on one database
 * npm run two-instances -- ARGS      ARGS go to the test runner: a file, -g "part of a title"
 */
import { generateClient, installDependencies } from './prepare.mjs'
import { runTool } from './run-command.mjs'
import { end, endOnSignals } from './shutdown.mjs'
import { sayWhyStopped } from './steps.mjs'

try {
  endOnSignals()
  delete process.env.DATABASE_URL
  delete process.env.BENDWRIGHT_DATA
  await installDependencies()
  await generateClient()
  await runTool('two instances', 'node_modules/@playwright/test/cli.js', ['test', ...process.argv.slice(2)], {
    env: { NODE_ENV: 'test', BENDWRIGHT_E2E_INSTANCES: process.env.BENDWRIGHT_E2E_INSTANCES ?? '2' },
  })
  await end(0)
} catch (error) {
  sayWhyStopped(error)
  await end(1)
}
