/*
 * npm run restore -- FILE             puts a backup into an empty shop, all of it or nothing
 * npm run restore -- FILE --compare   changes nothing: says whether the shop holds exactly what the backup holds
 */
import path from 'node:path'
import { objectStore } from './object-store.mjs'
import { installDependencies } from './prepare.mjs'
import { compareBackup, restoreBackup } from './restore-backup.mjs'
import { withShopDatabase } from './shop-database.mjs'
import { Stop, say, sayWhyStopped } from './steps.mjs'

try {
  const args = process.argv.slice(2)
  const named = args.filter((arg) => arg !== '--compare')
  if (named.length !== 1 || named[0].startsWith('-')) {
    throw new Stop('Name the backup: npm run restore -- FILE, or npm run restore -- FILE --compare')
  }
  await installDependencies()
  const file = path.resolve(process.env.INIT_CWD ?? process.cwd(), named[0])
  await withShopDatabase(({ url }) => (args.includes('--compare') ? compare(url, file) : restore(url, file)))
} catch (error) {
  sayWhyStopped(error)
  process.exitCode = 1
}

async function restore(databaseUrl, file) {
  say(`checking and restoring ${file} ...`)
  const { manifest, applied } = await restoreBackup({ databaseUrl, file, store: await objectStore() })
  say(`restored the shop as of ${manifest.madeAt}: ${totals(manifest)}, each table equal to the backup`)
  if (applied.length > 0) say(`and brought up to this version: ${applied.join(', ')}`)
}

async function compare(databaseUrl, file) {
  const { manifest, differing } = await compareBackup({ databaseUrl, file })
  if (differing.length > 0) {
    throw new Stop(
      `The shop is not what the backup of ${manifest.madeAt} holds:\n  ${differing.join('\n  ')}`,
    )
  }
  say(`equal: ${totals(manifest)}, as of ${manifest.madeAt}`)
}

function totals({ rowCount, tableCount, fileCount }) {
  return `${rowCount} rows of ${tableCount} tables, ${fileCount} attachments`
}
