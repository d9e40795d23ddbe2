/** From vitest's JSON report. A file that could not even be loaded has no tests to count, and counts as one failed. */
export function countVitest({ numPassedTests, numFailedTests, numPendingTests, numTodoTests, testResults }) {
  const brokenFiles = testResults.filter(
    ({ status, assertionResults }) =>
      status === 'failed' && !assertionResults.some((assertion) => assertion.status === 'failed'),
  )
  return {
    passed: numPassedTests,
    failed: numFailedTests + brokenFiles.length,
    skipped: numPendingTests + numTodoTests,
  }
}

/** From Playwright's JSON report. An error outside every test (a file that does not load, a server that does not start) counts as one failed. */
export function countPlaywright({ stats, errors }) {
  return {
    passed: stats.expected,
    failed: stats.unexpected + stats.flaky + errors.length,
    skipped: stats.skipped,
  }
}
