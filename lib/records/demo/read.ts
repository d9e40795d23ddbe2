import 'server-only'
import { db } from '@/lib/server/db'

/** Whether the demo shop's records are here. */
export async function readDemoIsHere(): Promise<boolean> {
  const shop = await db.shop.findUnique({ where: { id: 1 }, select: { demoMark: true } })
  return shop?.demoMark != null
}
