import { createHash } from 'node:crypto'
import fs from 'node:fs/promises'
import {
  addBender,
  addCustomer,
  equipShop,
  logTry,
  openAsk,
  openEmptyShop,
  partIdOf,
  typeBend,
} from '../support/app'
import { expectNoAxeFaults } from '../support/axe'
import { expect, type Page, test } from '../support/browser-test'
import { servedRows } from '../support/served-database'

const partName = 'Davit arm, port'

/** One grey pixel. */
const pngBase64 =
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg=='

/** One of each kind a customer sends; but for the picture, only their first bytes have to be what they say. */
const drawings = [
  {
    name: 'arm.png',
    mimeType: 'image/png',
    head: Buffer.from(pngBase64, 'base64').toString('latin1'),
    tail: '',
  },
  { name: 'arm.pdf', mimeType: 'application/pdf', head: '%PDF-1.7\n', tail: '\n%%EOF\n' },
  {
    name: 'arm.dxf',
    mimeType: 'image/vnd.dxf',
    head: '  0\r\nSECTION\r\n  2\r\nHEADER\r\n  0\r\nENDSEC\r\n  0\r\nEOF\r\n',
    tail: '',
  },
  {
    name: 'arm.step',
    mimeType: 'model/step',
    head: "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION(('arm'),'2;1');\nENDSEC;\nDATA;\nENDSEC;\nEND-ISO-10303-21;\n",
    tail: '',
  },
] as const

const bytesOf = ({ head, tail }: (typeof drawings)[number]) => Buffer.from(`${head}${tail}`, 'latin1')

async function enterPart(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'New part' }).click()
  await page.getByLabel('Name of the part').fill(partName)
  await page.getByLabel('Side', { exact: true }).fill('1-1/2')
  await page.getByLabel('Wall').fill('1/8')
  await page.getByLabel('Material and temper').selectOption('6061-T6')
  await typeBend(page, 1, { 'Straight before': '14', Angle: '32', 'Centreline radius': '12' })
  await page.getByRole('button', { name: 'Add a bend' }).click()
  await typeBend(page, 2, {
    'Straight before': '16',
    Angle: '18',
    'Centreline radius': '12',
    Rotation: '90',
  })
  await page.getByLabel('Last straight').fill('12')
  for (const end of ['Datum end', 'Far end']) {
    const group = page.getByRole('group', { name: end })
    await group.getByLabel('Cut').selectOption('mitre')
    await group.getByLabel('Mitre off square').fill('22.5')
  }
  await page.getByLabel('Welded afterwards').check()
  await page.getByLabel('Usual quantity').fill('6')
  await expect(page.getByRole('img', { name: /^Drawing: .*32°/ }).first()).toBeVisible()
  await expectNoAxeFaults(page)
  await page.getByRole('button', { name: 'Add the part' }).click()
  await expect(page.getByRole('heading', { name: partName, level: 1 })).toBeVisible()
}

async function attachDrawings(page: Page): Promise<void> {
  for (const drawing of drawings) {
    await page.getByLabel('Attach a drawing').setInputFiles({ ...drawing, buffer: bytesOf(drawing) })
    await page.getByRole('button', { name: 'Attach', exact: true }).click()
    await expect(page.getByText(drawing.name, { exact: true }).first()).toBeVisible()
  }
  // The picture is shown where it hangs, the PDF is opened by the browser.
  const picture = page.getByRole('img', { name: 'Drawing arm.png' })
  await expect(picture).toBeVisible()
  await expect.poll(() => picture.evaluate((shown: HTMLImageElement) => shown.naturalWidth)).toBe(1)
  const opened = await page.getByRole('link', { name: 'Open the PDF' }).getAttribute('href')
  const served = await page.request.get(opened ?? '')
  expect(served.headers()['content-type']).toBe('application/pdf')
  expect(served.headers()['content-disposition']).toMatch(/^inline/)
  for (const drawing of drawings) {
    const download = page.waitForEvent('download')
    await page
      .getByRole('listitem')
      .filter({ hasText: drawing.name })
      .getByRole('link', { name: /^Save a copy/ })
      .click()
    const saved = await fs.readFile(await (await download).path())
    const sum = (bytes: Buffer) => createHash('sha256').update(bytes).digest('hex')
    expect(sum(saved)).toBe(sum(bytesOf(drawing)))
  }
}

async function askOutside(page: Page, partId: number): Promise<void> {
  const benders = ['Osprey Bending', 'Turnstone Tube', 'Guillemot Frames']
  for (const name of benders) await addBender(page, name)
  await page.goto(`/parts/${partId}/asks`)
  for (const name of benders) await page.getByLabel(name).check()
  await page.getByLabel('Quantities').fill('1/5/20')
  await page.getByRole('button', { name: 'Ask for prices' }).click()
  await expect(page.getByRole('link', { name: /^A-\d+ Osprey Bending$/ })).toBeVisible()

  await openAsk(page, partId, 'Osprey Bending')
  await page.getByLabel('Their reason').fill('no die for this section')
  await page.getByRole('button', { name: 'Log their no' }).click()
  await expect(page.getByText('declined', { exact: true })).toBeVisible()

  await openAsk(page, partId, 'Turnstone Tube')
  await page.getByRole('button', { name: 'Give up: silent' }).click()
  await expect(page.getByText('silent', { exact: true })).toBeVisible()

  await openAsk(page, partId, 'Guillemot Frames')
  await page.getByLabel('Lead time').fill('20')
  await page.getByLabel('Price each, step 1').fill('510')
  await page.getByLabel('Price each, step 2').fill('348')
  await page.getByLabel('Price each, step 3').fill('292.50')
  await page.getByLabel('Tooling, once').fill('420')
  await page.getByLabel('Minimum order').fill('350')
  await page.getByLabel('Freight').fill('55')
  await page.getByRole('button', { name: 'Log their prices' }).click()
  await expect(page.getByText('answered', { exact: true })).toBeVisible()
}

async function estimateIntoQuote(page: Page, partId: number): Promise<void> {
  await page.goto(`/parts/${partId}/estimate`)
  await page.getByLabel('Quantities').fill('1, 6, 20')
  await expect(page.getByRole('button', { name: '20 pieces' })).toBeVisible()
  await page.getByLabel('Price of bar 1').fill('92')
  await page.getByRole('button', { name: 'Set the time of Set up the press' }).click()
  await page.getByLabel('Most likely').fill('25')
  await page.getByLabel('Why').fill('The strap stays on from the last job')
  await expectNoAxeFaults(page)
  await page.getByRole('button', { name: 'Save as the next version' }).click()
  await page.waitForURL(/\/estimates\/\d+$/)
}

test('six arms: asked for, weighed, quoted, accepted, bent, measured and released', async ({
  page,
  browser,
}) => {
  test.setTimeout(300_000)
  await openEmptyShop(page)
  await equipShop(page)
  await addCustomer(page, 'Kestrel Harbour Works')
  await enterPart(page)
  await attachDrawings(page)
  const partId = await partIdOf(partName)

  await page.goto(`/parts/${partId}/ways`)
  await expect(page.getByRole('table', { name: 'Ways of making it, side by side' })).toBeVisible()
  await expect(page.getByRole('link', { name: 'Bent hollow' }).first()).toBeVisible()
  await expectNoAxeFaults(page)
  await page.getByRole('button', { name: 'Take it: set-up 1' }).click()
  await expect(page.getByText('chosen', { exact: true })).toBeVisible()

  await page.goto(`/parts/${partId}`)
  const spec = page.getByRole('table', { name: 'What to aim for at each bend' })
  await spec
    .getByRole('button', { name: /the angle to load to/ })
    .first()
    .click()
  await expect(page.getByRole('dialog', { name: /the angle to load to/ })).toContainText(
    'How far to trust it',
  )
  await page.keyboard.press('Escape')
  await expect(page.getByText(/^Aim for/).first()).toBeVisible()

  await askOutside(page, partId)
  await estimateIntoQuote(page, partId)
  const estimate = page.url()

  await page.goto(`/parts/${partId}/decision?pieces=6`)
  await expect(page.getByRole('heading', { name: /^What moves the cost of/ })).toBeVisible()
  await expectNoAxeFaults(page)
  await page.getByRole('button', { name: 'Keep this decision' }).click()
  await expect(page.getByText('Choose a way or an answer')).toBeVisible()
  await page.getByRole('radio').first().check()
  await page.getByLabel('Why').fill('Strap and pot are here, and nobody outside keeps the radius.')
  await page.getByRole('button', { name: 'Keep this decision' }).click()
  await expect(page.getByText('The comparison as it stood')).toBeVisible()

  await page.goto(estimate)
  await page.getByRole('button', { name: 'Take into the quote' }).click()
  await page.waitForURL(/\/quotes\/\d+$/)
  await page.getByRole('button', { name: /^Send/ }).click()
  const link = await page.getByTestId('customer-link').innerText()
  expect((await page.request.get(`${new URL(page.url()).pathname}/quote.pdf`)).status()).toBe(200)

  const customer = await browser.newContext()
  const theirs = await customer.newPage()
  await theirs.goto(new URL(link).pathname)
  await theirs
    .getByLabel(/^How many/)
    .first()
    .fill('6')
  await theirs.getByLabel('Your name').first().fill('Ida Brandt')
  await expectNoAxeFaults(theirs)
  await theirs.getByRole('button', { name: 'Accept this quote' }).click()
  await expect(theirs.getByText('Accepted. Thank you.')).toBeVisible()
  await customer.close()

  await page.reload()
  await page.getByRole('button', { name: 'Open the job' }).first().click()
  await page.waitForURL(/\/jobs\/\d+/)
  const job = new URL(page.url()).pathname
  await expectNoAxeFaults(page)
  await page.goto(`${job}/traveller`)
  await expect(page.getByRole('heading', { name: 'Operations, in order' })).toBeVisible()
  const traveller = await page.request.get(`${job}/traveller.pdf`)
  expect((await traveller.body()).subarray(0, 5).toString()).toBe('%PDF-')

  const pieces = await servedRows<{ scanCode: string }>(
    `select "scanCode" from "Piece" where "jobId" = ${Number(job.split('/')[2])} order by number`,
  )
  expect(pieces).toHaveLength(6)
  await page.setViewportSize({ width: 375, height: 800 })
  for (const [index, { scanCode }] of pieces.entries()) {
    for (const [bend, angle] of [
      [1, 32],
      [2, 18],
    ] as const) {
      const read = { scanCode, bend, tryNumber: 1, atPressDeg: String(angle + 0.2), finalDeg: String(angle) }
      if (index === 0 && bend === 1) {
        // The first one comes out five degrees short, is decided on, and bent again.
        await logTry(page, { ...read, finalDeg: '27' })
        await page.goto(job)
        await page.getByLabel('Disposition').selectOption('rework')
        await page.getByLabel('Why, and within what limits').fill('Loaded again: no mark, far from tearing')
        await page.getByRole('button', { name: 'Decide' }).click()
        await expect(page.getByText('Loaded again: no mark, far from tearing')).toBeVisible()
        await logTry(page, { ...read, tryNumber: 2 })
      } else await logTry(page, read)
    }
  }
  await expectNoAxeFaults(page)
  const verdicts = await servedRows(
    `select verdict, count(*)::int as count from "BendRecord" group by verdict order by verdict`,
  )
  expect(verdicts).toEqual([
    { verdict: 'pass', count: 12 },
    { verdict: 'fail', count: 1 },
  ])

  await page.setViewportSize({ width: 1280, height: 900 })
  await page.goto(job)
  await page.getByRole('button', { name: /^Release pieces/ }).click()
  const record = page.getByRole('link', { name: 'Inspection record' }).first()
  await expect(record).toBeVisible()
  const paper = await page.request.get((await record.getAttribute('href')) ?? '')
  expect(paper.status()).toBe(200)
  expect(paper.headers()['content-type']).toBe('application/pdf')
  expect(await servedRows(`select distinct status from "Piece"`)).toEqual([{ status: 'released' }])
})
