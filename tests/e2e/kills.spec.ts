import { execFile } from 'node:child_process'
import fs from 'node:fs'
import { promisify } from 'node:util'
import { fromRoot } from '@/lib/launch/root.mjs'
import { expect, test } from '../support/browser-test'

type Report = {
  sentCount: number
  acknowledged: Record<string, number>
  killed: Record<string, number>
  faults: string[]
}

test('the app and the database are killed under load in every way, and nothing acknowledged is lost', async () => {
  test.setTimeout(240_000)
  // The program of `npm run endurance`, of which this is the short form: a database and an app of its own.
  const program = [
    '--import',
    './tests/support/outside-next.mjs',
    '--import',
    'tsx',
    'tests/endurance/kill-rounds.ts',
  ]
  const run = promisify(execFile)(process.execPath, [...program, '--rounds=4', '--in-turn'], {
    cwd: fromRoot(),
  })
  const { stdout } = await run
  expect(stdout).toMatch(/nothing lost, nothing half there in 4 rounds/)
  const report = JSON.parse(fs.readFileSync(fromRoot('reports', 'endurance.json'), 'utf8')) as Report
  expect(report.killed).toEqual({ app: 1, postmaster: 1, worker: 1, database: 1 })
  expect(report.faults).toEqual([])
  // Some were on their way when the kill came: a run in which all were answered has cut nothing off.
  const acknowledged = Object.values(report.acknowledged).reduce((sum, count) => sum + count, 0)
  expect(acknowledged).toBeGreaterThan(0)
  expect(report.sentCount).toBeGreaterThan(acknowledged)
})
