/** Failures are counted over this long. */
export const failureWindowMinutes = 15

/** From this many failures on, the next try has to wait. A shop sits behind one address, so an address may fail more often. */
export const freeFailures = { account: 5, address: 20 } as const

/** So many wrong PINs since the last password, and the PIN is no use until the password has been typed again. */
export const wrongPinsAllowed = 10

const firstWaitS = 30
const longestWaitS = failureWindowMinutes * 60

/**
 * How long after the last failure the next try is heard: nothing at first, then 30 s, doubled with each further
 * failure, up to a quarter of an hour.
 */
export function waitAfterFailuresS(failureCount: number, free: number): number {
  if (failureCount < free) return 0
  return Math.min(firstWaitS * 2 ** Math.min(failureCount - free, 10), longestWaitS)
}

/** '40 seconds', '4 minutes': rounded up, so that whoever waits that long is heard. */
export function waitInWords(waitS: number): string {
  if (waitS < 60) return waitS <= 1 ? '1 second' : `${Math.ceil(waitS)} seconds`
  const minutes = Math.ceil(waitS / 60)
  return minutes === 1 ? '1 minute' : `${minutes} minutes`
}

/** Where to go after signing in: a page of this site, whatever the address bar was made to say. */
export function ownSitePath(typed: string | undefined): string {
  if (!typed || !/^\/(?![/\\])[^\\\s\u0000-\u001f]*$/.test(typed)) return '/'
  const base = 'http://own.invalid'
  if (!URL.canParse(typed, base)) return '/'
  const url = new URL(typed, base)
  if (url.origin !== base || url.pathname.startsWith('//')) return '/'
  return /^\/(sign-in|setup|welcome)(\/|$)/.test(url.pathname) ? '/' : url.pathname + url.search + url.hash
}
