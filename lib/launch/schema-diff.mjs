import fs from 'node:fs'
import { createRequire } from 'node:module'
import path from 'node:path'
import { PrismaPg } from '@prisma/adapter-pg'
import { bindMigrationAwareSqlAdapterFactory, ColumnTypeEnum } from '@prisma/driver-adapter-utils'
import * as bindings from '@prisma/schema-engine-wasm/schema_engine_bg'
import { readMigrations } from './migrate.mjs'

/** The engine reports a panic through this name, and dies without a word where it is missing. */
globalThis.PRISMA_WASM_PANIC_REGISTRY ??= {
  set_message(message) {
    console.error('The schema engine gave up:', message)
  },
}

/** The catalogue type "char": PostgreSQL 18 lists NOT NULLs with it, and the adapter does not know it. */
const CHAR_OID = 18
const TEXT_OID = 25

/**
 * The adapter's own scratch database can't be used (7.10.1): given an address it works in the REAL database, given a
 * name it drops the scratch database before closing its connections, and its scripts are cut at every semicolon,
 * also inside a function body. So this one makes, uses and drops the scratch database itself.
 */
class ScratchFactory extends PrismaPg {
  constructor(url) {
    const { hostname, port, username, password, pathname } = new URL(url)
    super({
      host: hostname,
      port: Number(port),
      user: decodeURIComponent(username),
      password: decodeURIComponent(password),
      database: pathname.slice(1),
    })
  }

  async connectToShadowDb() {
    const name = `scratch_${process.pid}_${Date.now()}`
    const admin = await this.connect()
    await admin.executeScript(`create database "${name}"`)
    const scratch = await new PrismaPg({ ...this.config, database: name }).connect()
    readCharAsText(scratch)
    scratch.executeScript = async (sql) => {
      await scratch.underlyingDriver().query(sql)
    }
    const close = scratch.dispose.bind(scratch)
    scratch.dispose = async () => {
      await close()
      await admin.executeScript(`drop database if exists "${name}" with (force)`)
      await admin.dispose()
    }
    return scratch
  }
}

function readCharAsText(connection) {
  const performIO = connection.performIO.bind(connection)
  const queryRaw = connection.queryRaw.bind(connection)
  let isChar = []
  connection.performIO = async (query) => {
    const answer = await performIO(query)
    const fields = answer.fields ?? []
    isChar = fields.map((field) => field.dataTypeID === CHAR_OID)
    for (const field of fields) if (field.dataTypeID === CHAR_OID) field.dataTypeID = TEXT_OID
    return answer
  }
  connection.queryRaw = async (query) => {
    const answer = await queryRaw(query)
    isChar.forEach((yes, column) => {
      if (yes) answer.columnTypes[column] = ColumnTypeEnum.Character
    })
    return answer
  }
}

async function schemaEngine(databaseUrl, schema) {
  const folder = path.dirname(
    createRequire(import.meta.url).resolve('@prisma/schema-engine-wasm/schema_engine_bg'),
  )
  const binary = fs.readFileSync(path.join(folder, 'schema_engine_bg.wasm'))
  const { instance } = await WebAssembly.instantiate(binary, { './schema_engine_bg.js': bindings })
  bindings.__wbg_set_wasm(instance.exports)
  instance.exports.__wbindgen_start()
  const factory = bindMigrationAwareSqlAdapterFactory(new ScratchFactory(databaseUrl))
  return bindings.SchemaEngine.new({ datamodels: [['schema.prisma', schema]] }, () => {}, factory)
}

/**
 * The SQL that takes the committed migrations to the schema; empty when they already agree. Offline: the engine is
 * the WebAssembly one. It can be made once a process only.
 */
export async function schemaDiffSql({ databaseUrl, schemaFile, migrationsFolder }) {
  const schema = fs.readFileSync(schemaFile, 'utf8')
  const engine = await schemaEngine(databaseUrl, schema)
  const migrations = readMigrations(migrationsFolder)
  const from =
    migrations.length === 0
      ? { tag: 'empty' }
      : {
          tag: 'migrations',
          baseDir: migrationsFolder,
          lockfile: { path: './migration_lock.toml', content: 'provider = "postgresql"\n' },
          shadowDbInitScript: '',
          migrationDirectories: migrations.map(({ name, sql }) => ({
            path: name,
            migrationFile: { path: 'migration.sql', content: { tag: 'ok', value: sql } },
          })),
        }
  const { exitCode, stdout } = await engine.diff({
    from,
    to: { tag: 'schemaDatamodel', files: [{ path: 'schema.prisma', content: schema }] },
    script: true,
    exitCode: true,
    shadowDatabaseUrl: null,
    filters: { externalTables: [], externalEnums: [] },
  })
  return exitCode === 0 ? '' : `${stdout.trim()}\n`
}
