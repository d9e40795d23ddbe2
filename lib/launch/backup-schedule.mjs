import fs from 'node:fs'
import path from 'node:path'
import { objectStore } from './object-store.mjs'
import { Stop, say } from './steps.mjs'
import { takeBackup } from './take-backup.mjs'

const DAY_MS = 24 * 3_600_000
const LOOK_EVERY_MS = 10 * 60_000
const AFTER_START_MS = 60_000
const AFTER_FAILURE_MS = 3_600_000

/** What the app shows of the backups stands in this file beside them: the app itself takes none. */
const STATE = 'last.json'

export const backupFolder = (dataFolder) => {
  const folder = process.env.BENDWRIGHT_BACKUP_FOLDER
    ? path.resolve(process.env.BENDWRIGHT_BACKUP_FOLDER)
    : path.join(dataFolder, 'backups')
  fs.mkdirSync(folder, { recursive: true, mode: 0o700 })
  return folder
}

/** bendwright-daily-2026-11-25T02-30-00Z.zip: sorts by time, and no system minds the characters. */
export const stampedName = (kind, at) =>
  `bendwright-${kind}-${at.toISOString().slice(0, 19).replaceAll(':', '-')}Z.zip`

function stampOf(name) {
  const found = /^bendwright-daily-(\d{4}-\d\d-\d\d)T(\d\d)-(\d\d)-(\d\d)Z\.zip$/.exec(name)
  return found ? new Date(`${found[1]}T${found[2]}:${found[3]}:${found[4]}Z`) : null
}

/**
 * Whether, and how many are kept, from the settings.
 * @param {Record<string, string | undefined>} settings
 */
export function backupPlan(settings = process.env) {
  const { BENDWRIGHT_BACKUP = 'daily', BENDWRIGHT_BACKUP_KEEP = '7,4' } = settings
  if (BENDWRIGHT_BACKUP !== 'daily' && BENDWRIGHT_BACKUP !== 'off') {
    throw new Stop(`BENDWRIGHT_BACKUP is "${BENDWRIGHT_BACKUP}"; it can be daily or off.`)
  }
  const [, days, weeks] = /^(\d{1,3}),(\d{1,3})$/.exec(BENDWRIGHT_BACKUP_KEEP) ?? []
  if (days === undefined || Number(days) < 1) {
    throw new Stop(
      `BENDWRIGHT_BACKUP_KEEP is "${BENDWRIGHT_BACKUP_KEEP}"; it is two numbers, how many days and how many weeks to keep: 7,4`,
    )
  }
  return { on: BENDWRIGHT_BACKUP === 'daily', dayCount: Number(days), weekCount: Number(weeks) }
}

/**
 * Which scheduled backups have had their time: all but the newest of each of the last days that have one, and the
 * newest of each of the last weeks (Monday to Sunday, UTC) that have one. Files of any other name are nobody's to remove.
 */
export function outlivedBackups(names, { dayCount, weekCount }) {
  const dated = names
    .map((name) => ({ name, at: stampOf(name) }))
    .filter(({ at }) => at !== null && !Number.isNaN(at.getTime()))
    .sort((a, b) => b.at - a.at)
  const kept = new Set()
  const keepNewest = (periodOf, count) => {
    const seen = new Set()
    for (const { name, at } of dated) {
      const period = periodOf(at)
      if (seen.has(period)) continue
      if (seen.size === count) break
      seen.add(period)
      kept.add(name)
    }
  }
  const dayOf = (at) => Math.floor(at.getTime() / DAY_MS)
  keepNewest(dayOf, dayCount)
  keepNewest((at) => Math.floor((dayOf(at) + 3) / 7), weekCount) // day 0 was a Thursday
  return dated.map(({ name }) => name).filter((name) => !kept.has(name))
}

export function readBackupState(folder) {
  try {
    return JSON.parse(fs.readFileSync(path.join(folder, STATE), 'utf8'))
  } catch {
    return {} // none yet, or cut short by a power cut: the next backup writes it anew
  }
}

function writeState(folder, state) {
  const half = path.join(folder, `${STATE}.part`)
  fs.writeFileSync(half, `${JSON.stringify(state, null, 2)}\n`)
  fs.renameSync(half, path.join(folder, STATE))
}

/**
 * When the next one is due: a day after the last good one, an hour after one that failed, at once if there is none.
 * @param {{ success?: { at: string } | null, failure?: { at: string } | null }} state
 */
export function nextDueMs({ success, failure }) {
  const dueMs = success ? Date.parse(success.at) + DAY_MS : 0
  const triedMs = failure ? Date.parse(failure.at) + AFTER_FAILURE_MS : 0
  return Math.max(dueMs, triedMs)
}

/** Takes one scheduled backup and removes what outlived its time. Never throws: what went wrong is told and kept. */
export async function takeScheduledBackup({ databaseUrl, folder, plan, store, now = new Date() }) {
  const state = readBackupState(folder)
  try {
    // What a backup that was killed has left is of no use to anybody.
    const halves = fs.readdirSync(folder).filter((name) => /^bendwright-daily-.*\.part$/.test(name))
    for (const half of halves) fs.rmSync(path.join(folder, half), { force: true })
    const name = stampedName('daily', now)
    const done = await takeBackup({ databaseUrl, file: path.join(folder, name), store, now })
    const success = { at: now.toISOString(), name, byteCount: done.byteCount, sha256: done.sha256 }
    writeState(folder, { plan, success, failure: null })
    for (const old of outlivedBackups(fs.readdirSync(folder), plan))
      fs.rmSync(path.join(folder, old), { force: true })
    return true
  } catch (error) {
    say(`the backup failed: ${error.message}`)
    try {
      writeState(folder, { ...state, plan, failure: { at: now.toISOString(), message: error.message } })
    } catch (unwritten) {
      say(`and that could not be noted in ${folder}: ${unwritten.message}`)
    }
    return false
  }
}

/** Backs up once a day for as long as this process runs. Returns what stops it, once the one under way is whole. */
export async function scheduleBackups({ databaseUrl, dataFolder }) {
  const plan = backupPlan()
  if (!plan.on)
    return { describe: 'none are taken (BENDWRIGHT_BACKUP=off)', folder: null, stop: async () => {} }
  const folder = backupFolder(dataFolder)
  const store = await objectStore()
  const startedMs = Date.now()
  let running = null
  const look = () => {
    const dueMs = Math.max(nextDueMs(readBackupState(folder)), startedMs + AFTER_START_MS)
    if (running || Date.now() < dueMs) return
    running = takeScheduledBackup({ databaseUrl, folder, plan, store }).finally(() => {
      running = null
    })
  }
  const timers = [setTimeout(look, AFTER_START_MS + 1000), setInterval(look, LOOK_EVERY_MS)]
  for (const timer of timers) timer.unref()
  return {
    folder,
    describe: `every day to ${folder}, ${plan.dayCount} days and ${plan.weekCount} weeks are kept`,
    stop: async () => {
      for (const timer of timers) clearTimeout(timer)
      await running
    },
  }
}
