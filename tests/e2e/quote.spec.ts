import { createCanvas } from '@napi-rs/canvas'
import { wholeText } from '../paper/read-pdf'
import { openDemoShop } from '../support/app'
import { expectNoAxeFaults } from '../support/axe'
import { expect, type Page, test } from '../support/browser-test'
import { servedRows } from '../support/served-database'

const linkShown = async (page: Page) => new URL(await page.getByTestId('customer-link').innerText()).pathname

test('an estimate with a rate of its own is quoted, sent, linked anew, said yes to by telephone, and made a job once', async ({
  page,
  browser,
}) => {
  test.setTimeout(240_000)
  await openDemoShop(page)
  await page.goto('/shop/settings')
  const canvas = createCanvas(300, 100)
  canvas.getContext('2d').fillRect(20, 20, 220, 60)
  await page.getByLabel('Add a logo').setInputFiles({
    name: 'mark.png',
    mimeType: 'image/png',
    buffer: canvas.toBuffer('image/png'),
  })
  await expect(page.getByRole('img', { name: 'The shop’s logo' })).toBeVisible()
  await expectNoAxeFaults(page)

  const [estimated] = await servedRows(
    `select r."partId" as id from "Estimate" e join "PartRevision" r on r.id = e."revisionId" order by e.id limit 1`,
  )
  await page.goto(`/parts/${String(estimated?.id)}/estimate`)

  // A rate for this estimate alone: listed with the shop's, refused without a reason, kept with it.
  await page.getByText(/^All \d+ rates that count here/).click()
  await page.getByRole('button', { name: 'Set Overhead on labour for this estimate' }).click()
  const rates = page.getByRole('region', { name: 'Rates behind it' })
  await rates.getByRole('textbox', { name: 'For this estimate' }).fill('60')
  await page.getByRole('button', { name: 'Save as the next version' }).click()
  await expect(rates.getByText('Say why: it stands beside the number')).toBeVisible()
  await rates.getByLabel('Why').fill('Weekend work for the refit')
  await expectNoAxeFaults(page)
  await page.getByRole('button', { name: 'Save as the next version' }).click()
  await page.waitForURL(/\/estimates\/\d+$/)
  await expect(
    page.getByRole('row', { name: /^Overhead on labour 60 % 35 % Weekend work for the refit/ }),
  ).toBeVisible()

  await page.getByLabel('Into', { exact: true }).selectOption('')
  await page.getByRole('button', { name: 'Take into the quote' }).click()
  await page.waitForURL(/\/quotes\/\d+$/)
  const quote = new URL(page.url()).pathname

  // What is typed and not saved does not go out.
  await expect(page.getByRole('button', { name: /^Send/ })).toBeVisible()
  await page.getByLabel('Tax', { exact: true }).fill('6.25')
  await page.getByLabel('Tax is called').fill('Sales tax')
  await expect(page.getByRole('button', { name: /^Send/ })).toBeHidden()
  await page.getByRole('button', { name: 'Save the draft' }).click()
  await expect(page.getByText('Saved', { exact: true })).toBeVisible()
  await page.getByRole('button', { name: /^Send/ }).click()
  const first = await linkShown(page)
  await expectNoAxeFaults(page)

  // Printed, the page holds nothing of the shop's own costs.
  await expect(page.getByText('What it costs and earns')).toBeVisible()
  await page.emulateMedia({ media: 'print' })
  await expect(page.getByText('What it costs and earns')).toBeHidden()
  await expect(page.getByRole('button', { name: 'Withdraw' })).toBeHidden()
  await page.emulateMedia({ media: 'screen' })

  await page.getByRole('button', { name: 'Make a new link' }).click()
  await expect.poll(() => linkShown(page)).not.toBe(first)
  const second = await linkShown(page)
  const customer = await browser.newContext()
  const theirs = await customer.newPage()
  expect((await theirs.goto(first))?.status()).toBe(404)
  await theirs.goto(second)
  const logo = theirs.getByRole('img', { name: 'Tidewrack Fabrication' })
  await expect
    .poll(() => logo.evaluate((image) => (image instanceof HTMLImageElement ? image.naturalWidth : 0)))
    .toBe(300)
  await expect(theirs.getByText('With Sales tax').first()).toBeVisible()
  await expect(theirs.getByLabel(/^How many of/)).toHaveValue('')
  await expectNoAxeFaults(theirs)
  const paper = await theirs.request.get(`${second}/quote.pdf`)
  expect((await paper.body()).includes('/Subtype /Image')).toBe(true)
  expect((await wholeText(await paper.body())).replace(/\s+/g, ' ')).toContain('calendar days')

  // The shop sees that the customer has it before him.
  await expect(async () => {
    await page.reload()
    await expect(page.getByText(/first opened/)).toBeVisible({ timeout: 2000 })
  }).toPass()
  await page.getByLabel(/^Ordered of/).fill('7')
  await page.getByLabel('Who said yes').fill('Ines Marlow')
  await page.getByLabel('Their order number, why they took it').fill('PO 1144')
  await page.getByRole('button', { name: 'Note their yes' }).click()
  await expect(page.getByText(/Accepted: 7 pieces at/)).toBeVisible()
  await theirs.reload()
  await expect(theirs.getByText('Accepted. Thank you.')).toBeVisible()
  await customer.close()

  await page.getByRole('button', { name: 'Open the job' }).dblclick()
  await page.waitForURL(/\/jobs\/\d+/)
  expect(
    await servedRows(
      `select count(*)::int as count from "Job" j join "QuoteLine" l on l.id = j."quoteLineId" where l."quoteId" = ${Number(quote.split('/')[2])}`,
    ),
  ).toEqual([{ count: 1 }])
})
