import 'server-only'
import { readdir, readFile, stat } from 'node:fs/promises'
import path from 'node:path'
import {
  type BackupNote,
  type BackupState,
  backupNote,
  backupState,
  isBackupName,
} from '@/lib/records/backup/rules'
import { env } from '@/lib/server/env'
import { log } from '@/lib/server/log'

export type KeptBackup = { name: string; byteCount: number; takenAt: string }
export type Backups = { folder: string; note: BackupNote; state: BackupState; files: KeptBackup[] }

/** What the launcher has backed up, newest first; null where it takes no backups. */
export async function readBackups(): Promise<Backups | null> {
  const folder = env().BENDWRIGHT_BACKUP_FOLDER
  if (!folder) return null
  const names = await readdir(folder).catch(() => [])
  const files = await Promise.all(
    names.filter(isBackupName).map(async (name) => {
      const file = await stat(path.join(folder, name)).catch(() => null) // just outlived its time
      return file && { name, byteCount: file.size, takenAt: file.mtime.toISOString() }
    }),
  )
  const note = await readNote(folder)
  return {
    folder,
    note,
    state: backupState(note, Date.now()),
    files: files.filter((file) => file !== null).sort((a, b) => b.takenAt.localeCompare(a.takenAt)),
  }
}

async function readNote(folder: string): Promise<BackupNote> {
  const text = await readFile(path.join(folder, 'last.json'), 'utf8').catch(() => '{}')
  try {
    return backupNote.parse(JSON.parse(text))
  } catch (cause) {
    log.error('the note of the last backup cannot be read', cause)
    return {}
  }
}
