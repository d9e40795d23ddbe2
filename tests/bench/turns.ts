import fs from 'node:fs'
import http from 'node:http'

/** One thing asked for again and again: who answers, what is sent, and what was measured so far. */
export type Asked = {
  key: string
  url: string
  cookie: string
  connectionCount: number
  /** The process that answers, for its share of the processor. */
  pid: number
  /** What is posted; absent: it is a GET. */
  body?: (() => string) | undefined
  timesMs: number[]
  processorMs: number
  bytes: number
}

const sliceMs = 500
const warmUpCount = 10
export const agent = new http.Agent({ keepAlive: true, maxSockets: 20 })

function ask({ url, cookie, body }: Asked): Promise<{ ms: number; bytes: number }> {
  const text = body?.()
  const startedMs = performance.now()
  const { origin } = new URL(url)
  const headers = text === undefined ? { cookie } : { cookie, origin, 'content-type': 'application/json' }
  return new Promise((resolve, reject) => {
    const options = { agent, method: text === undefined ? 'GET' : 'POST', headers }
    const request = http.request(url, options, (answer) => {
      const chunks: Buffer[] = []
      answer.on('data', (chunk: Buffer) => chunks.push(chunk))
      answer.once('error', reject)
      answer.once('end', () => {
        const content = Buffer.concat(chunks)
        if (answer.statusCode === 200) resolve({ ms: performance.now() - startedMs, bytes: content.length })
        else reject(new Error(`${url} answered ${answer.statusCode}: ${content.toString().slice(0, 500)}`))
      })
    })
    request.once('error', reject)
    request.end(text)
  })
}

/** Processor time of a process so far, as Linux counts it in hundredths of a second; elsewhere unknown. */
function processorMsOf(pid: number): number {
  const file = `/proc/${pid}/stat`
  if (!fs.existsSync(file)) return Number.NaN
  const fields = fs.readFileSync(file, 'utf8').split(') ').at(-1)?.split(' ') ?? []
  return (Number(fields[11]) + Number(fields[12])) * 10
}

async function turn(asked: Asked): Promise<void> {
  const endMs = performance.now() + sliceMs
  const before = processorMsOf(asked.pid)
  const keepOn = async () => {
    do asked.timesMs.push((await ask(asked)).ms)
    while (performance.now() < endMs)
  }
  await Promise.all(Array.from({ length: asked.connectionCount }, keepOn))
  asked.processorMs += processorMsOf(asked.pid) - before
}

/** Everything once round after the other, half a second each: whatever else the machine does meets all of them alike. */
export async function takeTurns(all: readonly Asked[], roundCount: number): Promise<void> {
  for (const asked of all) {
    // Ten at once meet a server that one after the other has warmed already.
    const count = asked.connectionCount === 1 ? warmUpCount : 1
    for (let sent = 0; sent < count; sent += 1) asked.bytes = (await ask(asked)).bytes
  }
  for (let round = 0; round < roundCount; round += 1) {
    for (const asked of all) await turn(asked)
  }
}

export const at = (timesMs: readonly number[], fraction: number): number =>
  [...timesMs].sort((a, b) => a - b)[Math.floor(fraction * timesMs.length)] ?? Number.NaN
