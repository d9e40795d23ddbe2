import { createHash } from 'node:crypto'
import { Stop } from './steps.mjs'

/**
 * The S3-compatible store that attachments are kept in, or null where they are kept in the database. The launcher reads
 * it for backups; the app has its own reader of the same settings, because nothing of the launcher runs in the app.
 * @param {Record<string, string | undefined>} settings
 */
export async function objectStore(settings = process.env) {
  if ((settings.BENDWRIGHT_FILES ?? 'database') === 'database') return null
  const names = [
    'BENDWRIGHT_S3_ENDPOINT',
    'BENDWRIGHT_S3_BUCKET',
    'BENDWRIGHT_S3_KEY',
    'BENDWRIGHT_S3_SECRET',
  ]
  const missing = names.filter((name) => !settings[name])
  if (missing.length > 0)
    throw new Stop(
      `BENDWRIGHT_FILES is "${settings.BENDWRIGHT_FILES}", and ${missing.join(', ')} is not set.`,
    )
  const { AwsClient } = await import('aws4fetch')
  const client = new AwsClient({
    accessKeyId: settings.BENDWRIGHT_S3_KEY,
    secretAccessKey: settings.BENDWRIGHT_S3_SECRET,
    service: 's3',
    region: settings.BENDWRIGHT_S3_REGION ?? 'us-east-1',
  })
  const address = (key) =>
    `${settings.BENDWRIGHT_S3_ENDPOINT.replace(/\/$/, '')}/${settings.BENDWRIGHT_S3_BUCKET}/${key}`
  const ask = async (key, init) => {
    const answer = await client.fetch(address(key), init)
    if (!answer.ok) throw new Stop(`The file store answered ${answer.status} for ${key}.`)
    return Buffer.from(await answer.arrayBuffer())
  }
  return {
    get: (key) => ask(key, { method: 'GET' }),
    put: (key, content) => {
      const sha256 = createHash('sha256').update(content).digest('hex')
      return ask(key, { method: 'PUT', body: content, headers: { 'x-amz-content-sha256': sha256 } })
    },
  }
}
