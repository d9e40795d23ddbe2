import { openDemoShop } from '../support/app'
import { expectNoAxeFaults } from '../support/axe'
import { expect, test } from '../support/browser-test'
import { servedRows } from '../support/served-database'

test.setTimeout(180_000)

test('a job is opened straight in, gets its tube, is cut, poured and faulted, and closes with a reason', async ({
  page,
}) => {
  await openDemoShop(page)
  await page.goto('/jobs')
  await page.getByRole('link', { name: 'Open a job' }).click()
  await page.getByRole('link', { name: 'Kestrel Harbour Works' }).click()
  await page.getByRole('button', { name: 'Open the job' }).click()
  await expect(page.getByText('Type a whole number')).toBeVisible()
  await page.getByLabel('How many').fill('2')
  await page.getByRole('button', { name: 'Open the job' }).click()
  await page.waitForURL(/\/jobs\/\d+$/)
  await expect(page.getByRole('link', { name: /^Reserve stock for pieces 1, 2/ })).toBeVisible()
  await expectNoAxeFaults(page)

  const reserve = page.locator('form', { has: page.getByRole('button', { name: 'Reserve for this job' }) })
  await reserve.getByRole('checkbox').last().check()
  await page.getByRole('button', { name: 'Reserve for this job' }).click()
  await expect(page.getByRole('link', { name: /^Note what pieces 1, 2/ })).toBeVisible()

  await page.getByLabel('Piece 1', { exact: true }).check()
  await page.getByLabel('Piece 2', { exact: true }).check()
  await expect(page.getByText(/with a kerf of .* each leave/)).toBeVisible()
  await page.getByRole('button', { name: 'Note the cut' }).click()
  await expect(page.getByText('Every open piece is cut.')).toBeVisible()
  const id = Number(new URL(page.url()).pathname.split('/')[2])
  const cut = await servedRows(
    `select l."heatNumber" from "Piece" p join "StockPiece" s on s.id = p."stockPieceId" join "StockLot" l on l.id = s."lotId" where p."jobId" = ${id}`,
  )
  expect(cut).toHaveLength(2)

  const part = (title: string) =>
    page.locator('details.fold', { has: page.getByRole('heading', { name: title }) })
  // A link to a folded part unfolds it and brings it into view.
  await page
    .getByRole('navigation', { name: 'Parts of this job' })
    .getByRole('link', { name: 'Filler' })
    .click()
  await expect(part('Filler')).toHaveAttribute('open', '')
  await page.getByLabel('Mass, weighed').fill('2 kg')
  await page.getByRole('button', { name: 'Enter it' }).click()
  await expect(page.getByText(/100.?% of what was poured/)).toBeVisible()

  await part('Faults').locator('summary').first().click()
  await page.getByText('Enter a fault by hand').click()
  await page.getByLabel('Of which piece').selectOption({ label: 'Piece 2' })
  await page.getByLabel('What is wrong').fill('Dropped: a dent beside bend 1')
  await page.getByRole('button', { name: 'Open the fault' }).click()
  await page.getByRole('link', { name: /^Decide about N-/ }).click()
  await page.waitForURL(/\/faults\/\d+$/)
  const faultPage = page.url()
  await expect(page.getByRole('heading', { name: 'Dropped: a dent beside bend 1', level: 1 })).toBeVisible()
  await expectNoAxeFaults(page)
  await page.getByLabel('Disposition').selectOption('scrap')
  await page.getByLabel('Why, and within what limits').fill('The dent is in the tension face')
  await page.getByRole('button', { name: 'Scrap the piece' }).click()
  await expect(page.getByRole('listitem').filter({ hasText: 'replaces it, open' })).toBeVisible()
  await expect(page.getByText(/Mara Quill decided: N-\d+: Scrap/)).toBeVisible()
  // Scrolled down to the form, the bar at the top lies over half a link.
  await page.evaluate(() => window.scrollTo(0, 0))
  await expectNoAxeFaults(page)
  await page.goto(`/jobs/${id}`)
  await expect(page.getByText('open, replaces 2')).toBeVisible()
  await expectNoAxeFaults(page)

  // What the office now chooses for the part is planned only when somebody says so, after seeing what it changes.
  await page.getByRole('link', { name: 'Plan again' }).first().click()
  await expect(page.getByText('Nothing: it would say what issue 1 says.')).toBeVisible()
  await page.getByLabel('Way').selectOption({ label: 'Cut, mitred and welded from straights' })
  await expect(
    page.getByText('way: Cut, mitred and welded from straights, was', { exact: false }),
  ).toBeVisible()
  await expectNoAxeFaults(page)
  await page.getByRole('link', { name: 'Leave it as it is' }).click()
  await page.waitForURL(/\/jobs\/\d+$/)
  await part('Due day, closing, cancelling').locator('summary').first().click()

  await page.getByRole('button', { name: 'Close the job' }).click()
  await expect(page.getByText(/neither released nor scrapped/).last()).toBeVisible()
  await page.getByLabel('Why it is closed all the same').fill('The customer sold the boat')
  await page.getByRole('button', { name: 'Close the job' }).click()
  await expect(page.getByText(/^Closed .*The customer sold the boat/)).toBeVisible()

  const heat = String(cut[0]?.heatNumber)
  await page.goto(`/trace?heat=${heat}`)
  await expect(page.getByRole('heading', { name: heat, level: 1 })).toBeVisible()
  await expectNoAxeFaults(page)
  await page
    .getByRole('link', { name: /piece 1$/ })
    .first()
    .click()
  await expect(page.getByRole('link', { name: heat })).toBeVisible()
  await expectNoAxeFaults(page)

  await page.goto('/lessons')
  const rates = await servedRows('select count(*)::int as count from "RateSheet"')
  await page.getByRole('button', { name: /^Accept: .*, bend$/ }).click()
  await expect(page.getByRole('button', { name: /^Accept: .*, bend$/ })).toHaveCount(0)
  const after = await servedRows('select count(*)::int as count from "RateSheet"')
  expect(Number(after[0]?.count)).toBe(Number(rates[0]?.count) + 1)
  await expectNoAxeFaults(page)

  await page.goto('/jobs/1')
  await page.getByRole('checkbox', { name: 'Piece 1', exact: true }).uncheck()
  await page.getByLabel('Note on the release').fill('Sent ahead for the trial fit')
  await page.getByRole('button', { name: /^Release pieces 2, 3$/ }).click()
  await page
    .getByRole('link', { name: /^R-\d+$/ })
    .first()
    .click()
  await page.waitForURL(/\/releases\/\d+$/)
  await expect(page.getByText('Sent ahead for the trial fit')).toBeVisible()
  const released = await servedRows(
    `select number from "Piece" where "jobId" = 1 and status = 'released' order by number`,
  )
  expect(released).toEqual([{ number: 2 }, { number: 3 }])

  await page.goto('/faults?show=decided')
  await expect(page.getByText('The dent is in the tension face')).toBeVisible()
  await expectNoAxeFaults(page)

  for (const path of [
    `/jobs/${id}`,
    '/jobs/1',
    `/jobs/${id}/plan-again`,
    faultPage,
    '/bench',
    '/lessons',
    '/faults?show=all',
    `/trace?heat=${heat}`,
  ]) {
    await page.setViewportSize({ width: 375, height: 800 })
    await page.goto(path)
    const wide = await page.evaluate(() => document.documentElement.scrollWidth > window.innerWidth)
    expect([path, wide]).toEqual([path, false])
  }
})
