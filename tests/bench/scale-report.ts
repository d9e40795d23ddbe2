import type { Target } from './scale-targets'
import { type Asked, at } from './turns'

/** From the small to the large shop no median may grow by more. */
export const growthLimit = 1.2

export type Row = {
  name: string
  connections: number
  medianMs: number
  p95Ms: number
  /** Of the answering process alone; the database's is not counted. Null where the system does not tell. */
  processorMs: number | null
  bytes: number
  bareMedianMs: number | null
  bareProcessorMs: number | null
  bareBytes: number | null
  overBare: number | null
  smallMedianMs: number
  growth: number
  /** What is missed, by how much, and what was measured beside it. */
  missed: string[]
}

/** One row for a target at one number of connections: `asked` are the small and the large shop's app, and the bare server. */
export function rowOf(
  target: Target,
  connections: number,
  asked: { small: Asked; large: Asked; bare: Asked | null },
): Row {
  const { small, large, bare } = asked
  const medianMs = at(large.timesMs, 0.5)
  const bareMedianMs = bare && at(bare.timesMs, 0.5)
  const row = {
    name: target.name,
    connections,
    medianMs,
    p95Ms: at(large.timesMs, 0.95),
    processorMs: each(large),
    bytes: large.bytes,
    bareMedianMs,
    bareProcessorMs: bare && each(bare),
    bareBytes: bare && bare.bytes,
    overBare: bareMedianMs === null ? null : medianMs / bareMedianMs,
    smallMedianMs: at(small.timesMs, 0.5),
    growth: medianMs / at(small.timesMs, 0.5),
  }
  return { ...row, missed: missesOf(target, row) }
}

const each = ({ processorMs, timesMs }: Asked): number | null =>
  Number.isNaN(processorMs) ? null : processorMs / timesMs.length

function missesOf(target: Target, row: Omit<Row, 'missed'>): string[] {
  const missed: string[] = []
  if (target.overBare !== null && row.overBare !== null && row.overBare > target.overBare)
    missed.push(
      `${row.overBare.toFixed(1)}x the bare server where ${target.overBare}x is the aim, ${(row.overBare / target.overBare).toFixed(1)} times as much: ` +
        `${kB(row.bytes)} against ${kB(row.bareBytes ?? 0)}, ${ms(row.processorMs)} of processor against ${ms(row.bareProcessorMs)}`,
    )
  if (row.growth > growthLimit)
    missed.push(
      `grows ${row.growth.toFixed(2)}x where ${growthLimit}x is the aim: ${row.medianMs.toFixed(1)} ms, ${row.smallMedianMs.toFixed(1)} ms in the small shop`,
    )
  // A shop prints one paper at a time; ten at once are measured, not promised.
  if (target.mostMs !== undefined && row.connections === 1 && row.medianMs > target.mostMs)
    missed.push(`takes ${row.medianMs.toFixed(0)} ms where ${target.mostMs} ms is the aim`)
  return missed
}

const kB = (bytes: number) => `${(bytes / 1000).toFixed(0)} kB`
const ms = (value: number | null) => (value === null ? 'unknown' : `${value.toFixed(1)} ms`)

export function printRows(rows: readonly Row[]): void {
  const number = (value: number | null, digits = 1) => (value === null ? '' : Number(value.toFixed(digits)))
  console.table(
    Object.fromEntries(
      rows.map((row) => [
        `${row.name}, ${row.connections}`,
        {
          'median ms': number(row.medianMs),
          'p95 ms': number(row.p95Ms),
          'processor ms': number(row.processorMs),
          kB: number(row.bytes / 1000),
          'bare ms': number(row.bareMedianMs, 2),
          'over bare': row.overBare === null ? '' : `${row.overBare.toFixed(1)}x`,
          'small shop ms': number(row.smallMedianMs),
          growth: `${row.growth.toFixed(2)}x`,
          missed: row.missed.length > 0 ? 'missed' : '',
        },
      ]),
    ),
  )
  const missed = rows.filter((row) => row.missed.length > 0)
  console.log(
    missed.length === 0 ? 'Every aim is met.' : 'Missed, by how much, and what was measured beside it:',
  )
  for (const row of missed)
    for (const one of row.missed) console.log(`- ${row.name}, ${row.connections} at once: ${one}`)
}
