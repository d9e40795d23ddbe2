const FORWARDED = ['forwarded', 'x-forwarded-host', 'x-forwarded-proto', 'x-forwarded-port', 'x-real-ip']

/**
 * Leaves one word for who asks in a request's headers: the address of the connection, or, behind `trustedProxies`
 * proxies of the shop's own, what the outermost of them saw. Each proxy adds one address at the end of the list;
 * whatever stands before the last `trustedProxies` was typed by the asker. Without proxies nothing forwarded is believed.
 * @param {import('node:http').IncomingHttpHeaders} headers changed in place
 * @param {string | undefined} connection the address of the other end of the connection
 * @param {number} trustedProxies
 */
export function settleForwarded(headers, connection, trustedProxies) {
  const listed = [headers['x-forwarded-for'] ?? []].flat().join(',').split(',')
  const seen = [...listed.map((address) => address.trim()).filter(Boolean), connection ?? 'unknown']
  headers['x-forwarded-for'] = seen.at(-1 - trustedProxies) ?? seen[0]
  if (trustedProxies > 0) return
  for (const name of FORWARDED) delete headers[name]
}

/** @param {string | undefined} typed the setting BENDWRIGHT_TRUSTED_PROXIES */
export function proxyCount(typed) {
  if (typed === undefined || typed === '') return 0
  if (!/^\d$/.test(typed)) {
    throw new Error(
      `BENDWRIGHT_TRUSTED_PROXIES is "${typed}"; it is how many proxies stand in front, 0 to 9.`,
    )
  }
  return Number(typed)
}
