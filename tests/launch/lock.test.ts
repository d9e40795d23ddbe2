import { spawnSync } from 'node:child_process'
import fs from 'node:fs'
import path from 'node:path'
import { beforeEach, expect, it } from 'vitest'
import { takeLock } from '@/lib/launch/lock.mjs'
import { processIdentity } from '@/lib/launch/process-identity.mjs'
import { temporaryFolder } from '@/tests/support/temporary-folder'

let file: string
const whenTaken = ({ pid }: { pid: number }) => `taken by ${pid}`

beforeEach(() => {
  file = path.join(temporaryFolder(), 'folder', 'running.json')
})

const writeLock = (content: unknown) => {
  fs.mkdirSync(path.dirname(file), { recursive: true })
  fs.writeFileSync(file, typeof content === 'string' ? content : JSON.stringify(content))
}

it('a lock held by a process that runs is refused, and given back it is free', () => {
  const release = takeLock(file, { whenTaken })
  expect(() => takeLock(file, { whenTaken })).toThrow(`taken by ${process.pid}`)
  release()
  expect(fs.existsSync(file)).toBe(false)
  takeLock(file, { whenTaken })()
})

it('a lock left by a process that is gone is taken over', () => {
  const gone = spawnSync(process.execPath, ['-e', '']).pid
  writeLock({ pid: gone, identity: `${gone} earlier` })
  takeLock(file, { whenTaken })()
})

it('a lock whose process number now belongs to another process is taken over', () => {
  writeLock({ pid: process.pid, identity: `${process.pid} of another boot` })
  takeLock(file, { whenTaken })()
})

it('a lock half written by a killed process is taken over', () => {
  writeLock('{"pid": 12')
  takeLock(file, { whenTaken })()
})

it('a process keeps its identity, and no process has none', () => {
  expect(processIdentity(process.pid)).toBe(processIdentity(process.pid))
  expect(processIdentity(process.pid)).not.toBe(processIdentity(process.ppid))
  expect(processIdentity(spawnSync(process.execPath, ['-e', '']).pid)).toBeNull()
})
