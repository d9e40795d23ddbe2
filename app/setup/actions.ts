'use server'

import { setUpForm } from '@/lib/records/shop/schema'
import { setUpShop } from '@/lib/records/shop/write'
import { log } from '@/lib/server/log'
import { postAction } from '@/lib/server/post-action'
import type { Actor } from '@/lib/server/session'

export const setUpAction = postAction('set up', setUpForm, async (input) => {
  const owner = await setUpShop(input)
  return input.begin === 'demo' ? enterDemo(owner) : '/'
})

/** The account stands by now: should the demo fail to load, the owner still gets in, and is told. */
async function enterDemo(owner: Actor): Promise<string> {
  try {
    const { loadDemo } = await import('@/prisma/demo/load')
    await loadDemo(owner)
    return '/'
  } catch (cause) {
    log.error('demo not loaded', cause)
    return '/shop?demo=failed'
  }
}
