import 'server-only'
import { headers } from 'next/headers'

type Fields = Record<string, string | number | boolean | null | undefined>

/** The id of the request being answered, as its answer names it too; nothing outside a request. */
async function requestOfNow(): Promise<Fields> {
  try {
    const requestId = (await headers()).get('x-request-id')
    return requestId ? { requestId } : {}
  } catch {
    return {}
  }
}

async function write(level: 'info' | 'warn' | 'error', event: string, fields: Fields): Promise<void> {
  const at = new Date().toISOString()
  const line = JSON.stringify({ at, level, event, ...(await requestOfNow()), ...fields })
  if (level === 'error') process.stderr.write(`${line}\n`)
  else process.stdout.write(`${line}\n`)
}

/** One JSON object a line. Never pass what a person typed, a token or a password. */
export const log = {
  info: (event: string, fields: Fields = {}) => void write('info', event, fields),
  warn: (event: string, fields: Fields = {}) => void write('warn', event, fields),
  error: (event: string, cause: unknown, fields: Fields = {}) =>
    void write('error', event, {
      ...fields,
      message: cause instanceof Error ? cause.message : String(cause),
      stack: cause instanceof Error ? cause.stack : undefined,
    }),
}
