/*
 * npm start              installs, builds, starts the database and serves; a second time only what is needed
 * npm start -- --demo    the same, and an empty shop becomes the demo shop without asking
 * npm run dev            serves from the sources, for work on the code
 *
 * Only what every Node can read stands here; the rest is loaded once the version is known to be new enough.
 */
const [major, minor] = process.versions.node.split('.').map(Number)
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(
    'Bendwright needs Node.js 20.19 or later; this is ' +
      process.versions.node +
      ' (' +
      process.execPath +
      ').',
  )
  process.exit(1)
}
const { start } = await import('./launcher.mjs')
await start(process.argv.slice(2))
