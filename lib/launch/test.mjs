/*
 * npm test                         everything: format, lint, types, migrations, unit, records, screens
 * npm test -- --only=unit,records  some of it: lint, unit, records, e2e
 *
 * Every layer runs even if an earlier one failed. The last line is the sum: N passed, N failed.
 */
const [major, minor] = process.versions.node.split('.').map(Number)
if (major < 20 || (major === 20 && minor < 19)) {
  console.error('The tests need Node.js 20.19 or later; this is ' + process.versions.node + '.')
  process.exit(1)
}
const { runTests } = await import('./test-layers.mjs')
await runTests(process.argv.slice(2))
