import fs from 'node:fs'
import path from 'node:path'
import { describe, expect, it } from 'vitest'
import {
  backupPlan,
  nextDueMs,
  outlivedBackups,
  readBackupState,
  stampedName,
  takeScheduledBackup,
} from '@/lib/launch/backup-schedule.mjs'
import { temporaryFolder } from '@/tests/support/temporary-folder'

const daily = (iso: string) => stampedName('daily', new Date(iso))
const keeping = (names: string[], plan: { dayCount: number; weekCount: number }) => {
  const gone = new Set(outlivedBackups(names, plan))
  return names.filter((name) => !gone.has(name))
}

describe('which backups are kept', () => {
  it('the newest of each of the last seven days and of each of the last four weeks', () => {
    // Sixty days to Wednesday 25 November 2026, two a day. By a calendar of that autumn: Sundays are 22, 15 and 8 November.
    const names = Array.from({ length: 60 }, (_, back) => {
      const day = new Date(Date.UTC(2026, 10, 25) - back * 86_400_000).toISOString().slice(0, 10)
      return [daily(`${day}T03:00:00Z`), daily(`${day}T21:00:00Z`)]
    }).flat()
    const days = ['25', '24', '23', '22', '21', '20', '19'].map((day) => daily(`2026-11-${day}T21:00:00Z`))
    const weeks = ['15', '08'].map((day) => daily(`2026-11-${day}T21:00:00Z`))
    // The weeks of the 25th and of the 22nd are kept already by their days.
    expect(keeping(names, { dayCount: 7, weekCount: 4 })).toEqual([...days, ...weeks])
  })

  it('a shop that was closed for a month keeps its last ones: days without a backup do not count', () => {
    const names = [
      daily('2026-09-01T08:00:00Z'),
      daily('2026-09-02T08:00:00Z'),
      daily('2026-11-25T08:00:00Z'),
    ]
    expect(keeping(names, { dayCount: 3, weekCount: 0 })).toEqual(names)
  })

  it('never one made by hand, nor any other file', () => {
    const names = [
      stampedName('by-hand', new Date('2020-01-01T00:00:00Z')),
      'notes.txt',
      'last.json',
      daily('2026-11-25T08:00:00Z'),
    ]
    expect(outlivedBackups(names, { dayCount: 1, weekCount: 0 })).toEqual([])
    expect(outlivedBackups([...names, daily('2026-11-24T08:00:00Z')], { dayCount: 1, weekCount: 0 })).toEqual(
      [daily('2026-11-24T08:00:00Z')],
    )
  })
})

describe('when the next one is due', () => {
  const at = (iso: string) => Date.parse(iso)
  it('at once without any, a day after a good one, an hour after a failed one', () => {
    expect(nextDueMs({})).toBe(0)
    const success = { at: '2026-11-25T08:00:00Z' }
    expect(nextDueMs({ success, failure: null })).toBe(at('2026-11-26T08:00:00Z'))
    const failure = { at: '2026-11-26T08:00:05Z' }
    expect(nextDueMs({ success, failure })).toBe(at('2026-11-26T09:00:05Z'))
  })
})

describe('the settings', () => {
  it('take a backup daily, keep 7 days and 4 weeks, unless told otherwise', () => {
    expect(backupPlan({})).toEqual({ on: true, dayCount: 7, weekCount: 4 })
    expect(backupPlan({ BENDWRIGHT_BACKUP: 'off' })).toMatchObject({ on: false })
    expect(backupPlan({ BENDWRIGHT_BACKUP_KEEP: '30,12' })).toMatchObject({ dayCount: 30, weekCount: 12 })
    expect(() => backupPlan({ BENDWRIGHT_BACKUP: 'hourly' })).toThrow('it can be daily or off')
    expect(() => backupPlan({ BENDWRIGHT_BACKUP_KEEP: '0,4' })).toThrow('two numbers')
  })
})

describe('a backup that fails', () => {
  const folder = temporaryFolder()

  it('is noted with its reason, and what was kept before stays', async () => {
    const old = daily('2026-11-01T08:00:00Z')
    fs.writeFileSync(path.join(folder, old), 'x')
    fs.writeFileSync(path.join(folder, `${old}.77.part`), 'x')
    const success = { at: '2026-11-01T08:00:00.000Z', name: old, byteCount: 1, sha256: 'x' }
    fs.writeFileSync(path.join(folder, 'last.json'), JSON.stringify({ success }))
    const done = await takeScheduledBackup({
      databaseUrl: 'postgresql://nobody@127.0.0.1:1/none',
      folder,
      plan: { on: true, dayCount: 1, weekCount: 0 },
      store: null,
      now: new Date('2026-11-25T08:00:00Z'),
    })
    expect(done).toBe(false)
    expect(readBackupState(folder)).toMatchObject({
      success,
      failure: { at: '2026-11-25T08:00:00.000Z', message: expect.stringContaining('ECONNREFUSED') },
    })
    expect(fs.readdirSync(folder).sort()).toEqual([old, 'last.json'])
  })
})
