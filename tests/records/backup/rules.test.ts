import fs from 'node:fs'
import path from 'node:path'
import { describe, expect, it } from 'vitest'
import {
  backupPlan,
  readBackupState,
  stampedName,
  takeScheduledBackup,
} from '@/lib/launch/backup-schedule.mjs'
import { compareBackup } from '@/lib/launch/restore-backup.mjs'
import { backupNote, backupState, isBackupName } from '@/lib/records/backup/rules'
import { freshDatabase } from '../../support/database'
import { temporaryFolder } from '../../support/temporary-folder'

const success = { at: '2026-11-25T08:00:00.000Z', name: 'x', byteCount: 1, sha256: 'x' }
const at = (iso: string) => Date.parse(iso)

describe('how the backups stand', () => {
  it('says failed as long as the last try failed, late after two days without one', () => {
    const failure = { at: '2026-11-26T08:00:00.000Z', message: 'The disk is full' }
    expect(backupState({ success, failure }, at('2026-11-26T08:01:00Z'))).toBe('failed')
    expect(backupState({}, at('2026-11-26T08:01:00Z'))).toBe('none-yet')
    expect(backupState({ success }, at('2026-11-27T08:30:00Z'))).toBe('good')
    expect(backupState({ success }, at('2026-11-27T09:30:00Z'))).toBe('late')
  })
})

describe('a scheduled backup', () => {
  it('is whole, is noted as the screen reads it, and removes what outlived its time', async () => {
    const { url, db } = await freshDatabase()
    await db.customer.create({ data: { name: 'Kestrel Harbour Works' } })
    const folder = temporaryFolder()
    const old = stampedName('daily', new Date('2026-10-01T08:00:00Z'))
    const byHand = stampedName('by-hand', new Date('2026-10-01T08:00:00Z'))
    for (const name of [old, byHand]) fs.writeFileSync(path.join(folder, name), 'x')
    const plan = { ...backupPlan({}), dayCount: 1, weekCount: 1 }
    const now = new Date('2026-11-25T08:00:00Z')
    expect(await takeScheduledBackup({ databaseUrl: url, folder, plan, store: null, now })).toBe(true)
    const name = stampedName('daily', now)
    const note = backupNote.parse(readBackupState(folder))
    expect(note).toMatchObject({
      success: { at: now.toISOString(), name },
      failure: null,
      plan: { dayCount: 1 },
    })
    expect(note.success?.byteCount).toBe(fs.statSync(path.join(folder, name)).size)
    expect(fs.readdirSync(folder).sort()).toEqual([byHand, name, 'last.json'].sort())
    expect([name, byHand, 'last.json', 'notes.zip'].map(isBackupName)).toEqual([true, true, false, false])
    expect((await compareBackup({ databaseUrl: url, file: path.join(folder, name) })).differing).toEqual([])
  })
})
