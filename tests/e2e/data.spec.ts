import fs from 'node:fs'
import { expectNoAxeFaults } from '../support/axe'
import { expect, test } from '../support/browser-test'
import { emptyServedDatabase, servedRows, servedSetupKey } from '../support/served-database'

test('the owner takes everything away on one press, and it stands in the audit', async ({
  page,
  request,
}) => {
  await emptyServedDatabase()
  await page.goto(`/setup?key=${servedSetupKey()}`)
  await page.getByLabel('Name of the shop').fill('Tidewrack Fabrication')
  await page.getByLabel('Your name').fill('Mara Quill')
  await page.getByLabel('Sign-in name').fill('mara')
  await page.getByLabel('Password').fill('salt-marsh-and-tide')
  await page.locator('button[type=submit]').click()
  await expect(page.getByRole('heading', { name: 'Today', level: 1 })).toBeVisible({ timeout: 60_000 })

  await page.goto('/shop/data')
  await expect(page.getByRole('heading', { name: 'Backups' })).toBeVisible()
  await expectNoAxeFaults(page)
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Download everything' }).click(),
  ])
  expect(download.suggestedFilename()).toMatch(/^Tidewrack Fabrication \d{4}-\d\d-\d\d\.zip$/)
  const bytes = fs.readFileSync(await download.path())
  // A ZIP begins and ends with its own marks. Source: PKWARE APPNOTE 4.3.7 and 4.3.16.
  expect(bytes.subarray(0, 4).toString('latin1')).toBe('PK\u0003\u0004')
  expect(bytes.includes(Buffer.from('PK\u0005\u0006', 'latin1'))).toBe(true)
  expect(
    await servedRows(`select "actorText" from "AuditEntry" where action = 'took a copy of all data'`),
  ).toEqual([{ actorText: 'Mara Quill' }])

  const stranger = await request.post('/shop/data/export', {
    headers: { origin: new URL(page.url()).origin },
  })
  expect(stranger.status()).toBe(401)
})
