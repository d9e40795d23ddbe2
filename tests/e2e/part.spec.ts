import { createHash } from 'node:crypto'
import fs from 'node:fs/promises'
import { expectNoAxeFaults } from '../support/axe'
import { expect, type Page, test } from '../support/browser-test'
import { emptyServedDatabase, servedRows, servedSetupKey } from '../support/served-database'

/** A shop that works in inches, with nothing in it but its owner, who is signed in from here on. */
async function openEmptyShop(page: Page): Promise<void> {
  await emptyServedDatabase()
  await page.goto(`/setup?key=${servedSetupKey()}`)
  await page.getByLabel('An empty shop').check()
  await page.getByLabel('Name of the shop').fill('Tidewrack Fabrication')
  await page.getByLabel('Your name').fill('Mara Quill')
  await page.getByLabel('Sign-in name').fill('mara')
  await page.getByLabel('Password').fill('salt-marsh-and-tide')
  await page.getByRole('button', { name: 'Set up the shop' }).click()
  await expect(page).not.toHaveURL(/setup/)
  await servedRows(
    `insert into "Press" ("shopNumber", name, "capacityKn", "strokeMm", "supportNoseRadiusMm", "minimumSpanMm", "maximumSpanMm")
     values ('PR-1', 'H-frame', 178, 200, 19, 200, 900)`,
  )
  await servedRows(`insert into "Filler" ("shopNumber", name, "fillerId") values ('F-1', 'Pot 1', 'bi-158')`)
}

async function addCustomer(page: Page, name: string): Promise<void> {
  await page.goto('/customers/new')
  await page.getByLabel('Name').first().fill(name)
  const contact = page.getByRole('group', { name: 'Contact 1' })
  await contact.getByLabel('Name').fill('Ida Brandt')
  await contact.getByLabel('E-mail').fill('ida@kestrel.example')
  await page.getByRole('button', { name: 'Add the customer' }).click()
  await expect(page.getByRole('heading', { name, level: 1 })).toBeVisible()
}

async function typeBend(page: Page, number: number, bend: Record<string, string>): Promise<void> {
  const group = page.getByRole('group', { name: `Bend ${number}` })
  for (const [label, value] of Object.entries(bend)) await group.getByLabel(label).fill(value)
}

const drawing = Buffer.concat([
  Buffer.from('%PDF-1.7\n', 'latin1'),
  Buffer.from(Array.from({ length: 5000 }, (_, index) => (index * 151) % 256)),
  Buffer.from('\n%%EOF\n', 'latin1'),
])

test('a customer’s part is entered in inches, refused where it can’t be, drawn, answered and kept with its drawing', async ({
  page,
  context,
}) => {
  await openEmptyShop(page)
  await addCustomer(page, 'Kestrel Harbour Works')
  await page.getByRole('link', { name: 'New part' }).click()
  await expect(page.getByRole('heading', { name: 'New part', level: 1 })).toBeVisible()

  await page.getByLabel('Name of the part').fill('Davit arm, port')
  await page.getByLabel('Side', { exact: true }).fill('1-1/2')
  await expect(page.getByText('understood as 1.5')).toBeVisible()
  await page.getByLabel('Wall').fill('11 ga')
  await page.getByLabel('Material and temper').selectOption('6061-T6')
  await typeBend(page, 1, { 'Straight before': '12 1/4', Angle: '200', 'Centreline radius': '18' })
  await page.getByRole('button', { name: 'Add a bend' }).click()
  await typeBend(page, 2, { 'Straight before': '10"', Angle: "20d30'", Rotation: '90' })
  await page.getByLabel('Last straight').fill('1\' 2-1/2"')
  await page.getByRole('group', { name: 'Datum end' }).getByLabel('Cut').selectOption('mitre')
  await page.getByLabel('Mitre off square').fill('22.5')
  await page.getByLabel('Welded afterwards').check()

  await page.getByRole('button', { name: 'Add the part' }).click()
  const firstAngle = page.getByRole('group', { name: 'Bend 1' }).getByLabel('Angle')
  await expect(page.getByText('Allowed: 0.1° to 179.9°; met: 200°')).toBeVisible()
  await expect(firstAngle).toBeFocused()
  await expect(firstAngle).toHaveValue('200')
  await expect(page.getByLabel('Last straight')).toHaveValue('1\' 2-1/2"')
  await expectNoAxeFaults(page)

  await firstAngle.fill('32')
  // The drawing follows the typing, and the field being typed in keeps the keyboard.
  await expect(page.getByRole('img', { name: /^Drawing: .*32°/ }).first()).toBeVisible()
  await expect(firstAngle).toBeFocused()
  await page.getByRole('button', { name: 'Add the part' }).click()
  await expect(page.getByRole('heading', { name: 'Davit arm, port', level: 1 })).toBeVisible()

  const bends = await servedRows(
    'select "straightBeforeMm", "angleDeg", "rotationDeg" from "Bend" order by position',
  )
  // 12.25 in = 311.15 mm, 10 in = 254 mm.
  expect(bends).toEqual([
    { straightBeforeMm: 311.15, angleDeg: 32, rotationDeg: 0 },
    { straightBeforeMm: 254, angleDeg: 20.5, rotationDeg: 90 },
  ])

  // The suggested set-up is answered at once; a span the press has not is refused at its field.
  const spec = page.getByRole('table', { name: 'What to aim for at each bend' })
  await expect(spec.getByRole('row')).toHaveCount(3)
  const span = page.getByLabel('Span between supports')
  await span.fill('60')
  await expect(page.getByText(/Allowed on PR-1/)).toBeVisible()
  await span.fill('20')
  await expect(spec.getByRole('row')).toHaveCount(3)
  await page.getByRole('button', { name: 'Save the set-up' }).click()
  await expect(page.getByText('Saved', { exact: true })).toBeVisible()
  expect(await servedRows('select "supportSpanMm" from "Setup"')).toEqual([{ supportSpanMm: 508 }])
  // The page as it is sent, before any script runs, already shows what was saved: span, press and pot.
  const sent = await (await page.request.get(page.url())).text()
  expect(sent).toMatch(/name="supportSpanMm"[^>]*value="20"|value="20"[^>]*name="supportSpanMm"/)
  expect(sent).toMatch(/<option[^>]*selected=""[^>]*>PR-1/)
  await spec
    .getByRole('button', { name: /the angle to load to/ })
    .first()
    .click()
  await expect(page.getByRole('dialog', { name: /the angle to load to/ })).toContainText(
    'How far to trust it: mechanics',
  )
  await page.keyboard.press('Escape')

  await page.getByLabel('Attach a drawing').setInputFiles({
    name: 'arm.pdf',
    mimeType: 'application/pdf',
    buffer: Buffer.from('<html>no drawing</html>'),
  })
  await page.getByRole('button', { name: 'Attach', exact: true }).click()
  await expect(page.getByText(/This is not a PDF, PNG, JPEG, DXF or STEP file/).first()).toBeVisible()
  await page
    .getByLabel('Attach a drawing')
    .setInputFiles({ name: 'Davit arm; port ø.pdf', mimeType: 'text/html', buffer: drawing })
  await page.getByRole('button', { name: 'Attach', exact: true }).click()
  await expect(page.getByRole('link', { name: 'Open the PDF' })).toBeVisible()

  const download = page.waitForEvent('download')
  await page.getByRole('link', { name: /^Save a copy/ }).click()
  const saved = await fs.readFile(await (await download).path())
  expect(createHash('sha256').update(saved).digest('hex')).toBe(
    createHash('sha256').update(drawing).digest('hex'),
  )

  const address = await page.getByRole('link', { name: 'Open the PDF' }).getAttribute('href')
  const served = await page.request.get(address ?? '')
  expect(served.headers()).toMatchObject({
    'content-type': 'application/pdf',
    'x-content-type-options': 'nosniff',
  })
  expect(served.headers()['content-disposition']).toMatch(/^inline; filename="Davit arm_ port _\.pdf"/)
  expect(served.headers()['content-security-policy']).toContain("frame-ancestors 'none'")
  // What the head of the page covers while it is scrolled is no fault of what lies below.
  await page.evaluate(() => window.scrollTo(0, 0))
  await expectNoAxeFaults(page)

  // Whoever is not signed in gets no drawing.
  await context.clearCookies()
  expect((await page.request.get(address ?? '')).status()).toBe(401)
})

test('two people on one part: the second save is told, and nothing typed is lost', async ({
  page,
  context,
}) => {
  await openEmptyShop(page)
  await addCustomer(page, 'Kestrel Harbour Works')
  await page.getByRole('link', { name: 'New part' }).click()
  await page.getByLabel('Name of the part').fill('Rigger stay')
  await page.getByLabel('Shape').selectOption('round')
  await page.getByLabel('Outside diameter').fill('25 mm')
  await page.getByLabel('Wall').fill('2 mm')
  await page.getByLabel('Material and temper').selectOption('6061-T6')
  await typeBend(page, 1, { 'Straight before': '6', Angle: '40', 'Centreline radius': '9' })
  await page.getByLabel('Last straight').fill('6')
  await page.getByRole('button', { name: 'Add the part' }).click()
  await expect(page.getByRole('heading', { name: 'Rigger stay', level: 1 })).toBeVisible()

  await page.getByRole('link', { name: 'Change' }).click()
  await expect(page.getByLabel('Outside diameter')).toHaveValue('25 mm')
  const other = await context.newPage()
  await other.goto(page.url())
  await other.getByLabel('Last straight').fill('7')
  await other.getByRole('button', { name: 'Save the part' }).click()
  await expect(other.getByRole('heading', { name: 'Rigger stay', level: 1 })).toBeVisible()

  await page.getByLabel('Last straight').fill('8')
  await page.getByRole('button', { name: 'Save the part' }).click()
  await expect(page.getByText(/saved this while you/).first()).toBeVisible()
  await expect(page.getByLabel('Last straight')).toHaveValue('8')
  expect(await servedRows('select "straightAfterMm" from "PartRevision"')).toEqual([
    { straightAfterMm: 177.8 },
  ])
})
