import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { startPostgres, THROWAWAY } from './postgres.mjs'
import { fromRoot } from './root.mjs'
import { schemaDiffSql } from './schema-diff.mjs'
import { Stop, sayWhyStopped } from './steps.mjs'

/*
 * npm run db:diff                    prints the SQL that takes the migrations to prisma/schema.prisma; nothing and 0 when
 *                                    they agree, 2 when they do not
 * npm run db:migration -- verb_noun  writes that SQL as a new migration, to be read and completed by hand
 */
const [command = 'diff', name] = process.argv.slice(2)
const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'bendwright-diff-'))
fs.chmodSync(folder, 0o755)
let server
try {
  if (command === 'migration' && !/^[a-z0-9]+(_[a-z0-9]+)*$/.test(name ?? '')) {
    throw new Stop('Name the migration verb_noun, in lower case: npm run db:migration -- add_offcuts')
  }
  server = await startPostgres({ folder, settings: THROWAWAY, say: (text) => console.error(text) })
  const sql = await schemaDiffSql({
    databaseUrl: server.url,
    schemaFile: fromRoot('prisma', 'schema.prisma'),
    migrationsFolder: fromRoot('prisma', 'migrations'),
  })
  if (sql === '') console.error('The migrations and prisma/schema.prisma agree.')
  else if (command === 'migration') console.log(writeMigration(name, sql))
  else {
    console.log(sql)
    process.exitCode = 2
  }
} catch (error) {
  sayWhyStopped(error)
  process.exitCode = 1
} finally {
  await server?.stop()
  fs.rmSync(folder, { recursive: true, force: true })
}

function writeMigration(title, sql) {
  const moment = new Date().toISOString().replace(/\D/g, '').slice(0, 14)
  const file = fromRoot('prisma', 'migrations', `${moment}_${title}`, 'migration.sql')
  fs.mkdirSync(path.dirname(file), { recursive: true })
  fs.writeFileSync(file, sql)
  const lock = fromRoot('prisma', 'migrations', 'migration_lock.toml')
  if (!fs.existsSync(lock)) fs.writeFileSync(lock, 'provider = "postgresql"\n')
  return path.relative(fromRoot(), file)
}
