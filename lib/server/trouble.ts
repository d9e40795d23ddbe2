import 'server-only'
import { statfs } from 'node:fs/promises'
import { env } from '@/lib/server/env'
import { Refused } from '@/lib/server/errors'

/**
 * PostgreSQL's and Node's words for a machine in trouble. A connection that broke in the middle is not here: whether
 * the work was done is then not known, and must not be told as if it were.
 * Source: PostgreSQL documentation, appendix A "Error Codes".
 */
const trouble: Readonly<Record<string, 'disk-full' | 'no-database'>> = {
  '53100': 'disk-full',
  ENOSPC: 'disk-full',
  '53300': 'no-database', // too many connections
  '57P03': 'no-database', // starting up or shutting down
  ECONNREFUSED: 'no-database',
  P1001: 'no-database',
  // No connection came free in time, or the work took too long and was undone: either way nothing was saved.
  P2028: 'no-database',
}

function refusal(code: 'disk-full' | 'no-database'): Refused {
  return code === 'disk-full'
    ? new Refused(
        'disk-full',
        'The disk of the shop’s computer is full, so this was not saved. What you typed is still here: free some space there, then save again. Everything kept before can be read.',
      )
    : new Refused(
        'no-database',
        'The shop’s database does not answer just now, so this was not saved. Try again in a minute.',
      )
}

/** The refusal that an error amounts to, however deep a driver has wrapped its code; null when it is a bug. */
export function refusalOfTrouble(cause: unknown, depth = 0): Refused | null {
  if (typeof cause !== 'object' || cause === null || depth > 5) return null
  const { code, originalCode, message, meta, driverAdapterError } = cause as Record<string, unknown>
  for (const one of [originalCode, code]) {
    const found = typeof one === 'string' ? trouble[one] : undefined
    if (found) return refusal(found)
  }
  // Where a file can't grow, PostgreSQL may say it as an input/output error with the system's words.
  if (typeof message === 'string' && /No space left on device/.test(message)) return refusal('disk-full')
  for (const inner of [(cause as { cause?: unknown }).cause, meta, driverAdapterError]) {
    const found = refusalOfTrouble(inner, depth + 1)
    if (found) return found
  }
  return null
}

/**
 * Refuses before the last space is used. PostgreSQL answers a full disk well while it can write its log of changes, and
 * stops altogether when it can't: then nothing could be read either.
 */
export async function requireDiskSpace(): Promise<void> {
  const { BENDWRIGHT_DATABASE_DISK, BENDWRIGHT_LEAST_FREE_MB } = env()
  if (!BENDWRIGHT_DATABASE_DISK) return
  const { bavail, bsize } = await statfs(BENDWRIGHT_DATABASE_DISK)
  if (bavail * bsize < BENDWRIGHT_LEAST_FREE_MB * 1e6) throw refusal('disk-full')
}
