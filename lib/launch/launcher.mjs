import fs from 'node:fs'
import os from 'node:os'
import { startApp } from './app-server.mjs'
import { scheduleBackups } from './backup-schedule.mjs'
import { lockDataFolder, openDataFolder, setupKey } from './data-folder.mjs'
import { openDatabase } from './database.mjs'
import { migrate } from './migrate.mjs'
import { nextFreePort } from './port.mjs'
import { buildApp, generateClient, installDependencies } from './prepare.mjs'
import { fromRoot } from './root.mjs'
import { beforeEnding, end, endOnSignals, isEnding } from './shutdown.mjs'
import { Stop, say, sayWhyStopped, step } from './steps.mjs'

/** From whatever state the clone and the data folder are in to a running app. */
export async function start(args) {
  try {
    const options = readOptions(args)
    endOnSignals()
    await installDependencies()
    await generateClient()
    if (!options.dev) await buildApp()
    await serve(options)
  } catch (error) {
    if (!isEnding()) sayWhyStopped(error)
    await end(1)
  }
}

function readOptions(args) {
  const unknown = args.filter((arg) => arg !== '--demo' && arg !== '--dev')
  if (unknown.length > 0) throw new Stop(`Unknown option ${unknown.join(' ')}. There is --demo and --dev.`)
  if (fs.existsSync(fromRoot('.env'))) process.loadEnvFile(fromRoot('.env'))
  const { PORT = '3000', HOST = '127.0.0.1', BENDWRIGHT_DEMO = '0' } = process.env
  const port = Number(PORT)
  if (!/^\d+$/.test(PORT) || port < 1 || port > 65_535) {
    throw new Stop(`PORT is "${PORT}"; a port is a whole number from 1 to 65535.`)
  }
  return {
    port,
    host: HOST,
    dev: args.includes('--dev'),
    demo: args.includes('--demo') || BENDWRIGHT_DEMO === '1',
  }
}

async function serve({ port: wantedPort, host, dev, demo }) {
  const dataFolder = openDataFolder()
  beforeEnding(lockDataFolder(dataFolder))
  const giveUp = (message) => {
    if (isEnding()) return
    console.error(`\n${message}`)
    void end(1)
  }

  const database = await step('starting the database', () => openDatabase({ dataFolder, onLost: giveUp }))
  beforeEnding(database.stop)
  const applied = await step('bringing the database up to date', () => migrate(database.url))
  if (applied.length > 0) say(`applied ${applied.join(', ')}`)

  const backups = dev ? null : await scheduleBackups({ databaseUrl: database.url, dataFolder })
  if (backups) beforeEnding(backups.stop)

  const port = await choosePort(wantedPort, host)
  const key = process.env.BENDWRIGHT_SETUP_KEY ?? setupKey(dataFolder)
  const app = await step('starting the app', () =>
    startApp({
      host,
      port,
      dev,
      env: {
        DATABASE_URL: database.url,
        BENDWRIGHT_DATA: dataFolder,
        BENDWRIGHT_SETUP_KEY: key,
        ...(database.disk && { BENDWRIGHT_DATABASE_DISK: database.disk }),
        ...(backups?.folder && { BENDWRIGHT_BACKUP_FOLDER: backups.folder }),
        BENDWRIGHT_DEMO: demo ? '1' : '0',
      },
      onDeath: (reason) => giveUp(`The app ended unasked (${reason}).`),
    }),
  )
  beforeEnding(app.stop)
  await announce({ url: app.url, host, port, key, database, backups })
}

async function choosePort(wanted, host) {
  const { port, fault } = await nextFreePort(wanted, host)
  if (port === null) throw new Stop(`Nothing can listen at HOST "${host}": ${fault}.`)
  if (fault === 'EADDRINUSE')
    say(`port ${wanted} is taken by another program; using ${port}. PORT=... chooses another.`)
  if (fault === 'EACCES') say(`port ${wanted} is not allowed to this user; using ${port}`)
  return port
}

async function announce({ url, host, port, key, database, backups }) {
  const lines = ['', `Bendwright is ready:  ${process.env.BENDWRIGHT_URL ?? url}`]
  if (host === '0.0.0.0' || host === '::') {
    lines.push(...lanAddresses().map((address) => `In the shop's network: http://${address}:${port}`))
  }
  if (!(await hasAccount(database.url))) {
    const base = process.env.BENDWRIGHT_URL ?? url
    lines.push(
      '',
      "Nobody has an account yet. Make the owner's, and choose the demo shop or an empty one, at",
      `  ${new URL(`/setup?key=${key}`, base).href}`,
    )
  }
  lines.push('', `Database: ${database.describe}`)
  if (backups) lines.push(`Backups: ${backups.describe}`)
  lines.push('Ctrl-C stops everything.', '')
  console.log(lines.join('\n'))
}

const lanAddresses = () =>
  Object.values(os.networkInterfaces())
    .flat()
    .filter((entry) => entry?.family === 'IPv4' && !entry.internal)
    .map(({ address }) => address)

async function hasAccount(databaseUrl) {
  const { default: pg } = await import('pg')
  const client = new pg.Client({ connectionString: databaseUrl })
  await client.connect()
  try {
    return (await client.query('select 1 from "User" limit 1')).rowCount > 0
  } finally {
    await client.end()
  }
}
