import { expectNoAxeFaults } from '../support/axe'
import { expect, type Page, test } from '../support/browser-test'
import { emptyServedDatabase, servedRows, servedSetupKey } from '../support/served-database'

async function setUpShop(page: Page): Promise<void> {
  await emptyServedDatabase()
  await page.goto(`/setup?key=${servedSetupKey()}`)
  await page.getByLabel('Name of the shop').fill('Tidewrack Fabrication')
  await page.getByLabel('Your name').fill('Mara Quill')
  await page.getByLabel('Sign-in name').fill('mara')
  await page.getByLabel('Password').fill('salt-marsh-and-tide')
  await page.locator('button[type=submit]').click()
  await expect(page.getByRole('heading', { name: 'Today', level: 1 })).toBeVisible({ timeout: 60_000 })
}

test('a lot is received with its heat, cut into, and its cutting planned to the proven least', async ({
  page,
}) => {
  await setUpShop(page)
  await page.goto('/stock/new')
  await page.getByRole('button', { name: 'Put it on the rack' }).click()
  await expect(page.getByText('Choose the material', { exact: true })).toBeVisible()

  await page.getByLabel('Material and temper').selectOption('6061-T6')
  await page.getByLabel('Side', { exact: true }).fill('1-1/2')
  await page.getByLabel('Wall', { exact: true }).fill('1/8')
  await page.getByLabel('How many').fill('3')
  await page.getByLabel('Length of each').fill("20'")
  await page.getByLabel('Heat number').fill('H22914')
  await page.getByLabel('Price', { exact: true }).fill('4.57')
  await page.getByRole('button', { name: 'Put it on the rack' }).click()
  await expect(page.getByRole('heading', { name: /^6061-T6, square 1.5/, level: 1 })).toBeVisible()
  await expectNoAxeFaults(page)

  await page
    .getByRole('link', { name: /^Cut, measure or scrap/ })
    .first()
    .click()
  await page.getByLabel('Length left').fill('87-3/8')
  await page.getByRole('button', { name: 'Note the cut' }).click()
  await expect(page.getByText(/offcuts of 87.375/).first()).toBeVisible()
  // 87-3/8 in = 87.375 x 25.4 = 2219.325 mm.
  expect(await servedRows(`select "lengthMm" from "StockPiece" where "isOffcut"`)).toEqual([
    { lengthMm: 2219.325 },
  ])

  await page.goto('/stock/nest')
  await page.getByLabel('Tube', { exact: true }).selectOption({ index: 1 })
  await page.getByLabel('Length 1', { exact: true }).fill('44')
  await page.getByLabel('How many of length 1').fill('6')
  await page.getByRole('button', { name: 'Plan the cutting' }).click()
  await expect(page.getByText(/^proven: no cutting plan/)).toBeVisible()
  await expectNoAxeFaults(page)

  await page.goto('/stock?q=h22914')
  await expect(page.getByRole('link', { name: 'L-0001' })).toBeVisible()
})

test('the page on the numbers and the tables of materials name their sources', async ({ page }) => {
  await setUpShop(page)
  await page.goto('/numbers')
  await expect(
    page.getByText(/EN 10219-2:2006, tables of cold formed hollow sections: 36 numbers/),
  ).toBeVisible()
  await expectNoAxeFaults(page)
  for (const path of ['/materials', '/materials/6061-T6', '/materials/fillers', '/materials/heating']) {
    await page.goto(path)
    await expect(page.getByText(/from memory/).first()).toBeVisible()
    await expectNoAxeFaults(page)
  }
})

const question = {
  tube: { shape: 'square', widthMm: 38.1, heightMm: 38.1, wallMm: 3.175 },
  material: { id: '6061-T6' },
  bends: [{ straightBeforeMm: 300, angleDeg: 32, centrelineRadiusMm: 305, rotationDeg: 0 }],
  straightAfterMm: 250,
  method: { support: 'lowMelt' },
  press: { capacityKn: 178, supportSpanMm: 400, supportNoseRadiusMm: 25 },
}

async function asked(page: Page, body: string): Promise<{ status: number; answer: unknown }> {
  return page.evaluate(async (text) => {
    const response = await fetch('/api/spec', { method: 'POST', body: text })
    return { status: response.status, answer: (await response.json()) as unknown }
  }, body)
}

test.describe('the spec’s address', () => {
  test.use({ expectedComplaints: [/status of (400|401|413|422)/] })

  test('answers who is signed in, names faults by field, and refuses what is no question', async ({
    page,
  }) => {
    await setUpShop(page)
    const good = await asked(page, JSON.stringify(question))
    // The tube is bent to the wanted angle where no die is given.
    expect(good).toMatchObject({ status: 200, answer: { bends: [{ wantedAngleDeg: 32 }] } })
    expect(await asked(page, JSON.stringify({ ...question, straightAfterMm: -1 }))).toEqual({
      status: 422,
      answer: { faults: [{ path: 'straightAfterMm', met: '-1', allowed: '0 or more' }] },
    })
    expect(await asked(page, '{')).toMatchObject({
      status: 400,
      answer: { faults: [{ path: 'the whole question' }] },
    })
    expect((await asked(page, '['.repeat(500_000))).status).toBe(400)
    expect((await asked(page, `"${'a'.repeat(1_100_000)}"`)).status).toBe(413)

    await page.context().clearCookies()
    expect((await asked(page, JSON.stringify(question))).status).toBe(401)
  })
})
