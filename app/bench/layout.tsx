import type { ReactNode } from 'react'
import ShopLayout from '@/app/_shop/layout'
import { currentActor } from '@/lib/server/session'
import { BenchQueue } from './bench-queue'
import './bench.css'

/** The shop's frame, with the queue of this device around every bench screen. */
export default async function BenchLayout({ children }: { children: ReactNode }) {
  const actor = await currentActor()
  return (
    <ShopLayout>{actor ? <BenchQueue userId={actor.userId}>{children}</BenchQueue> : children}</ShopLayout>
  )
}
