import 'server-only'
import { createHash } from 'node:crypto'
import { AwsClient } from 'aws4fetch'
import { env } from '@/lib/server/env'
import { Refused } from '@/lib/server/errors'
import { log } from '@/lib/server/log'

/** Where a file's content is: in its row, or in the store under a key. */
export type KeptContent =
  | { content: Uint8Array<ArrayBuffer>; storageKey: null }
  | { content: null; storageKey: string }

const answerWithinMs = 30_000

function away(cause: unknown, key: string): Refused {
  log.error('file store failed', cause, { key })
  return new Refused(
    'no-file-store',
    'The store that keeps the files does not answer. Try again in a minute.',
  )
}

async function ask(key: string, init: RequestInit): Promise<ArrayBuffer> {
  const {
    BENDWRIGHT_S3_ENDPOINT,
    BENDWRIGHT_S3_BUCKET,
    BENDWRIGHT_S3_REGION,
    BENDWRIGHT_S3_KEY,
    BENDWRIGHT_S3_SECRET,
  } = env()
  const client = new AwsClient({
    accessKeyId: BENDWRIGHT_S3_KEY ?? '',
    secretAccessKey: BENDWRIGHT_S3_SECRET ?? '',
    service: 's3',
    region: BENDWRIGHT_S3_REGION,
    retries: 2,
  })
  const address = `${BENDWRIGHT_S3_ENDPOINT?.replace(/\/$/, '')}/${BENDWRIGHT_S3_BUCKET}/${key}`
  try {
    const answer = await client.fetch(address, { ...init, signal: AbortSignal.timeout(answerWithinMs) })
    if (!answer.ok)
      throw new Error(`${init.method} ${key}: ${answer.status} ${(await answer.text()).slice(0, 300)}`)
    return await answer.arrayBuffer()
  } catch (cause) {
    throw away(cause, key)
  }
}

/**
 * Puts a file's content where this shop keeps it, and answers what to write in its row. Call it before the transaction:
 * a row must never name what is not there. The key is the content's SHA-256, so that what a failed transaction leaves
 * in the store is found again by the next try, and nothing in the store ever changes.
 */
export async function keepContent(content: Uint8Array<ArrayBuffer>, sha256: string): Promise<KeptContent> {
  if (env().BENDWRIGHT_FILES === 'database') return { content, storageKey: null }
  const storageKey = `files/${sha256}`
  // The store checks what arrives against this, and refuses what was damaged on the way.
  await ask(storageKey, { method: 'PUT', body: content, headers: { 'x-amz-content-sha256': sha256 } })
  return { content: null, storageKey }
}

/** A file's content from where it is; what comes back from the store is checked to be what was put there. */
export async function fetchContent(row: {
  content: Uint8Array<ArrayBuffer> | null
  storageKey: string | null
  sha256: string
}): Promise<Uint8Array<ArrayBuffer>> {
  if (row.content !== null) return row.content
  const key = row.storageKey ?? ''
  const content = new Uint8Array(await ask(key, { method: 'GET' }))
  if (createHash('sha256').update(content).digest('hex') !== row.sha256) {
    throw away(new Error('the content is not what was put there'), key)
  }
  return content
}
