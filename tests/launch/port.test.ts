import net from 'node:net'
import { expect, it } from 'vitest'
import { freePort, nextFreePort } from '@/lib/launch/port.mjs'

const host = '127.0.0.1'

it('a free port is taken as wanted', async () => {
  const port = await freePort(host)
  expect(await nextFreePort(port, host)).toEqual({ port, fault: null })
})

it('a taken port gives a later one that is free, and the reason', async () => {
  const wanted = await freePort(host)
  const holder = net.createServer()
  await new Promise<void>((resolve) => holder.listen(wanted, host, resolve))
  const found = await nextFreePort(wanted, host)
  await new Promise((resolve) => holder.close(resolve))
  expect(found.fault).toBe('EADDRINUSE')
  expect(found.port).toBeGreaterThan(wanted)
})

it('an address this machine does not have gives no port', async () => {
  // 192.0.2.0/24 is set aside for documentation (RFC 5737): no machine has it
  expect(await nextFreePort(3000, '192.0.2.1')).toEqual({ port: null, fault: 'EADDRNOTAVAIL' })
})
