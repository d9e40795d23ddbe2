import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest'
import { linkMail, mailedLinkMinutes, mailedLinksAnHour } from '@/lib/records/person/rules'
import { personForm } from '@/lib/records/person/schema'
import {
  acceptLink,
  changePerson,
  deactivatePerson,
  invitePerson,
  linkPerson,
  mailForgotten,
  noteForgotten,
} from '@/lib/records/person/write'
import { db } from '@/lib/server/db'
import type { Actor } from '@/lib/server/session'
import { actorWithRole } from '@/tests/support/actor'
import { askFrom, forgetBrowser } from '@/tests/support/browser-request'
import { freshDatabase } from '@/tests/support/database'
import { refuseHistory } from '@/tests/support/half-way'
import { mailWords, startMailServer } from '@/tests/support/mail-server'

vi.mock('next/headers', () => import('@/tests/support/browser-request'))

const password = 'three words of a harbour'
const idris = { name: 'Idris Cole', login: 'idris', role: 'bench', email: 'idris@tidewrack.test' } as const
const address = /https:\/\/shop\.tidewrack\.test\/welcome\/[\w-]{43}/
let server: Awaited<ReturnType<typeof startMailServer>>
let owner: Actor

beforeAll(async () => {
  server = await startMailServer()
  // Settings are read once, on first use: before anything of these tests runs.
  vi.stubEnv('BENDWRIGHT_SMTP_URL', server.url)
  vi.stubEnv('BENDWRIGHT_SMTP_FROM', 'Tidewrack <office@tidewrack.test>')
  vi.stubEnv('BENDWRIGHT_URL', 'https://shop.tidewrack.test/')
})
afterAll(async () => {
  await server.stop()
  vi.unstubAllEnvs()
})

beforeEach(async () => {
  await freshDatabase()
  forgetBrowser()
  server.received.length = 0
  server.state.refusing = false
  owner = await actorWithRole('owner', 'Mara Quill')
  await db.shop.create({ data: { name: 'Tidewrack\r\nBcc: all@elsewhere.example' } })
})

const lastLink = () =>
  address
    .exec(mailWords(server.received.at(-1)))?.[0]
    ?.split('/')
    .at(-1) ?? ''
const accept = (token: string) => acceptLink({ token, password, passwordAgain: password })
const ask = async (who: string) => {
  await noteForgotten({ who })
  await mailForgotten({ who })
}

describe('An invitation to somebody with an e-mail address', () => {
  it('is mailed with the link, from the shop’s address and to nobody else', async () => {
    const { linkPath, mailed } = await invitePerson(idris, owner)
    expect(mailed).toBe('sent')
    expect(server.received.map(({ from, to }) => [from, to])).toEqual([
      ['office@tidewrack.test', [idris.email]],
    ])
    expect(mailWords(server.received[0])).toContain(linkPath)
    expect(mailWords(server.received[0])).toContain('sign-in name is idris')
    expect(await accept(lastLink())).toMatchObject({ name: 'Idris Cole' })
  })

  it('is handed to the owner too, and works, when the mail server takes nothing', async () => {
    const said = vi.spyOn(process.stderr, 'write').mockReturnValue(true)
    server.state.refusing = true
    const { linkPath, mailed } = await invitePerson(idris, owner)
    expect(mailed).toBe('failed')
    const token = linkPath.split('/').at(-1) ?? ''
    await vi.waitFor(() => expect(said.mock.calls.join()).toContain('mail not sent'))
    // The log is read by others than the person invited.
    expect(said.mock.calls.join()).not.toContain(token)
    expect(said.mock.calls.join()).not.toContain(idris.email)
    said.mockRestore()
    expect(await accept(token)).toMatchObject({ name: 'Idris Cole' })
  })

  it('is handed over where there is no address', async () => {
    expect((await invitePerson({ ...idris, email: null }, owner)).mailed).toBe('no-address')
    expect(server.received).toEqual([])
  })

  it('leaves neither an account nor a mail when it fails half-way', async () => {
    await refuseHistory()
    await expect(invitePerson(idris, owner)).rejects.toThrow()
    expect(await db.user.count({ where: { login: 'idris' } })).toBe(0)
    expect(server.received).toEqual([])
  })

  it('takes no address that is somebody else’s, in whatever case', async () => {
    const { id } = await invitePerson(idris, owner)
    const same = personForm.shape.email.parse(' Idris@Tidewrack.TEST ')
    await expect(invitePerson({ ...idris, login: 'other', email: same }, owner)).rejects.toMatchObject({
      code: 'bad-input',
      field: 'email',
    })
    // One's own address is no obstacle to saving anew.
    await changePerson({ ...idris, id, version: 0, name: 'Idris M. Cole' }, owner)
  })
})

describe('A link asked for by whoever has forgotten a password', () => {
  let id: number
  beforeEach(async () => {
    ;({ id } = await invitePerson(idris, owner))
    await accept(lastLink())
    server.received.length = 0
    forgetBrowser()
  })

  it.each([['idris'], ['idris@tidewrack.test']])(
    'comes by mail to the account of %s, for an hour',
    async (who) => {
      await ask(who)
      const { expiresAt } = await db.oneTimeLink.findFirstOrThrow({ where: { usedAt: null } })
      expect(Math.round((expiresAt.getTime() - Date.now()) / 60_000)).toBe(mailedLinkMinutes)
      expect(await accept(lastLink())).toMatchObject({ userId: id })
      const [entry] = await db.auditEntry.findMany({ where: { action: { startsWith: 'asked for' } } })
      expect(entry).toMatchObject({ entityId: String(id), actorId: null })
    },
  )

  it('is answered alike, whoever is asked for; only an account with an address gets one', async () => {
    await invitePerson({ ...idris, login: 'sela', email: null }, owner)
    await invitePerson({ ...idris, login: 'gone', email: 'gone@tidewrack.test' }, owner)
    const gone = await db.user.findUniqueOrThrow({ where: { login: 'gone' } })
    await deactivatePerson({ id: gone.id }, owner)
    server.received.length = 0
    const answers = []
    for (const who of ['idris', 'nobody', 'sela', 'gone', 'gone@tidewrack.test', '%'])
      answers.push(await noteForgotten({ who }))
    expect(new Set(answers)).toEqual(new Set([undefined]))
    for (const who of ['nobody', 'sela', 'gone', 'gone@tidewrack.test', '%']) await mailForgotten({ who })
    expect(server.received).toEqual([])
  })

  it('ends no link that was made before, and all of them once one is used', async () => {
    const byOwner = (await linkPerson({ id }, owner)).linkPath.split('/').at(-1) ?? ''
    await ask('idris')
    await accept(byOwner)
    await expect(accept(lastLink())).rejects.toMatchObject({ code: 'already-done' })
  })

  it('comes three times an hour for one name and ten for one place, known or not', async () => {
    for (const who of ['idris', 'nobody']) {
      for (let time = 0; time < mailedLinksAnHour.account; time += 1) await noteForgotten({ who })
      await expect(noteForgotten({ who })).rejects.toMatchObject({ code: 'too-many-tries' })
    }
    for (let time = 6; time < mailedLinksAnHour.address; time += 1) await noteForgotten({ who: `x${time}` })
    await expect(noteForgotten({ who: 'somebody new' })).rejects.toMatchObject({ code: 'too-many-tries' })
    askFrom('10.0.0.8')
    await noteForgotten({ who: 'somebody new' })
  })

  it('is counted one after the other when many ask at once', async () => {
    const asked = await Promise.allSettled(Array.from({ length: 8 }, () => noteForgotten({ who: 'idris' })))
    expect(asked.filter(({ status }) => status === 'fulfilled')).toHaveLength(mailedLinksAnHour.account)
  })

  it('does not keep anybody from signing in', async () => {
    const tries = await db.signInAttempt.count({ where: { login: 'idris' } })
    await ask('idris')
    expect(await db.signInAttempt.count({ where: { login: 'idris' } })).toBe(tries)
  })
})

it('A shop’s name adds no line to the head of a mail', async () => {
  await invitePerson(idris, owner)
  const head = server.received[0]?.text.split('\r\n\r\n')[0] ?? ''
  expect(head).not.toMatch(/^bcc:/im)
  expect(server.received[0]?.to).toEqual([idris.email])
  const words = {
    personName: 'I',
    login: 'i',
    address: 'https://x',
    shopName: 'A\nB',
    why: 'forgotten',
  } as const
  expect(linkMail(words).subject).toBe('A new password for A B')
})
