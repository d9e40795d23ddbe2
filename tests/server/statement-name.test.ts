import { describe, expect, it } from 'vitest'
import { db } from '@/lib/server/db'
import { statementName } from '@/lib/server/statement-name'
import { freshDatabase } from '../support/database'

describe('the name of a query', () => {
  it('is the same for the same text and another for another', () => {
    const name = statementName({ sql: 'select 1' })
    expect(name).toMatch(/^[0-9a-f]{32}$/)
    expect(statementName({ sql: 'select 1' })).toBe(name)
    expect(statementName({ sql: 'select 2' })).not.toBe(name)
  })

  it('is left out once five hundred texts have one, so that a connection does not fill up', () => {
    for (let length = 1; length <= 600; length++) statementName({ sql: `select ${'1, '.repeat(length)} 1` })
    expect(statementName({ sql: 'select something new' })).toBe('')
    expect(statementName({ sql: 'select 1' })).not.toBe('')
  })
})

describe('a query with a name', () => {
  it('answers from the tables as they are, also after they were made again', async () => {
    await freshDatabase()
    await db.customer.create({ data: { name: 'Gull Point Ferries' } })
    const names = () => db.customer.findMany({ select: { name: true }, orderBy: { name: 'asc' } })
    for (let turn = 0; turn < 8; turn++) expect(await names()).toEqual([{ name: 'Gull Point Ferries' }])
    await db.$executeRawUnsafe('alter table "Customer" add column "spare" text')
    await db.$executeRawUnsafe('alter table "Customer" drop column "spare"')
    await db.$executeRawUnsafe(`update "Customer" set name = 'Skerry Works'`)
    expect(await names()).toEqual([{ name: 'Skerry Works' }])
  })
})
