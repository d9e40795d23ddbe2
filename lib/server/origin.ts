/**
 * Whether a request that changes something comes from one of our own pages. A browser names the page's origin with every
 * POST and says how the two sites stand to one another; a page elsewhere can forge neither. A request that names no origin
 * is refused too: nothing but our pages has to post here.
 * Source: Fetch Standard, "Origin" header; W3C Fetch Metadata Request Headers, Sec-Fetch-Site.
 */
export function isFromOwnPage(headers: { get(name: string): string | null }): boolean {
  const site = headers.get('sec-fetch-site')
  if (site !== null && site !== 'same-origin') return false
  const origin = headers.get('origin')
  const host = headers.get('x-forwarded-host') ?? headers.get('host')
  return (
    origin !== null && URL.canParse(origin) && host !== null && new URL(origin).host === host.toLowerCase()
  )
}
