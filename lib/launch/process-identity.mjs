import { spawnSync } from 'node:child_process'
import fs from 'node:fs'

/**
 * A process number alone proves nothing: after a reboot or in a new container it belongs to something else.
 * The moment a process started never repeats for one number, so number + start is its identity.
 * Returns null when there is no such process.
 */
export function processIdentity(pid) {
  if (!isAlive(pid)) return null
  if (process.platform === 'linux') {
    try {
      const stat = fs.readFileSync(`/proc/${pid}/stat`, 'utf8')
      // The second field is the program's name in brackets and may hold spaces; the start time is field 22.
      const fieldsAfterName = stat.slice(stat.lastIndexOf(')') + 2).split(' ')
      if (fieldsAfterName[0] === 'Z') return null
      const bootId = fs.readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim()
      return `${pid} ${bootId} ${fieldsAfterName[19]}`
    } catch {
      return null
    }
  }
  if (process.platform === 'win32') return `${pid} ${commandLine(pid)}`
  const ps = spawnSync('ps', ['-p', String(pid), '-o', 'lstart='], { encoding: 'utf8' })
  return ps.status === 0 ? `${pid} ${ps.stdout.trim()}` : null
}

/** What a process was called with, or null when there is no such process or it can't be seen. */
export function commandLine(pid) {
  if (process.platform === 'linux') {
    try {
      return fs.readFileSync(`/proc/${pid}/cmdline`, 'utf8').replaceAll('\0', ' ').trim() || null
    } catch {
      return null
    }
  }
  const [command, args] =
    process.platform === 'win32'
      ? ['tasklist', ['/FI', `PID eq ${pid}`, '/FO', 'CSV', '/NH']]
      : ['ps', ['-p', String(pid), '-o', 'command=']]
  const listed = spawnSync(command, args, { encoding: 'utf8' })
  return listed.status === 0 && listed.stdout.includes(process.platform === 'win32' ? `"${pid}"` : '')
    ? listed.stdout.trim() || null
    : null
}

export function isAlive(pid) {
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    return error.code === 'EPERM'
  }
}
