import fs from 'node:fs'
import { answerSpec } from '@/lib/records/spec/schema'

function fail(lines: readonly string[]): never {
  process.stderr.write(`${lines.join('\n')}\n`)
  process.exit(2)
}

function readQuestion(file: string | undefined): string {
  if (file === undefined) return fail(['spec: name a file, or - for standard input'])
  try {
    return fs.readFileSync(file === '-' ? 0 : file, 'utf8')
  } catch (cause) {
    const why =
      cause instanceof Error && 'code' in cause && cause.code === 'ENOENT'
        ? 'there is no such file'
        : 'cannot be read'
    return fail([`spec: ${file}: ${why}`])
  }
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch (cause) {
    return fail([`spec: not JSON: ${cause instanceof Error ? cause.message : 'cannot be parsed'}`])
  }
}

const answered = answerSpec(parseJson(readQuestion(process.argv[2])))
if (!answered.ok)
  fail(answered.faults.map(({ path, met, allowed }) => `${path}: ${met}; allowed: ${allowed}`))
process.stdout.write(`${JSON.stringify(answered.answer, null, 2)}\n`)
