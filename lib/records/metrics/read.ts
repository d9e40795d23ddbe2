import 'server-only'
import { createHash, timingSafeEqual } from 'node:crypto'
import { readBackups } from '@/lib/records/backup/read'
import { poolState } from '@/lib/server/db'
import { env } from '@/lib/server/env'
import { type Gauge, metricsText } from '@/lib/server/metrics'
import { readiness } from '@/lib/server/readiness'

const digest = (text: string) => createHash('sha256').update(text).digest()

/** Whether this is the header that BENDWRIGHT_METRICS_TOKEN asks for; without the setting nothing is. */
export function mayReadMetrics(authorization: string | null): boolean {
  const token = env().BENDWRIGHT_METRICS_TOKEN
  const fits = timingSafeEqual(digest(authorization ?? ''), digest(`Bearer ${token ?? ''}`))
  return token !== undefined && fits
}

/** How this instance does, for a program that watches it. */
export async function readMetrics(): Promise<string> {
  const [state, backups] = await Promise.all([readiness(), readBackups()])
  const { totalCount, idleCount, waitingCount } = poolState()
  const memory = process.memoryUsage()
  const success = backups?.note.success
  const gauges: Gauge[] = [
    {
      name: 'bendwright_ready',
      help: '1 when the database answers and has every migration.',
      value: state.ready ? 1 : 0,
    },
    {
      name: 'bendwright_db_connections',
      help: 'Connections to the database that this instance has open.',
      value: totalCount,
    },
    { name: 'bendwright_db_connections_idle', help: 'Of those, the ones nobody uses.', value: idleCount },
    { name: 'bendwright_db_waiting', help: 'Requests that wait for a connection.', value: waitingCount },
    { name: 'process_resident_memory_bytes', help: 'Memory of this process.', value: memory.rss },
    { name: 'process_heap_bytes', help: 'Of that, what the program itself uses.', value: memory.heapUsed },
    {
      name: 'process_uptime_seconds',
      help: 'Since this process started.',
      value: Math.round(process.uptime()),
    },
    {
      name: 'process_cpu_seconds_total',
      help: 'Processor time used.',
      kind: 'counter',
      value: (process.cpuUsage().user + process.cpuUsage().system) / 1e6,
    },
  ]
  if (backups) {
    gauges.push(
      {
        name: 'bendwright_backup_last_success_seconds',
        help: 'When the last good backup was taken, Unix time; 0: never.',
        value: success ? Math.round(Date.parse(success.at) / 1000) : 0,
      },
      {
        name: 'bendwright_backup_last_bytes',
        help: 'Size of the last good backup.',
        value: success?.byteCount ?? 0,
      },
      {
        name: 'bendwright_backup_failed',
        help: '1 when the last try failed.',
        value: backups.note.failure ? 1 : 0,
      },
    )
  }
  return metricsText(gauges)
}
