import 'server-only'
import nodemailer from 'nodemailer'
import { env } from '@/lib/server/env'
import { log } from '@/lib/server/log'

export type Mailed = 'sent' | 'failed' | 'not-set-up'

const answerWithinMs = 10_000

export function mailIsSetUp(): boolean {
  return env().BENDWRIGHT_SMTP_URL !== undefined
}

function transport(address: string) {
  const { protocol, hostname, port, username, password } = new URL(address)
  const secure = protocol === 'smtps:'
  const auth = username
    ? { user: decodeURIComponent(username), pass: decodeURIComponent(password) }
    : undefined
  return nodemailer.createTransport({
    host: hostname.replace(/^\[|\]$/g, ''),
    port: port === '' ? (secure ? 465 : 587) : Number(port),
    secure,
    // A password goes over the line only when nobody can read along.
    ...(auth && { auth, requireTLS: true }),
    connectionTimeout: answerWithinMs,
    greetingTimeout: answerWithinMs,
    socketTimeout: answerWithinMs,
    disableFileAccess: true,
    disableUrlAccess: true,
  })
}

/** Sends one mail of plain words. Never throws: whoever has the link in hand can pass it on another way. */
export async function sendMail(mail: {
  to: { name: string; address: string }
  subject: string
  text: string
}): Promise<Mailed> {
  const { BENDWRIGHT_SMTP_URL, BENDWRIGHT_SMTP_FROM } = env()
  if (BENDWRIGHT_SMTP_URL === undefined) return 'not-set-up'
  const post = transport(BENDWRIGHT_SMTP_URL)
  try {
    await post.sendMail({ ...mail, from: BENDWRIGHT_SMTP_FROM })
    return 'sent'
  } catch (cause) {
    // Only what the server said: the message itself holds the link.
    const { code, responseCode } = cause as { code?: string; responseCode?: number }
    log.error('mail not sent', `${code ?? 'unknown'} ${responseCode ?? ''}`.trim())
    return 'failed'
  } finally {
    post.close()
  }
}
