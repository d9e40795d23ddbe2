const startedMs = Date.now()

/** A reason to stop that the reader can act on: printed as it is, without a stack trace. */
export class Stop extends Error {}

export function say(text) {
  console.log(`${secondsSince(startedMs)}  ${text}`)
}

/** Runs one step and says how long it took. What `work` returns, unless it is nothing, is added to the line. */
export async function step(title, work) {
  const stepStartedMs = Date.now()
  say(`${title} ...`)
  try {
    return await work()
  } finally {
    say(`${title}: ${secondsSince(stepStartedMs).trim()}`)
  }
}

export const secondsSince = (ms) => `${((Date.now() - ms) / 1000).toFixed(1)} s`.padStart(8)

/** The last word of a command-line tool: a reason the reader can act on, or a bug with its stack. */
export function sayWhyStopped(error) {
  console.error(error instanceof Stop ? `\n${error.message}` : error)
}
