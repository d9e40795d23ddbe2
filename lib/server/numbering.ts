import 'server-only'
import type { Tx } from '@/lib/server/db'

const prefixes = { part: 'P', quote: 'Q', job: 'J', lot: 'L', fault: 'N', release: 'R' } as const

export type Series = keyof typeof prefixes

/** The next human number of a series, 'J-0042'. The row's lock keeps two transactions from drawing the same one. */
export async function nextNumber(tx: Tx, series: Series): Promise<string> {
  const rows = await tx.$queryRaw<{ drawn: number }[]>`
    insert into "NumberSeries" (name, next) values (${series}, 2)
    on conflict (name) do update set next = "NumberSeries".next + 1
    returning next - 1 as drawn`
  const drawn = rows[0]?.drawn ?? 1
  return `${prefixes[series]}-${String(drawn).padStart(4, '0')}`
}
