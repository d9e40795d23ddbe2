import { describe, expect, it } from 'vitest'
import { countPlaywright, countVitest } from '@/lib/launch/test-counts.mjs'

describe('what vitest reports', () => {
  const report = { numPassedTests: 5, numFailedTests: 1, numPendingTests: 2, numTodoTests: 1 }

  it('counts passed, failed and skipped tests', () => {
    const testResults = [{ status: 'failed', assertionResults: [{ status: 'failed' }, { status: 'passed' }] }]
    expect(countVitest({ ...report, testResults })).toEqual({ passed: 5, failed: 1, skipped: 3 })
  })

  it('counts a file that could not be loaded as failed', () => {
    const testResults = [
      { status: 'failed', assertionResults: [] },
      { status: 'failed', assertionResults: [{ status: 'failed' }] },
      { status: 'passed', assertionResults: [{ status: 'passed' }] },
    ]
    expect(countVitest({ ...report, testResults })).toEqual({ passed: 5, failed: 2, skipped: 3 })
  })
})

describe('what Playwright reports', () => {
  it('counts a test that passed only when repeated, and an error outside every test, as failed', () => {
    const stats = { expected: 3, unexpected: 1, flaky: 1, skipped: 2 }
    expect(countPlaywright({ stats, errors: [{}] })).toEqual({ passed: 3, failed: 3, skipped: 2 })
  })
})
