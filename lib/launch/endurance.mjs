/*
 * npm run endurance -- --rounds=50            kills the app or the database at random moments under load, and checks after
 * npm run endurance -- --rounds=50 --seed=7   each round that nothing acknowledged is lost and nothing is half there
 * npm run endurance -- --careless             with a database that acknowledges too early, to see the rounds find it
 */
import { buildApp, generateClient, installDependencies } from './prepare.mjs'
import { runTool } from './run-command.mjs'
import { end, endOnSignals } from './shutdown.mjs'
import { sayWhyStopped } from './steps.mjs'

try {
  endOnSignals()
  delete process.env.DATABASE_URL
  delete process.env.BENDWRIGHT_DATA
  await installDependencies()
  await generateClient()
  await buildApp()
  await runTool('endurance', '--import', [
    ...['./tests/support/outside-next.mjs', '--import', 'tsx', 'tests/endurance/kill-rounds.ts'],
    ...process.argv.slice(2),
  ])
  await end(0)
} catch (error) {
  sayWhyStopped(error)
  await end(1)
}
