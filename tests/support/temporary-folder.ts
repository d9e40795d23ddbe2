import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { afterAll } from 'vitest'

const made: string[] = []

afterAll(() => {
  for (const folder of made.splice(0)) fs.rmSync(folder, { recursive: true, force: true })
})

/** A new empty folder, gone again when the tests of the file are over, however they ended. */
export function temporaryFolder(): string {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'bendwright-test-'))
  made.push(folder)
  return folder
}
