import 'server-only'
import { literalSearch } from '@/lib/records/fields'
import { db, type Prisma } from '@/lib/server/db'

export const customersPerPage = 50

/** Customers by name, a page at a time; the search looks at names, contacts and addresses. */
export async function readCustomers(ask: { search: string; page: number; archived: boolean }) {
  const search = literalSearch(ask.search)
  const where: Prisma.CustomerWhereInput = {
    archivedAt: ask.archived ? { not: null } : null,
    ...(search !== '' && {
      OR: [
        { name: { contains: search, mode: 'insensitive' } },
        { addressText: { contains: search, mode: 'insensitive' } },
        { contacts: { some: { name: { contains: search, mode: 'insensitive' } } } },
        { contacts: { some: { email: { contains: search, mode: 'insensitive' } } } },
      ],
    }),
  }
  const [count, customers] = await Promise.all([
    db.customer.count({ where }),
    db.customer.findMany({
      where,
      orderBy: [{ name: 'asc' }, { id: 'asc' }],
      skip: (ask.page - 1) * customersPerPage,
      take: customersPerPage,
      select: {
        id: true,
        name: true,
        contacts: { select: { name: true, phone: true }, orderBy: { id: 'asc' }, take: 1 },
      },
    }),
  ])
  const counts = await countRecords(customers.map(({ id }) => id))
  return {
    customers: customers.map((customer) => ({ ...customer, counts: counts.get(customer.id) ?? none })),
    pageCount: Math.max(1, Math.ceil(count / customersPerPage)),
  }
}

type Counts = { parts: number; quotes: number; jobs: number }
const none: Counts = { parts: 0, quotes: 0, jobs: 0 }

/** How much there is of each customer. Counted one by one by its index: through relations each whole table would be. */
async function countRecords(ids: readonly number[]): Promise<Map<number, Counts>> {
  const rows = await db.$queryRaw<(Counts & { id: number })[]>`
    select asked.id,
      (select count(*)::int from "Part" where "customerId" = asked.id) as parts,
      (select count(*)::int from "Quote" where "customerId" = asked.id) as quotes,
      (select count(*)::int from "Job" where "customerId" = asked.id) as jobs
    from unnest(${[...ids]}::int[]) asked (id)`
  return new Map(rows.map(({ id, ...counts }) => [id, counts]))
}

export async function readCustomer(id: number) {
  return db.customer.findUnique({
    where: { id },
    select: {
      id: true,
      name: true,
      addressText: true,
      notesText: true,
      archivedAt: true,
      version: true,
      contacts: {
        select: { id: true, name: true, roleText: true, email: true, phone: true },
        orderBy: { id: 'asc' },
      },
    },
  })
}

const newestPerList = 20

/** The customer's latest parts, quotes and jobs, with how many there are of each. */
export async function readCustomerRecords(id: number) {
  const newest = { where: { customerId: id }, orderBy: { id: 'desc' }, take: newestPerList } as const
  const [counts, parts, quotes, jobs] = await Promise.all([
    countRecords([id]),
    db.part.findMany({
      ...newest,
      select: {
        id: true,
        number: true,
        name: true,
        customerRef: true,
        archivedAt: true,
        revisions: { select: { letter: true }, orderBy: { id: 'desc' }, take: 1 },
      },
    }),
    db.quote.findMany({
      ...newest,
      select: { id: true, number: true, status: true, validUntil: true, createdAt: true },
    }),
    db.job.findMany({
      ...newest,
      select: { id: true, number: true, status: true, quantity: true, dueOn: true },
    }),
  ])
  return { counts: counts.get(id) ?? none, parts, quotes, jobs }
}

/** For a select: everybody not put away, and the one chosen before even if they are. */
export async function readCustomerChoices(chosenId?: number) {
  return db.customer.findMany({
    where: chosenId === undefined ? { archivedAt: null } : { OR: [{ archivedAt: null }, { id: chosenId }] },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
    select: { id: true, name: true },
  })
}
