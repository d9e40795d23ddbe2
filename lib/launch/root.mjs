import path from 'node:path'
import { fileURLToPath } from 'node:url'

/** The folder of this clone; every path in the launcher starts here, wherever it was called from. */
export const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '..', '..')

export const fromRoot = (...parts) => path.join(ROOT, ...parts)
