import { createHash, createHmac } from 'node:crypto'
import http from 'node:http'
import type { AddressInfo } from 'node:net'

export type Signed = {
  method: string
  path: string
  query: string
  headers: Readonly<Record<string, string>>
  signedHeaders: readonly string[]
  region: string
  at: string
}

/**
 * The signature of a request to S3, worked out by the published steps and by nothing that the app signs with.
 * Source: AWS, "Authenticating Requests: Using the Authorization Header (AWS Signature Version 4)".
 */
export function signatureV4(request: Signed, secret: string): string {
  const canonical = [
    request.method,
    request.path,
    request.query,
    ...request.signedHeaders.map((name) => `${name}:${request.headers[name]?.trim()}`),
    '',
    request.signedHeaders.join(';'),
    request.headers['x-amz-content-sha256'],
  ].join('\n')
  const day = request.at.slice(0, 8)
  const scope = `${day}/${request.region}/s3/aws4_request`
  const hash = createHash('sha256').update(canonical).digest('hex')
  const mac = (key: string | Buffer, text: string) => createHmac('sha256', key).update(text).digest()
  const key = [request.region, 's3', 'aws4_request'].reduce(mac, mac(`AWS4${secret}`, day))
  return mac(key, `AWS4-HMAC-SHA256\n${request.at}\n${scope}\n${hash}`).toString('hex')
}

/** A small store that keeps what is put, and answers 403 to a request that is not signed with the secret. */
export async function startObjectStore(secret: string) {
  const objects = new Map<string, Buffer>()
  const refused: string[] = []
  const server = http.createServer((request, response) => {
    const chunks: Buffer[] = []
    request.on('data', (chunk: Buffer) => chunks.push(chunk))
    request.on('end', () => {
      const body = Buffer.concat(chunks)
      const path = request.url ?? ''
      if (!isSigned(request, path, body)) {
        refused.push(`${request.method} ${path}`)
        response.writeHead(403).end('SignatureDoesNotMatch')
      } else if (request.method === 'PUT') {
        objects.set(path, body)
        response.writeHead(200).end()
      } else {
        const found = objects.get(path)
        response.writeHead(found ? 200 : 404).end(found)
      }
    })
  })
  function isSigned(request: http.IncomingMessage, path: string, body: Buffer): boolean {
    const pattern =
      /^AWS4-HMAC-SHA256 Credential=[^/]+\/\d{8}\/([^/]+)\/s3\/aws4_request, SignedHeaders=([^,]+), Signature=(\w+)$/
    const [, region = '', names = '', signature] = pattern.exec(request.headers.authorization ?? '') ?? []
    const headers = Object.fromEntries(
      Object.entries(request.headers).map(([name, value]) => [name, String(value)]),
    )
    const said = headers['x-amz-content-sha256'] ?? ''
    if (said !== 'UNSIGNED-PAYLOAD' && said !== createHash('sha256').update(body).digest('hex')) return false
    const at = headers['x-amz-date'] ?? ''
    const signed = {
      method: request.method ?? '',
      path,
      query: '',
      headers,
      signedHeaders: names.split(';'),
      region,
      at,
    }
    return signature === signatureV4(signed, secret)
  }
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    objects,
    refused,
    stop: () => new Promise((resolve) => server.close(resolve)),
  }
}
