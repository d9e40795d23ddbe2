import { z } from 'zod'

const moment = z.iso.datetime()

/** The note that the launcher keeps beside the backups it takes. */
export const backupNote = z.object({
  plan: z.object({ dayCount: z.number(), weekCount: z.number() }).optional(),
  success: z.object({ at: moment, name: z.string(), byteCount: z.number(), sha256: z.string() }).nullish(),
  failure: z.object({ at: moment, message: z.string() }).nullish(),
})

export type BackupNote = z.output<typeof backupNote>

export type BackupState = 'none-yet' | 'failed' | 'late' | 'good'

const hourMs = 3_600_000
const lateAfterHours = 49

/**
 * How the backups stand. `late`: the last good one is more than two days old and none failed since, so that the
 * launcher has not been running or its note is lost.
 */
export function backupState(note: BackupNote, nowMs: number): BackupState {
  if (note.failure) return 'failed'
  if (!note.success) return 'none-yet'
  return nowMs - Date.parse(note.success.at) > lateAfterHours * hourMs ? 'late' : 'good'
}

/** Whether a file in the backup folder is one, taken by schedule or by hand. */
export const isBackupName = (name: string): boolean =>
  /^bendwright-[a-z-]+-\d{4}-\d\d-\d\dT[\d-]+Z\.zip$/.test(name)
