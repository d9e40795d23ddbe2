import 'server-only'
import { hash, verify } from '@node-rs/argon2'

/** Argon2id at 19 MiB, two passes. Source: OWASP Password Storage Cheat Sheet. */
const cost = { memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const

export function hashPassword(password: string): Promise<string> {
  return hash(password, cost)
}

/** A hash nobody's password has: an unknown account takes as long to refuse as a wrong password. */
const nobody = hash('no account has this password', cost)

export async function passwordFits(stored: string | null, typed: string): Promise<boolean> {
  const fits = await verify(stored ?? (await nobody), typed)
  return stored !== null && fits
}
