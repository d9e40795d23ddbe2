import { createHash, randomBytes } from 'node:crypto'
import { openDemoShop } from '../support/app'
import { expectNoAxeFaults } from '../support/axe'
import { expect, type Page, test } from '../support/browser-test'
import { servedRows } from '../support/served-database'

/** Somebody at the bench, signed in beside the owner. */
async function benchCookie(): Promise<string> {
  const token = randomBytes(32).toString('base64url')
  const [user] = await servedRows<{ id: number }>(
    `insert into "User" (login, name, role) values ('tam', 'Tam Oduya', 'bench') returning id`,
  )
  await servedRows(
    `insert into "Session" ("tokenHash", "userId", "expiresAt") values ($1, $2, now() + interval '1 day')`,
    [createHash('sha256').update(token).digest('hex'), user?.id],
  )
  return token
}

const wider = (page: Page) =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)

test('ways are compared, a set-up is taken, a way is decided on, and a changed rate reopens it', async ({
  page,
  browser,
  baseURL,
}) => {
  test.setTimeout(300_000)
  await openDemoShop(page)
  const [part] = await servedRows<{ id: number }>(`select id from "Part" where name = 'Davit arm, port'`)
  const at = `/parts/${part?.id}`

  await page.goto(`${at}/ways?pieces=6`)
  const ways = page.getByRole('table', { name: 'Ways of making it, side by side' })
  await expect(ways.getByRole('row')).toHaveCount(9)
  await expect(ways.getByText('no', { exact: true }).first()).toBeVisible()
  await expect(page.getByText(/^a centreline radius of at least/).first()).toBeVisible()
  await expectNoAxeFaults(page)
  const offered = page.getByRole('row', { name: /^Set-up 1/ })
  const shown = /PR-\d+, ([\d.]+)/.exec((await offered.innerText()).replaceAll('\u202f', ' '))?.[1]
  await page.getByRole('button', { name: 'Take it: set-up 1' }).click()
  await expect(page.getByText('chosen', { exact: true })).toBeVisible()
  const [setup] = await servedRows<{ supportSpanMm: number }>(
    `select s."supportSpanMm" from "Setup" s join "PartRevision" r on r.id = s."revisionId"
      where r."partId" = $1 order by r.id desc limit 1`,
    [part?.id],
  )
  // What is kept is what was offered: an inch is 25.4 mm.
  expect((setup?.supportSpanMm ?? 0) / 25.4).toBeCloseTo(Number(shown), 3)

  await page.goto(`${at}/ways?pieces=6`)
  await page.getByRole('link', { name: 'Weigh and decide' }).click()
  await expect(page.getByRole('table', { name: 'Ways and answers, side by side' }).first()).toBeVisible()
  await expectNoAxeFaults(page)
  await page.getByRole('radio').first().check()
  await page.getByLabel('Why').fill('Strap and pot are here.')
  await page.getByRole('button', { name: 'Keep this decision' }).click()
  await expect(page.getByText('The comparison as it stood')).toBeVisible()
  await expect(page.getByText('Look at this decision again')).toBeHidden()

  await page.setViewportSize({ width: 375, height: 800 })
  for (const screen of ['ways', 'decision']) {
    await page.goto(`${at}/${screen}`)
    expect(await wider(page)).toBeLessThanOrEqual(0)
    await expectNoAxeFaults(page)
  }

  await servedRows(
    `insert into "RateSheet" (rates, "reasonText")
     select jsonb_set(rates, '{overheadFactor}', '0.41'), 'new year' from "RateSheet" order by id desc limit 1`,
  )
  await page.goto(`${at}/decision`)
  await expect(page.getByText('Look at this decision again')).toBeVisible()
  await expect(page.getByText(/Changed since it was made: the rates\./)).toBeVisible()

  const bench = await browser.newContext()
  await bench.addCookies([{ name: 'bendwright_session', value: await benchCookie(), url: baseURL ?? '' }])
  const theirs = await bench.newPage()
  await theirs.goto(`${at}/ways`)
  await expect(theirs.getByRole('table', { name: 'Ways of making it, side by side' })).toBeVisible()
  await expect(theirs.locator('main')).not.toContainText('$')
  await expect(theirs.getByRole('button', { name: /^Take it/ })).toHaveCount(0)
  expect((await theirs.request.get(`${at}/decision`)).status()).toBe(403)
  await bench.close()
})
