// Loaded into the app's process before anything else: no request reaches the app with a forged word for who asks.
import http from 'node:http'
import { proxyCount, settleForwarded } from './forwarded.mjs'

const trustedProxies = proxyCount(process.env.BENDWRIGHT_TRUSTED_PROXIES)
const emit = http.Server.prototype.emit

http.Server.prototype.emit = function settled(event, request, ...rest) {
  if (event === 'request' || event === 'upgrade') {
    settleForwarded(request.headers, request.socket.remoteAddress, trustedProxies)
  }
  return emit.call(this, event, request, ...rest)
}
