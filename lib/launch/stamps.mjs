import crypto from 'node:crypto'
import fs from 'node:fs'
import path from 'node:path'
import { ROOT } from './root.mjs'

/**
 * One fingerprint of the contents of all these files and folders; what does not exist counts as absent.
 * @param {readonly string[]} entries
 * @param {{ except?: readonly string[] }} options
 */
export function fingerprint(entries, { except = [] } = {}) {
  const hash = crypto.createHash('sha256').update(process.versions.node)
  const add = (entry) => {
    if (except.includes(entry)) return
    const file = path.join(ROOT, entry)
    const stat = fs.statSync(file, { throwIfNoEntry: false })
    if (stat === undefined) return
    if (stat.isDirectory()) for (const name of fs.readdirSync(file).sort()) add(`${entry}/${name}`)
    else hash.update(`\0${entry}\0`).update(fs.readFileSync(file))
  }
  for (const entry of entries) add(entry)
  return hash.digest('hex')
}

/**
 * Does `work` unless the stamp beside its result says it was done for this very input. The stamp is taken away first,
 * so that a run cut short is done again. Returns whether there was anything to do.
 */
export async function unlessStamped({ stampFile, input, resultFile }, work) {
  const stamp = path.join(ROOT, stampFile)
  const found = fs.existsSync(stamp) ? fs.readFileSync(stamp, 'utf8') : ''
  if (found === input && fs.existsSync(path.join(ROOT, resultFile))) return false
  fs.rmSync(stamp, { force: true })
  await work()
  fs.mkdirSync(path.dirname(stamp), { recursive: true })
  fs.writeFileSync(stamp, input)
  return true
}
