import { beforeEach, describe, expect, it } from 'vitest'
import { addPart } from '@/lib/records/part/write'
import { db } from '@/lib/server/db'
import { nextNumber } from '@/lib/server/numbering'
import { actorWithRole } from '@/tests/support/actor'
import { freshDatabase } from '@/tests/support/database'
import { parsedArm } from '../records/part/typed-part'

beforeEach(async () => void (await freshDatabase()))

const numbered = (from: number, to: number) =>
  Array.from({ length: to - from + 1 }, (_, at) => `J-${String(from + at).padStart(4, '0')}`)

describe('Numbers that people say', () => {
  it('are given once each and without a gap to many who ask at once', async () => {
    const drawn = await Promise.all(
      Array.from({ length: 60 }, () => db.$transaction((tx) => nextNumber(tx, 'job'))),
    )
    expect(drawn.sort()).toEqual(numbered(1, 60))
  })

  it('are not used up by what came to nothing, even in between', async () => {
    const drawn = await Promise.allSettled(
      Array.from({ length: 40 }, (_, at) =>
        db.$transaction(async (tx) => {
          const number = await nextNumber(tx, 'job')
          if (at % 3 === 0) throw new Error('refused after all')
          return number
        }),
      ),
    )
    const given = drawn.flatMap((one) => (one.status === 'fulfilled' ? [one.value] : []))
    expect(given.sort()).toEqual(numbered(1, 26))
  })

  it('stand on the records themselves, each once', async () => {
    const actor = await actorWithRole('office')
    const { id: customerId } = await db.customer.create({ data: { name: 'Kestrel Harbour Works' } })
    await Promise.all(Array.from({ length: 12 }, () => addPart(parsedArm(customerId), actor)))
    const parts = await db.part.findMany({ select: { number: true }, orderBy: { number: 'asc' } })
    expect(parts.map(({ number }) => number)).toEqual(
      numbered(1, 12).map((number) => number.replace('J', 'P')),
    )
  })

  it('are kept unique by the database, whoever writes them', async () => {
    const missing = await db.$queryRaw<{ name: string }[]>`
      select c.relname::text as name from pg_attribute a join pg_class c on c.oid = a.attrelid
      where a.attname = 'number' and c.relkind = 'r' and c.relnamespace = 'public'::regnamespace
        and format_type(a.atttypid, null) = 'text' and not exists (
          select 1 from pg_index i where i.indrelid = c.oid and i.indisunique and i.indkey[0] = a.attnum and i.indnatts = 1)`
    expect(missing).toEqual([])
  })
})
