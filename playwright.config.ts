import { defineConfig } from '@playwright/test'
import { findBrowser } from '@/lib/launch/browser.mjs'
import { freePort } from '@/lib/launch/port.mjs'

// Workers load this file again and inherit the environment: what is found once holds for all of them.
process.env.BENDWRIGHT_E2E_BROWSER ??= JSON.stringify(await findBrowser())
process.env.BENDWRIGHT_E2E_PORT ??= String(await freePort())

const browser = JSON.parse(process.env.BENDWRIGHT_E2E_BROWSER) as {
  executablePath: string
  env: Record<string, string>
  args: string[]
}

export default defineConfig({
  testDir: 'tests/e2e',
  testMatch: '**/*.{spec,test}.ts',
  globalSetup: './tests/support/serve.ts',
  // All tests share one server and its database, as the people of one shop do.
  workers: 1,
  fullyParallel: false,
  forbidOnly: process.env.CI !== undefined,
  timeout: 90_000,
  expect: { timeout: 10_000 },
  outputDir: 'test-results',
  reporter: [['list'], ['json', { outputFile: 'reports/e2e.json' }]],
  use: {
    baseURL: `http://127.0.0.1:${process.env.BENDWRIGHT_E2E_PORT}`,
    browserName: 'chromium',
    locale: 'en-US',
    timezoneId: 'America/New_York',
    trace: 'retain-on-failure',
    screenshot: 'only-on-failure',
    launchOptions: {
      executablePath: browser.executablePath,
      args: browser.args,
      env: { ...process.env, ...browser.env },
    },
  },
})
