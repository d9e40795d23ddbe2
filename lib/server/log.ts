import 'server-only'

type Fields = Record<string, string | number | boolean | null | undefined>

function write(level: 'info' | 'warn' | 'error', event: string, fields: Fields): void {
  const line = JSON.stringify({ at: new Date().toISOString(), level, event, ...fields })
  if (level === 'error') process.stderr.write(`${line}\n`)
  else process.stdout.write(`${line}\n`)
}

/** One JSON object a line. Never pass what a person typed, a token or a password. */
export const log = {
  info: (event: string, fields: Fields = {}) => write('info', event, fields),
  warn: (event: string, fields: Fields = {}) => write('warn', event, fields),
  error: (event: string, cause: unknown, fields: Fields = {}) =>
    write('error', event, {
      ...fields,
      message: cause instanceof Error ? cause.message : String(cause),
      stack: cause instanceof Error ? cause.stack : undefined,
    }),
}
