import { beforeEach, describe, expect, it, vi } from 'vitest'
import { addCustomerAction, changeCustomerAction } from '@/app/customers/actions'
import { linkAction } from '@/app/people/actions'
import { staleDifferences } from '@/lib/records/audit/rules'
import { db } from '@/lib/server/db'
import { hashToken, newToken, sessionCookie } from '@/lib/server/session'
import { atMostOnce, claimSubmitKey, submitKeyOf } from '@/lib/server/submit-key'
import { actorWithRole } from '@/tests/support/actor'
import { cookies, forgetBrowser } from '@/tests/support/browser-request'
import { freshDatabase } from '@/tests/support/database'

vi.mock('next/headers', () => import('@/tests/support/browser-request'))
vi.mock('next/cache', () => ({ revalidatePath: () => {} }))

const typed = { name: 'Kestrel Harbour Works', addressText: '', notesText: '', contacts: [] }
/** New for every test: what was answered is remembered for as long as the process lives. */
let submitKey = newToken()

async function signInAs(name: string): Promise<number> {
  const { userId } = await actorWithRole('office', name)
  const token = newToken()
  const expiresAt = new Date(Date.now() + 3_600_000)
  await db.session.create({ data: { tokenHash: hashToken(token), userId, expiresAt } })
  ;(await cookies()).set(sessionCookie, token)
  return userId
}

beforeEach(async () => {
  await freshDatabase()
  forgetBrowser()
  submitKey = newToken()
  await db.shop.create({ data: { name: 'Tidewrack Fabrication' } })
})

describe('a form sent twice', () => {
  it('does one thing, and both are answered alike', async () => {
    await signInAs('Sela')
    const answers = await Promise.all([
      addCustomerAction({ ...typed, submitKey }),
      addCustomerAction({ ...typed, submitKey }),
    ])
    expect(answers[0]).toMatchObject({ ok: true })
    expect(answers[1]).toEqual(answers[0])
    expect(await addCustomerAction({ ...typed, submitKey })).toEqual(answers[0])
    expect(await db.customer.count()).toBe(1)
    expect(await db.auditEntry.count({ where: { entity: 'Customer' } })).toBe(1)
  })

  it('is another form where something else was typed, or somebody else sends it', async () => {
    await signInAs('Sela')
    await addCustomerAction({ ...typed, submitKey })
    await addCustomerAction({ ...typed, name: 'Other', submitKey })
    await signInAs('Idris')
    await addCustomerAction({ ...typed, submitKey })
    expect(await db.customer.count()).toBe(3)
  })

  it('is known again by a process that never saw the first sending', async () => {
    const userId = await signInAs('Sela')
    const key = submitKeyOf({ ...typed, submitKey }, userId)?.key ?? ''
    await db.submitKey.create({ data: { key, userId, answer: { id: 7 } } })
    expect(await addCustomerAction({ ...typed, submitKey })).toEqual({ ok: true, value: { id: 7 } })
    expect(await db.customer.count()).toBe(0)
  })

  it('writes nothing where two processes meet half-way', async () => {
    const actor = await actorWithRole('office')
    const run = atMostOnce('f'.repeat(64), actor.userId, () =>
      db.$transaction(async (tx) => {
        await tx.customer.create({ data: { name: 'Twice' } })
        // The other process commits between this one's look and its claim.
        await db.submitKey.create({ data: { key: 'f'.repeat(64), userId: actor.userId, answer: { id: 3 } } })
        await claimSubmitKey(tx)
        return { id: 99 }
      }),
    )
    expect(await run).toEqual({ id: 3 })
    expect(await db.customer.count()).toBe(0)
  })

  it('can be put right after a refusal and sent with the same key', async () => {
    await signInAs('Sela')
    expect(await addCustomerAction({ ...typed, name: '', submitKey })).toMatchObject({ code: 'bad-input' })
    expect(await addCustomerAction({ ...typed, submitKey })).toMatchObject({ ok: true })
    expect(await db.customer.count()).toBe(1)
  })
})

describe('a button pressed twice', () => {
  it('makes one link, one line in the history, and tells both presses the same', async () => {
    const userId = await signInAs('Sela')
    await db.user.update({ where: { id: userId }, data: { role: 'owner' } })
    const press = { id: String(userId), submitKey }
    const [first, second] = await Promise.all([linkAction(press), linkAction(press)])
    expect(first).toMatchObject({ ok: true })
    expect(second).toEqual(first)
    expect(await db.oneTimeLink.count()).toBe(1)
    expect(await db.auditEntry.count()).toBe(1)
    await linkAction({ ...press, submitKey: newToken() })
    expect(await db.auditEntry.count()).toBe(2)
  })
})

describe('two people on one record', () => {
  it('tells the second who changed what, and takes the next save from the version there is', async () => {
    const mara = await signInAs('Mara')
    const added = await addCustomerAction(typed)
    if (!added.ok) throw new Error(added.message)
    const { id } = added.value
    const opened = { ...typed, id, version: 0 }
    expect(mara).toBeGreaterThan(0)
    await changeCustomerAction({ ...opened, name: 'Kestrel Works' })
    await changeCustomerAction({ ...opened, version: 1, name: 'Kestrel Boatyard' })
    await signInAs('Idris')
    const mine = { ...opened, name: 'Kestrel Harbor' }
    const refused = await changeCustomerAction(mine)
    if (refused.ok || !refused.meanwhile) throw new Error('not refused')
    expect(refused.code).toBe('changed-meanwhile')
    expect(refused.meanwhile).toMatchObject({ field: 'version', value: 2 })
    expect(refused.meanwhile.saves.map(({ by }) => by)).toEqual(['Mara', 'Mara'])
    expect(staleDifferences(refused.meanwhile.saves, mine)).toEqual([
      { name: 'name', before: 'Kestrel Harbour Works', after: 'Kestrel Boatyard', yours: 'Kestrel Harbor' },
    ])
    expect((await db.customer.findUniqueOrThrow({ where: { id } })).name).toBe('Kestrel Boatyard')
    expect(await changeCustomerAction({ ...mine, version: refused.meanwhile.value })).toMatchObject({
      ok: true,
    })
    expect((await db.customer.findUniqueOrThrow({ where: { id } })).name).toBe('Kestrel Harbor')
  })
})
