import 'server-only'
import { z } from 'zod'

const envSchema = z.object({
  DATABASE_URL: z
    .string()
    .min(1, 'DATABASE_URL is not set: start the app with npm start, or point it at a PostgreSQL server'),
  /** Proves, before there is any account, that whoever sets the shop up started the app. */
  BENDWRIGHT_SETUP_KEY: z.string().min(16).optional(),
  BENDWRIGHT_DEMO: z.enum(['0', '1']).optional(),
  /** The address customers and scan codes use, where the app stands behind a proxy. */
  BENDWRIGHT_URL: z.url().optional(),
})

export type Env = z.infer<typeof envSchema>

let parsed: Env | undefined

/** Read on first use: a build has no database to point at. */
export function env(): Env {
  parsed ??= envSchema.parse(process.env)
  return parsed
}
