import 'server-only'
import type { CustomerChange, CustomerPress, NewCustomer } from '@/lib/records/customer/schema'
import { db, type Tx } from '@/lib/server/db'
import { changedMeanwhile, Refused } from '@/lib/server/errors'
import { recordChange } from '@/lib/server/history'
import type { Actor } from '@/lib/server/session'

export async function addCustomer(input: NewCustomer, actor: Actor): Promise<{ id: number }> {
  return db.$transaction(async (tx) => {
    const { contacts, ...customer } = input
    const { id } = await tx.customer.create({
      data: { ...customer, contacts: { create: contacts } },
      select: { id: true },
    })
    await recordChange(tx, { by: actor, action: 'added', entity: 'Customer', entityId: id, after: input })
    return { id }
  })
}

/** Saves the customer and the whole list of its contacts as it stood in the form. */
export async function changeCustomer(input: CustomerChange, actor: Actor) {
  return db.$transaction(async (tx) => {
    const { id, version, contacts, ...customer } = input
    const before = await tx.customer.findUnique({
      where: { id },
      select: {
        name: true,
        addressText: true,
        notesText: true,
        contacts: {
          select: { name: true, roleText: true, email: true, phone: true },
          orderBy: { id: 'asc' },
        },
      },
    })
    if (!before) throw new Refused('not-found', 'There is no such customer.')
    const { count } = await tx.customer.updateMany({
      where: { id, version },
      data: { ...customer, version: { increment: 1 } },
    })
    if (count !== 1) throw changedMeanwhile('customer')
    await tx.contact.deleteMany({ where: { customerId: id } })
    await tx.contact.createMany({ data: contacts.map((contact) => ({ ...contact, customerId: id })) })
    await recordChange(tx, {
      by: actor,
      action: 'changed',
      entity: 'Customer',
      entityId: id,
      before,
      after: { ...customer, contacts },
    })
    return { id, version: version + 1 }
  })
}

/** Puts a customer away: out of lists and choices, with everything it has kept. */
export async function archiveCustomer(input: CustomerPress, actor: Actor) {
  return db.$transaction((tx) => setArchived(tx, input, actor, new Date()))
}

export async function restoreCustomer(input: CustomerPress, actor: Actor) {
  return db.$transaction((tx) => setArchived(tx, input, actor, null))
}

async function setArchived(tx: Tx, input: CustomerPress, actor: Actor, archivedAt: Date | null) {
  const { count } = await tx.customer.updateMany({
    where: { id: input.id, version: input.version },
    data: { archivedAt, version: { increment: 1 } },
  })
  if (count !== 1) throw changedMeanwhile('customer')
  await recordChange(tx, {
    by: actor,
    action: archivedAt === null ? 'brought back' : 'put away',
    entity: 'Customer',
    entityId: input.id,
  })
  return { id: input.id, version: input.version + 1 }
}
