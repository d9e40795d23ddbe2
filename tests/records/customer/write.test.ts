import { beforeEach, describe, expect, it } from 'vitest'
import { readCustomer, readCustomers } from '@/lib/records/customer/read'
import { newCustomerForm } from '@/lib/records/customer/schema'
import { addCustomer, archiveCustomer, changeCustomer, restoreCustomer } from '@/lib/records/customer/write'
import { db } from '@/lib/server/db'
import type { Actor } from '@/lib/server/session'
import { actorWithRole } from '../../support/actor'
import { freshDatabase } from '../../support/database'
import { refuseHistory } from '../../support/half-way'

const typed = {
  name: ' Kestrel Harbour Works ',
  addressText: '4 Slipway Road\nPort Ansel',
  notesText: '',
  contacts: [
    { name: 'Ida Brandt', roleText: 'Yard manager', email: 'ida@kestrel.example', phone: '555 0134' },
  ],
}
const kestrel = newCustomerForm.parse(typed)
let actor: Actor

beforeEach(async () => {
  await freshDatabase()
  actor = await actorWithRole('office')
})

describe('a customer as typed', () => {
  it('needs a name, and of an e-mail address that it looks like one', () => {
    const refused = newCustomerForm.safeParse({
      ...typed,
      name: '  ',
      contacts: [{ name: '', roleText: '', email: 'ida', phone: '' }],
    })
    expect(refused.error?.issues.map(({ path }) => path.join('.'))).toEqual([
      'name',
      'contacts.0.name',
      'contacts.0.email',
    ])
    expect(kestrel.name).toBe('Kestrel Harbour Works')
  })
})

describe('keeping customers', () => {
  it('keeps the contacts as they stood in the form at the last save', async () => {
    const { id } = await addCustomer(kestrel, actor)
    const contacts = [{ name: 'Otto Lund', roleText: '', email: '', phone: '' }]
    await changeCustomer({ ...kestrel, id, version: 0, contacts }, actor)
    expect(await readCustomer(id)).toMatchObject({ version: 1, contacts: [{ name: 'Otto Lund' }] })
  })

  it('refuses a save over one made meanwhile, and changes nothing', async () => {
    const { id } = await addCustomer(kestrel, actor)
    await changeCustomer({ ...kestrel, id, version: 0, name: 'Kestrel Works' }, actor)
    const late = changeCustomer({ ...kestrel, id, version: 0, name: 'Late', contacts: [] }, actor)
    await expect(late).rejects.toMatchObject({ code: 'changed-meanwhile' })
    expect(await readCustomer(id)).toMatchObject({
      name: 'Kestrel Works',
      contacts: [{ name: 'Ida Brandt' }],
    })
  })

  it('leaves name and contacts as they were when a save fails half-way', async () => {
    const { id } = await addCustomer(kestrel, actor)
    await refuseHistory()
    await expect(
      changeCustomer({ ...kestrel, id, version: 0, name: 'Else', contacts: [] }, actor),
    ).rejects.toThrow()
    expect(await readCustomer(id)).toMatchObject({
      name: 'Kestrel Harbour Works',
      contacts: [{}],
      version: 0,
    })
  })

  it('puts a customer away and brings it back', async () => {
    const { id } = await addCustomer(kestrel, actor)
    const away = await archiveCustomer({ id, version: 0 }, actor)
    const listed = async (archived: boolean) =>
      (await readCustomers({ search: '', page: 1, archived })).customers.map((customer) => customer.id)
    expect([await listed(false), await listed(true)]).toEqual([[], [id]])
    await restoreCustomer(away, actor)
    expect([await listed(false), await listed(true)]).toEqual([[id], []])
  })

  it('finds customers by name, place, contact or e-mail, and takes marks of the search as themselves', async () => {
    await addCustomer(kestrel, actor)
    const found = async (search: string) =>
      (await readCustomers({ search, page: 1, archived: false })).customers.length
    const counts = await Promise.all(['HARBOUR', 'port ansel', 'brandt', '@kestrel', '%', '_'].map(found))
    expect(counts).toEqual([1, 1, 1, 1, 0, 0])
  })

  it('shows fifty a page', async () => {
    await db.customer.createMany({
      data: Array.from({ length: 51 }, (_, index) => ({ name: `Yard ${String(index).padStart(2, '0')}` })),
    })
    const page = await readCustomers({ search: '', page: 2, archived: false })
    expect(page.pageCount).toBe(2)
    expect(page.customers.map(({ name }) => name)).toEqual(['Yard 50'])
  })
})
