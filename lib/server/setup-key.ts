import 'server-only'
import { createHash, timingSafeEqual } from 'node:crypto'
import { env } from '@/lib/server/env'

function digest(text: string): Buffer {
  return createHash('sha256').update(text).digest()
}

/** Whether this is the key that the start printed. Without a key in the environment nothing is. */
export function setupKeyFits(typed: string): boolean {
  const key = env().BENDWRIGHT_SETUP_KEY
  const fits = timingSafeEqual(digest(typed), digest(key ?? ''))
  return key !== undefined && fits
}
