import { openDemoShop } from '../support/app'
import { expectNoAxeFaults } from '../support/axe'
import { expect, type Page, test } from '../support/browser-test'
import { servedRows } from '../support/served-database'

/** What one piece of an order costs, as the table of quantities shows it. */
async function costEach(page: Page, order: string): Promise<number> {
  const row = page
    .getByRole('table', { name: 'The order at each quantity' })
    .getByRole('row', { name: order })
  const text = await row.getByRole('cell').nth(3).innerText()
  return Number(text.replace(/[^\d.]/g, ''))
}

test('a part is estimated, a time is set by hand with its reason, kept, compared and taken into a quote with cost and margin', async ({
  page,
}) => {
  test.setTimeout(180_000)
  await openDemoShop(page)
  // A part that the demo has no estimate of.
  const parts = await servedRows(
    `select p.id, r.id as "revisionId" from "Part" p join "PartRevision" r on r."partId" = p.id
     where not exists (select 1 from "Estimate" e where e."revisionId" = r.id) order by p.id limit 1`,
  )
  const partId = String(parts[0]?.id)
  await page.goto(`/parts/${partId}/estimate`)
  await page.getByLabel('Quantities').fill('1, 6, 20')
  await expect(page.getByRole('button', { name: '20 pieces' })).toBeVisible()
  await page.getByLabel('Price of bar 1').fill('120')
  await expect(page.getByText('How good it is')).toBeVisible()
  const before = await costEach(page, '1 piece')
  await expectNoAxeFaults(page)

  // Saved once as it is worked out, then with a time of the shop's own.
  await page.getByRole('button', { name: 'Save as the next version' }).click()
  await page.waitForURL(/\/estimates\/\d+$/)
  await page.getByRole('link', { name: 'Work on it further' }).click()
  await page.getByRole('button', { name: 'Set the time of Set up the press' }).click()
  await page.getByLabel('Most likely').fill('5')
  await expect.poll(() => costEach(page, '1 piece')).toBeLessThan(before)
  await page.getByRole('button', { name: 'Save as the next version' }).click()
  await expect(page.getByText('Say why: it stands beside the number')).toBeVisible()
  await page.getByLabel('Why').fill('The die stays on the press')

  // Undone with one press, and done again: nothing typed elsewhere is lost.
  await page.getByRole('button', { name: /^Undo: back to/ }).click()
  await expect.poll(() => costEach(page, '1 piece')).toBe(before)
  await expect(page.getByLabel('Price of bar 1')).toHaveValue('120.00')
  await page.getByRole('button', { name: 'Set the time of Set up the press' }).click()
  await page.getByLabel('Most likely').fill('5')
  await page.getByLabel('Why').fill('The die stays on the press')
  await page.getByRole('button', { name: 'Save as the next version' }).click()
  await page.waitForURL((url) => /\/estimates\/\d+$/.test(url.pathname))
  await expect(page.getByRole('heading', { name: /^Version 2/ })).toBeVisible()
  await expect(
    page.getByRole('row', { name: /^Set up the press, set-up, once.*The die stays on the press/ }),
  ).toBeVisible()

  await page.getByRole('link', { name: 'version 1' }).first().click()
  await expect(page.getByRole('heading', { name: 'What changed since version 1' })).toBeVisible()
  await expect(page.getByRole('row', { name: /^Times set by hand/ })).toBeVisible()
  await expectNoAxeFaults(page)

  await page.getByLabel('Into', { exact: true }).selectOption('')
  await page.getByLabel('Price by').selectOption('markup')
  await page.getByLabel('Markup, on the cost').fill('50')
  await page.getByRole('button', { name: 'Take into the quote' }).click()
  await page.waitForURL(/\/quotes\/\d+$/)
  await expect(
    page.getByText(/margin\s33\.\d\s% of the price, markup\s5\d(\.\d)?\s% on cost/).first(),
  ).toBeVisible()
  await expect(page.getByText('estimate, version 2')).toBeVisible()
  await expectNoAxeFaults(page)

  await page.getByLabel('Price each').first().fill('10')
  await expect(page.getByText('below cost')).toBeVisible()
  await page.getByLabel('Price all by').selectOption('margin')
  await page.getByLabel('Margin, of the price').fill('40')
  await page.getByRole('button', { name: 'Set the prices' }).click()
  await expect(page.getByText('below cost')).toBeHidden()
  await page.getByRole('button', { name: 'Save the draft' }).click()
  await expect(page.getByText('Saved', { exact: true })).toBeVisible()
  const steps = await servedRows(
    `select b.quantity, b."unitCents", b."costCents" from "QuoteBreak" b join "QuoteLine" l on l.id = b."lineId"
     where l."revisionId" = ${Number(parts[0]?.revisionId)} and b."costCents" is not null order by b.quantity`,
  )
  expect(steps.map(({ quantity }) => quantity)).toEqual([1, 6, 20])
  for (const { unitCents, costCents } of steps) {
    const margin = 1 - Number(costCents) / Number(unitCents)
    expect(margin).toBeGreaterThanOrEqual(0.3999)
    expect(margin).toBeLessThan(0.42)
  }
})
