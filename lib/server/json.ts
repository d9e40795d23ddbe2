import 'server-only'
import type { Prisma } from '@/lib/server/db'

/** Plain data as a Json column takes it: dates become text, what is undefined is left out. */
export function asJson(value: unknown): Prisma.InputJsonValue {
  return JSON.parse(JSON.stringify(value)) as Prisma.InputJsonValue
}
