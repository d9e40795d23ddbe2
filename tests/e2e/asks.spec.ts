import { pixels, wholeText } from '../paper/read-pdf'
import { openDemoShop } from '../support/app'
import { expectNoAxeFaults } from '../support/axe'
import { expect, type Page, test } from '../support/browser-test'
import { servedRows } from '../support/served-database'

const benders = ['Osprey Bending', 'Turnstone Tube', 'Guillemot Frames'] as const

const openAsk = async (page: Page, partId: number, bender: string) => {
  await page.goto(`/parts/${partId}/asks`)
  await page.getByRole('link', { name: new RegExp(`^A-\\d+ ${bender}$`) }).click()
  await expect(page.getByRole('heading', { name: bender, level: 1 })).toBeVisible()
}

test('three benders are asked for one part: one declines, one is silent, one quotes', async ({ page }) => {
  await openDemoShop(page)
  for (const name of benders) {
    await page.goto('/sources/new')
    await page.getByLabel('Name', { exact: true }).fill(name)
    await page.getByRole('button', { name: 'Add the bender' }).click()
    await expect(page.getByRole('heading', { name, level: 1 })).toBeVisible()
  }
  await page.goto('/sources')
  await expectNoAxeFaults(page)

  const [part] = await servedRows(
    `select p.id, p.number, c.name as customer from "Part" p join "Customer" c on c.id = p."customerId" where p.name = 'Bow rail, upper'`,
  )
  const partId = Number(part?.id)
  await page.goto(`/parts/${partId}/asks`)
  for (const name of benders) await page.getByLabel(name).check()
  await page.getByLabel('Quantities').fill('1/5/20')
  await page.getByRole('button', { name: 'Ask for prices' }).dblclick()
  await expect(page.getByRole('link', { name: /^A-\d+ Osprey Bending$/ })).toBeVisible()
  // Pressed twice, it is one request a bender.
  expect(
    await servedRows(
      `select count(*)::int as count from "Ask" a join "PartRevision" r on r.id = a."revisionId" where r."partId" = ${partId}`,
    ),
  ).toEqual([{ count: 3 }])

  await openAsk(page, partId, 'Osprey Bending')
  await page.getByLabel('Their reason').fill('no die for this section')
  await page.getByRole('button', { name: 'Log their no' }).click()
  await expect(page.getByText('declined', { exact: true })).toBeVisible()

  await openAsk(page, partId, 'Turnstone Tube')
  await expectNoAxeFaults(page)
  await page.getByRole('button', { name: 'Give up: silent' }).click()
  await expect(page.getByText('silent', { exact: true })).toBeVisible()

  await openAsk(page, partId, 'Guillemot Frames')
  await page.getByLabel('Lead time').fill('20')
  await page.getByLabel('Price each, step 1').fill('310')
  await page.getByLabel('Price each, step 2').fill('148')
  await page.getByLabel('Price each, step 3').fill('92.50')
  await page.getByLabel('Tooling, once').fill('420')
  await page.getByLabel('Minimum order').fill('350')
  await page.getByLabel('Freight').fill('55')
  await page.getByLabel('Radius they would really make').fill('14')
  await page.getByLabel('Share we expect to turn away').fill('5')
  await page.getByRole('button', { name: 'Log their prices' }).click()
  await expect(page.getByText('Another radius than drawn')).toBeVisible()
  await expectNoAxeFaults(page)

  const asked = new URL(page.url()).pathname
  const paper = await page.request.get(`${asked}/request.pdf`)
  expect(paper.status()).toBe(200)
  const pdf = await paper.body()
  const text = await wholeText(pdf)
  expect(text).toContain(String(part?.number))
  expect(text).toContain('Tidewrack Fabrication')
  expect(text).toContain('1 / 5 / 20')
  expect(text).not.toContain(String(part?.customer))
  expect(text).not.toMatch(/GW-221|92\.50/)
  // The first page is drawn on, not only lettered: some of it is ink.
  const { data } = await pixels(pdf, 1, 4)
  let ink = 0
  for (let at = 0; at < data.length; at += 4) if ((data[at] ?? 255) < 128) ink += 1
  expect(ink / (data.length / 4)).toBeGreaterThan(0.005)

  const dxf = await (await page.request.get(`${asked}/request.dxf`)).text()
  expect(dxf).toMatch(/^999\r\n/)
  // Two bends: two arcs of the drawn radius, 10 in = 254 mm.
  expect(dxf.match(/\r\nARC\r\n/g)).toHaveLength(2)
  expect(dxf).toMatch(/ 40\r\n254(\.0*)?\r\n/)
  expect(dxf).toMatch(/EOF\r\n$/)
  const json = (await (await page.request.get(`${asked}/request.json`)).json()) as { quantities: number[] }
  expect(json.quantities).toEqual([1, 5, 20])

  await page.goto(`/parts/${partId}/asks`)
  await expect(page.getByText('Landed cost of 20 good pieces')).toBeVisible()
  await expectNoAxeFaults(page)
  await page.goto('/asks?show=declined')
  await expect(page.getByText('no die for this section')).toBeVisible()
  await expectNoAxeFaults(page)
})
