import path from 'node:path'
import { defineConfig } from 'vitest/config'

const root = import.meta.dirname
/** These meet a real PostgreSQL, started once for all of them. */
const withDatabase = [
  'tests/launch/migrate.test.ts',
  'tests/records/**/*.test.{ts,tsx}',
  'tests/server/**/*.test.{ts,tsx}',
  'tests/demo/**/*.test.{ts,tsx}',
]

export default defineConfig({
  resolve: { alias: { '@': root, 'server-only': path.join(root, 'tests/support/empty.ts') } },
  test: {
    setupFiles: ['tests/support/console-guard.ts'],
    coverage: {
      provider: 'v8',
      include: ['lib/core/**', 'lib/records/**', 'lib/server/**'],
      reporter: ['text', 'json-summary'],
    },
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: [...withDatabase, 'tests/e2e/**'],
          testTimeout: 30_000,
        },
      },
      {
        extends: true,
        test: {
          name: 'records',
          include: withDatabase,
          globalSetup: ['tests/support/database-setup.ts'],
          testTimeout: 30_000,
          hookTimeout: 60_000,
        },
      },
    ],
  },
})
