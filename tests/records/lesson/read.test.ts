import { expect, it } from 'vitest'
import { readLessons } from '@/lib/records/lesson/read'
import { db } from '@/lib/server/db'
import { freshDatabase } from '@/tests/support/database'

const addLessons = (from: number, to: number) =>
  db.$executeRaw`
    insert into "Lesson" (kind, "materialId", "sectionText", method, value)
    select 'springbackFactor', '6061-T6', 'round 25x25x2', 'sand', number from generate_series(${from}::int, ${to}::int) number`

it('shows every lesson, and from 20 000 on the newest, which wait for a decision, and says so', async () => {
  await freshDatabase()
  await addLessons(1, 20_000)
  const all = await readLessons()
  expect([all.lessons.length, all.lessons[0]?.value, all.hasOlder]).toEqual([20_000, 1, false])
  await addLessons(20_001, 20_001)
  const newest = await readLessons()
  expect([newest.lessons.length, newest.hasOlder]).toEqual([20_000, true])
  expect([newest.lessons[0]?.value, newest.lessons.at(-1)?.value]).toEqual([2, 20_001])
})
