/*
 * npm run backup              writes everything the shop has into one file in the data folder's backups, running or not
 * npm run backup -- FILE      into this file
 */
import path from 'node:path'
import { backupFolder, stampedName } from './backup-schedule.mjs'
import { byteText } from './byte-text.mjs'
import { objectStore } from './object-store.mjs'
import { installDependencies } from './prepare.mjs'
import { withShopDatabase } from './shop-database.mjs'
import { Stop, say, sayWhyStopped } from './steps.mjs'
import { takeBackup } from './take-backup.mjs'

try {
  const args = process.argv.slice(2)
  if (args.length > 1 || args[0]?.startsWith('-')) throw new Stop('Name one file: npm run backup -- FILE')
  await installDependencies()
  await withShopDatabase(async ({ url, dataFolder }) => {
    const now = new Date()
    // npm runs scripts in the clone's folder; a file is named from where the person stands.
    const file = args[0]
      ? path.resolve(process.env.INIT_CWD ?? process.cwd(), args[0])
      : path.join(backupFolder(dataFolder), stampedName('by-hand', now))
    say(`backing up to ${file} ...`)
    const done = await takeBackup({ databaseUrl: url, file, store: await objectStore(), now })
    say(
      `done: ${byteText(done.byteCount)}, ${done.rowCount} rows of ${done.tableCount} tables, ${done.fileCount} attachments`,
    )
    say(`SHA-256 ${done.sha256}`)
    console.log('The file holds everything, password hashes too: keep it where only you can read it.')
  })
} catch (error) {
  sayWhyStopped(error)
  process.exitCode = 1
}
