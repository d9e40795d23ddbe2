import { say } from './steps.mjs'

const undoings = []
let parting = null

/** What must be undone before this process ends, last first. Returns a function that takes it off the list again. */
export function beforeEnding(undo) {
  undoings.push(undo)
  return () => {
    const at = undoings.indexOf(undo)
    if (at !== -1) undoings.splice(at, 1)
  }
}

export const isEnding = () => parting !== null

/** Ends this process in order: whatever started last is stopped first. */
export function end(exitCode) {
  parting ??= (async () => {
    while (undoings.length > 0) {
      try {
        await undoings.pop()()
      } catch (error) {
        console.error(error)
      }
    }
    process.exit(exitCode)
  })()
  return parting
}

/** Ctrl-C, a polite kill, a closed terminal, or the death of the npm that started this. */
export function endOnSignals() {
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) {
    process.on(signal, () => {
      if (!isEnding()) say('stopping')
      void end(signal === 'SIGINT' || signal === 'SIGTERM' ? 0 : 1)
    })
  }
  // A closed pipe (npm start | head) is no reason to leave a database behind.
  for (const stream of [process.stdout, process.stderr]) stream.on('error', () => void end(1))
  // Killing npm reaches npm's shell but not this process; it shows in a new parent.
  const parent = process.ppid
  if (process.env.npm_lifecycle_event && process.platform !== 'win32') {
    setInterval(() => {
      if (process.ppid !== parent) void end(0)
    }, 500).unref()
  }
}
