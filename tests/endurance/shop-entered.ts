import { openJob } from '@/lib/records/job/write'
import { db } from '@/lib/server/db'
import { hashToken, newToken, sessionCookie } from '@/lib/server/session'
import { loadDemo } from '@/prisma/demo/load'
import { actorWithRole } from '../support/actor'
import type { Shop } from './shop-load'

/** The demo shop, somebody signed in, and a job with enough pieces for the bench. */
export async function enterShop(databaseUrl: string): Promise<Omit<Shop, 'url'>> {
  process.env.DATABASE_URL = databaseUrl
  await db.shop.create({ data: { name: 'Tidewrack Fabrication' } })
  const owner = await actorWithRole('owner')
  await loadDemo(owner)
  const token = newToken()
  await db.session.create({
    data: { tokenHash: hashToken(token), userId: owner.userId, expiresAt: new Date(Date.now() + 86_400_000) },
  })
  const setup = await db.setup.findFirstOrThrow({
    where: { revision: { bends: { some: { position: 1 } } } },
    select: {
      revisionId: true,
      revision: { select: { partId: true, part: { select: { customerId: true } } } },
    },
    orderBy: { id: 'asc' },
  })
  const { jobId } = await openJob(
    { revisionId: setup.revisionId, quantity: 3000, dueOn: new Date('2027-06-01'), way: '' },
    owner,
  )
  const pieces = await db.piece.findMany({ where: { jobId }, select: { scanCode: true } })
  await db.$disconnect()
  return {
    cookie: `${sessionCookie}=${token}`,
    customerId: setup.revision.part.customerId,
    partId: setup.revision.partId,
    scanCodes: pieces.map(({ scanCode }) => scanCode),
  }
}
