import crypto from 'node:crypto'
import fs from 'node:fs'
import path from 'node:path'
import { takeLock } from './lock.mjs'
import { fromRoot } from './root.mjs'
import { Stop } from './steps.mjs'

/** BENDWRIGHT_DATA, or .data in the clone. Made if it is not there. */
export function openDataFolder(chosen = process.env.BENDWRIGHT_DATA) {
  const absolute = chosen ? path.resolve(chosen) : fromRoot('.data')
  try {
    fs.mkdirSync(absolute, { recursive: true })
    fs.accessSync(absolute, fs.constants.W_OK)
  } catch (error) {
    throw new Stop(
      `The data folder ${absolute} can't be used: ${error.message}. Set BENDWRIGHT_DATA to one that can.`,
    )
  }
  return absolute
}

export function lockDataFolder(folder) {
  return takeLock(path.join(folder, 'running.json'), {
    whenTaken: ({ pid }) =>
      `Bendwright is already running on this data (process ${pid}, data in ${folder}). ` +
      'Stop it first, or set BENDWRIGHT_DATA to another folder for a second shop.',
  })
}

/** Whoever can read the data folder may set the shop up: the key is made once and shown while there is no account. */
export function setupKey(folder) {
  const file = path.join(folder, 'setup.key')
  if (!fs.existsSync(file))
    fs.writeFileSync(file, crypto.randomBytes(24).toString('base64url'), { mode: 0o600 })
  return fs.readFileSync(file, 'utf8').trim()
}
