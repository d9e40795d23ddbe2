import type { AddressInfo } from 'node:net'
import { SMTPServer } from 'smtp-server'

export type ReceivedMail = { from: string; to: string[]; text: string }

/** A mail server in this process that keeps what it is given, on this port or a free one; `refusing` it takes none. */
export async function startMailServer(wantedPort = 0) {
  const received: ReceivedMail[] = []
  const state = { refusing: false }
  const server = new SMTPServer({
    authOptional: true,
    hideSTARTTLS: true,
    logger: false,
    onRcptTo: (_address, _session, done) =>
      done(state.refusing ? Object.assign(new Error('no such mailbox'), { responseCode: 550 }) : null),
    onData: (stream, session, done) => {
      const chunks: Buffer[] = []
      stream.on('data', (chunk: Buffer) => chunks.push(chunk))
      stream.on('end', () => {
        const { mailFrom, rcptTo } = session.envelope
        received.push({
          from: mailFrom === false ? '' : mailFrom.address,
          to: rcptTo.map(({ address }) => address),
          text: Buffer.concat(chunks).toString('utf8'),
        })
        done()
      })
    },
  })
  await new Promise<void>((resolve) => server.listen(wantedPort, '127.0.0.1', resolve))
  const { port } = server.server.address() as AddressInfo
  return {
    url: `smtp://127.0.0.1:${port}`,
    received,
    state,
    stop: () => new Promise<void>((resolve) => server.close(() => resolve())),
  }
}

/** What a reader sees of a mail's plain words. Source: RFC 2045, 6.7, "Quoted-Printable". */
export function mailWords(mail: ReceivedMail | undefined): string {
  const [head = '', ...body] = (mail?.text ?? '').split('\r\n\r\n')
  const words = body.join('\n\n')
  if (!/^content-transfer-encoding: quoted-printable/im.test(head)) return words
  const bytes = words
    .replace(/=\r?\n/g, '')
    .replace(/=([\dA-F]{2})/g, (_all, code: string) => String.fromCharCode(Number.parseInt(code, 16)))
  return Buffer.from(bytes, 'latin1').toString('utf8')
}
