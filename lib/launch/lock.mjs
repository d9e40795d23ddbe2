import fs from 'node:fs'
import path from 'node:path'
import { processIdentity } from './process-identity.mjs'
import { Stop } from './steps.mjs'

/**
 * One process at a time: writes this process's identity into `file`. A lock left by a process that is gone, or whose
 * number now belongs to another, is taken over. Returns what gives the lock back.
 */
export function takeLock(file, { whenTaken, details = {} }) {
  fs.mkdirSync(path.dirname(file), { recursive: true })
  const mine = JSON.stringify({ pid: process.pid, identity: processIdentity(process.pid), ...details })
  for (let attempt = 0; attempt < 3; attempt += 1) {
    try {
      fs.writeFileSync(file, mine, { flag: 'wx' })
      return () => {
        if (readLock(file)?.pid === process.pid) fs.rmSync(file, { force: true })
      }
    } catch (error) {
      if (error.code !== 'EEXIST') throw error
    }
    const holder = readLock(file)
    if (holder !== null && holder.identity !== null && holder.identity === processIdentity(holder.pid)) {
      throw new Stop(whenTaken(holder))
    }
    fs.rmSync(file, { force: true })
  }
  throw new Stop(`The lock ${file} is being taken by somebody else at the same moment. Try again.`)
}

function readLock(file) {
  try {
    return JSON.parse(fs.readFileSync(file, 'utf8'))
  } catch {
    return null // half written by a process that was killed, or just removed
  }
}
