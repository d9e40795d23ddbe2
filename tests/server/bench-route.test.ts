import { beforeEach, describe, expect, it, vi } from 'vitest'
import { POST } from '@/app/api/bench/route'
import { db } from '@/lib/server/db'
import type { Role } from '@/lib/server/generated/prisma/enums'
import { hashToken, newToken, sessionCookie } from '@/lib/server/session'
import { benchPiece, typedTry } from '@/tests/records/bend-record/bench-piece'
import { browserSays, cookies, forgetBrowser } from '@/tests/support/browser-request'
import { freshDatabase } from '@/tests/support/database'

vi.mock('next/headers', () => import('@/tests/support/browser-request'))
vi.mock('next/cache', () => ({ revalidatePath: () => {} }))

beforeEach(async () => {
  await freshDatabase()
  forgetBrowser()
})

async function signIn(role: Role): Promise<void> {
  const user = await db.user.create({ data: { login: `route-${role}`, name: role, role } })
  const token = newToken()
  const expiresAt = new Date(Date.now() + 3_600_000)
  await db.session.create({ data: { tokenHash: hashToken(token), userId: user.id, expiresAt } })
  ;(await cookies()).set(sessionCookie, token)
}

async function post(body: unknown, origin = 'http://shop.test') {
  browserSays({ host: 'shop.test', origin })
  const text = typeof body === 'string' ? body : JSON.stringify(body)
  const request = new Request('http://shop.test/api/bench', { method: 'POST', body: text })
  const answer = await POST(request, {})
  return { status: answer.status, said: await answer.json() }
}

describe('The address the bench sends to', () => {
  it('answers 200 to every role, and the same again', async () => {
    const { piece } = await benchPiece()
    await signIn('bench')
    const first = await post(typedTry(piece.scanCode, 'by-the-route-00001'))
    expect(first).toMatchObject({ status: 200, said: { ok: true, value: { tried: { verdict: 'pass' } } } })
    expect(await post(typedTry(piece.scanCode, 'by-the-route-00001'))).toEqual(first)
    expect(await db.bendRecord.count()).toBe(1)
    for (const role of ['office', 'owner'] as const) {
      await signIn(role)
      expect(await post(typedTry(piece.scanCode, 'by-the-route-00001'))).toEqual(first)
    }
  })

  it('answers 401 to whoever is signed out and 403 to another site, and keeps nothing', async () => {
    const { piece } = await benchPiece()
    const entry = typedTry(piece.scanCode, 'by-the-route-00002')
    expect((await post(entry)).status).toBe(401)
    await signIn('bench')
    expect((await post(entry, 'https://elsewhere.example')).status).toBe(403)
    expect(await db.bendRecord.count()).toBe(0)
  })

  it('answers 400 to what is typed wrongly, with the field, and to what is no JSON', async () => {
    const { piece } = await benchPiece()
    await signIn('bench')
    const wrong = { ...typedTry(piece.scanCode, 'by-the-route-00003'), angleFinalDeg: '320' }
    expect(await post(wrong)).toMatchObject({
      status: 400,
      said: { ok: false, fields: { angleFinalDeg: expect.any(String) } },
    })
    expect((await post('not json')).status).toBe(400)
  })

  it('answers 404 where there is no such piece, 422 where the shop’s rules forbid it, 413 to what is too large', async () => {
    const { piece } = await benchPiece()
    await signIn('bench')
    expect((await post(typedTry('never-printed-0001', 'by-the-route-00004'))).status).toBe(404)
    await post(typedTry(piece.scanCode, 'by-the-route-00005'))
    expect(await post(typedTry(piece.scanCode, 'by-the-route-00006'))).toMatchObject({
      status: 422,
      said: { message: 'This bend has passed already.' },
    })
    const photo = { kind: 'photo', clientKey: 'by-the-route-00007', recordKey: 'by-the-route-00005' }
    expect((await post({ ...photo, name: 'bend.jpg', base64: 'A'.repeat(8_200_000) })).status).toBe(413)
    expect((await post({ ...photo, name: 'bend.jpg', base64: 'AAAA' })).status).toBe(415)
  })
})
