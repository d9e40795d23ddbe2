import 'server-only'
import { AsyncLocalStorage } from 'node:async_hooks'
import { createHash } from 'node:crypto'
import { db, type Tx } from '@/lib/server/db'
import { Refused } from '@/lib/server/errors'
import { asJson } from '@/lib/server/json'

/**
 * A form sends a key of its own with what was typed. The first write under that key and that content claims it in the
 * write's own transaction, where it adds its line to the history; whatever is sent again, because a button was pressed
 * twice or an answer got lost on the way, gets the first one's answer and writes nothing.
 */
const sending = new AsyncLocalStorage<{ key: string; userId: number; claimed: boolean }>()
const running = new Map<string, Promise<unknown>>()
const rememberedMs = 10 * 60_000
const keptMs = 7 * 24 * 3_600_000

class SentBefore extends Error {}

/** The key of one sending: whose, which form, and what was typed; null where the form sent none. */
export function submitKeyOf(typed: unknown, userId: number): { key: string; content: unknown } | null {
  if (typeof typed !== 'object' || typed === null || !('submitKey' in typed)) return null
  const { submitKey, ...content } = typed
  if (typeof submitKey !== 'string' || !/^[A-Za-z0-9_-]{16,64}$/.test(submitKey)) return null
  const key = createHash('sha256')
    .update(JSON.stringify([userId, submitKey, content]))
    .digest('hex')
  return { key, content }
}

/** Runs what was sent under a key at most once; a refusal claims nothing, so that it can be put right and sent again. */
export function atMostOnce<Value>(key: string, userId: number, run: () => Promise<Value>): Promise<Value> {
  const first = running.get(key) as Promise<Value> | undefined
  if (first) return first
  const answer = answerOnce(key, userId, run)
  running.set(key, answer)
  const forget = () => running.delete(key)
  answer.then(() => setTimeout(forget, rememberedMs).unref(), forget)
  return answer
}

async function answerOnce<Value>(key: string, userId: number, run: () => Promise<Value>): Promise<Value> {
  const earlier = await db.submitKey.findUnique({ where: { key }, select: { answer: true } })
  if (earlier) return earlierAnswer<Value>(earlier.answer)
  try {
    const value = await sending.run({ key, userId, claimed: false }, run)
    await db.submitKey.deleteMany({ where: { at: { lt: new Date(Date.now() - keptMs) } } })
    if (isPlain(value)) await db.submitKey.updateMany({ where: { key }, data: { answer: asJson(value) } })
    return value
  } catch (cause) {
    if (!(cause instanceof SentBefore)) throw cause
    const row = await db.submitKey.findUnique({ where: { key }, select: { answer: true } })
    return earlierAnswer<Value>(row?.answer ?? null)
  }
}

/** Called with the transaction of every write, where it adds to the history. */
export async function claimSubmitKey(tx: Tx): Promise<void> {
  const sent = sending.getStore()
  if (!sent || sent.claimed) return
  const claimed = await tx.$executeRaw`
    insert into "SubmitKey" (key, "userId") values (${sent.key}, ${sent.userId}) on conflict do nothing`
  if (claimed !== 1) throw new SentBefore()
  sent.claimed = true
}

/** Ids and versions are kept for whoever sends again; a one-time link never is. */
function isPlain(value: unknown): value is Record<string, number> {
  return (
    typeof value === 'object' &&
    value !== null &&
    Object.values(value).every((part) => typeof part === 'number')
  )
}

function earlierAnswer<Value>(answer: unknown): Value {
  if (answer !== null) return answer as Value
  throw new Refused(
    'already-done',
    'This was saved already, the first time it was sent. Load the page anew to see it.',
  )
}
