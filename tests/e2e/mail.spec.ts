import { expectNoAxeFaults } from '../support/axe'
import { expect, test } from '../support/browser-test'
import { mailWords, startMailServer } from '../support/mail-server'
import { emptyServedDatabase, servedRows } from '../support/served-database'
import { setUpShop, signIn } from '../support/set-up-shop'

const first = 'rigger frames by hand'
const second = 'a davit arm for the slip'

test.use({ expectedComplaints: [/40[34]/] })

let mail: Awaited<ReturnType<typeof startMailServer>>
test.beforeAll(async () => {
  mail = await startMailServer(Number(process.env.BENDWRIGHT_E2E_MAIL_PORT))
})
test.afterAll(() => mail.stop())
test.beforeEach(emptyServedDatabase)

/** The path of the link in the latest mail, once there are so many. */
async function mailedLink(mailCount: number): Promise<string> {
  await expect.poll(() => mail.received.length).toBe(mailCount)
  const found = /http:\/\/127\.0\.0\.1:\d+(\/welcome\/[\w-]{43})/.exec(mailWords(mail.received.at(-1)))
  return found?.[1] ?? ''
}

test('whoever forgets a password gets a link by mail, and nobody learns who has an account', async ({
  page,
  browser,
}) => {
  await setUpShop(page)
  await page.goto('/people')
  await page.getByLabel('Name', { exact: true }).fill('Idris Cole')
  await page.getByLabel('Sign-in name').fill('idris')
  await page.getByLabel('E-mail').fill('idris@tidewrack.test')
  await page.getByRole('button', { name: 'Make the account and its link' }).click()
  await expect(page.getByText('Account made')).toBeVisible()
  const context = await browser.newContext()
  const theirs = await context.newPage()
  await theirs.goto(await mailedLink(1))
  await theirs.getByLabel('Password', { exact: true }).fill(first)
  await theirs.getByLabel('The same again').fill(first)
  await theirs.getByRole('button', { name: 'Set the password and sign in' }).click()
  await theirs.waitForURL((url) => url.pathname === '/')

  // On another device, the password forgotten.
  const elsewhere = await browser.newContext()
  const there = await elsewhere.newPage()
  await there.goto('/sign-in')
  await there.getByRole('link', { name: 'Forgotten your password?' }).click()
  await expectNoAxeFaults(there)
  const ask = async (who: string) => {
    await there.goto('/forgotten')
    await there.getByLabel('Sign-in name or e-mail').fill(who)
    await there.getByRole('button', { name: 'Mail me a link' }).click()
    await there.waitForURL(/asked=1/)
    return there.getByRole('main').innerText()
  }
  const ofNobody = await ask('nobody at all')
  expect(await ask('idris')).toBe(ofNobody)
  await expectNoAxeFaults(there)
  const link = await mailedLink(2)
  expect(mail.received[1]?.to).toEqual(['idris@tidewrack.test'])

  // Until it is used nothing has changed; then the old password and every open session are worth nothing.
  await theirs.goto('/bench')
  await expect(theirs).toHaveURL(/\/bench$/)
  await there.goto(link)
  await there.getByLabel('Password', { exact: true }).fill(second)
  await there.getByLabel('The same again').fill(second)
  await there.getByRole('button', { name: 'Set the password and sign in' }).click()
  await there.waitForURL((url) => url.pathname === '/')
  await theirs.goto('/bench')
  await theirs.waitForURL(/\/sign-in/)
  await signIn(theirs, 'idris', first)
  await expect(theirs.getByText('No account fits this name and password.')).toBeVisible()
  await signIn(theirs, 'idris', second)
  await theirs.waitForURL(/\/bench$/)
  await there.goto(link)
  await expect(there.getByText('It has been used once, and once is all')).toBeVisible()
  expect(
    await servedRows(
      `select action from "AuditEntry" where entity = 'User' and "actorText" like 'Idris%' order by id`,
    ),
  ).not.toEqual([])
  await context.close()
  await elsewhere.close()
})
