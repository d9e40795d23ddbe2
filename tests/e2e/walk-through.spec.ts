import { expectNoAxeFaults } from '../support/axe'
import { expect, test } from '../support/browser-test'
import { emptyServedDatabase, servedRows, servedSetupKey } from '../support/served-database'

test('a part of the demo shop is quoted, accepted on the link, made a job, bent and measured', async ({
  page,
  browser,
}) => {
  await emptyServedDatabase()
  await page.goto(`/setup?key=${servedSetupKey()}`)
  await page.getByLabel('The demo shop').check()
  await page.getByLabel('Name of the shop').fill('Tidewrack Fabrication')
  await page.getByLabel('Your name').fill('Mara Quill')
  await page.getByLabel('Sign-in name').fill('mara')
  await page.getByLabel('Password').fill('salt-marsh-and-tide')
  await page.locator('button[type=submit]').click()
  await expect(page.getByRole('heading', { name: 'Today', level: 1 })).toBeVisible({ timeout: 60_000 })
  await expectNoAxeFaults(page)

  await page.goto('/parts/1')
  await expect(page.getByRole('heading', { name: 'Davit arm, port', level: 1 })).toBeVisible()

  // A quote that was left as a draft, priced in the demo: send it and take the link.
  const drafts = await servedRows(`select id from "Quote" where status = 'draft'`)
  await page.goto(`/quotes/${String(drafts[0]?.id)}`)
  await page.getByRole('button', { name: /^Send/ }).click()
  const link = await page.getByTestId('customer-link').innerText()

  const customer = await browser.newContext()
  const theirs = await customer.newPage()
  await theirs.goto(new URL(link).pathname)
  await theirs
    .getByLabel(/^How many/)
    .first()
    .fill('6')
  await theirs.getByLabel('Your name').first().fill('Dario Quint')
  await theirs.getByRole('button', { name: 'Accept this quote' }).click()
  await expect(theirs.getByText('Accepted. Thank you.')).toBeVisible()
  await expectNoAxeFaults(theirs)
  await customer.close()

  await page.reload()
  await page.getByRole('button', { name: 'Open the job' }).first().click()
  await page.waitForURL(/\/jobs\/\d+/)
  const jobId = new URL(page.url()).pathname.split('/')[2]
  const pieces = await servedRows(
    `select "scanCode" from "Piece" where "jobId" = ${Number(jobId)} order by number`,
  )
  expect(pieces).toHaveLength(6)

  await page.setViewportSize({ width: 375, height: 800 })
  await page.goto(`/bench/${String(pieces[0]?.scanCode)}`)
  await page.getByLabel('Angle at the press').first().fill('90.2')
  await page.getByLabel('Angle after melt-out').first().fill('90')
  await page.getByLabel('Look').first().selectOption('clean')
  await page.getByRole('button', { name: 'Log the try at bend 1' }).click()
  await expect(page.getByText('Try 1:')).toBeVisible()
  const tries = await servedRows(
    `select verdict from "BendRecord" r join "Piece" p on p.id = r."pieceId" where p."jobId" = ${Number(jobId)}`,
  )
  expect(tries).toEqual([{ verdict: 'pass' }])
})

test('who is signed out is sent to sign in, and comes back to where they were going', async ({ page }) => {
  await page.goto('/quotes')
  await expect(page).toHaveURL(/\/sign-in\?then=/)
  await page.getByLabel('Sign-in name').fill('mara')
  await page.getByLabel('Password').fill('salt-marsh-and-tide')
  await page.getByRole('button', { name: 'Sign in' }).click()
  await expect(page).toHaveURL(/\/quotes$/)
})
