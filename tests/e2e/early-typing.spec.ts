import { openDemoShop, typeBend } from '../support/app'
import { type BrowserContext, expect, type Page, test } from '../support/browser-test'
import { servedRows } from '../support/served-database'

test.setTimeout(180_000)

/** A page of which everything is there but its scripts, as on a slow phone; they come when asked for. */
async function openAheadOfScripts(context: BrowserContext, address: string) {
  // Not the page of the fixture, which waits for the scripts.
  const page = await context.newPage()
  let letCome = () => {}
  const asked = new Promise<void>((resolve) => {
    letCome = resolve
  })
  await page.route('**/_next/static/**/*.js', async (route) => {
    await asked
    await route.continue()
  })
  await page.goto(address, { waitUntil: 'domcontentloaded' })
  const scriptsCome = async () => {
    expect(await isLive(page)).toBe(false)
    letCome()
    await expect.poll(() => isLive(page)).toBe(true)
  }
  return { page, scriptsCome }
}

const isLive = (page: Page) => page.evaluate(() => !('earlyTyping' in window))

test('what is typed before the scripts have come is kept, whatever its field starts from', async ({
  page: first,
  context,
}) => {
  await openDemoShop(first)

  // At the bench a reading goes on from what was typed.
  const [open] = await servedRows<{ scanCode: string }>(
    `select p."scanCode" from "Piece" p join "Job" j on j.id = p."jobId"
     where p.status = 'open' and j.status = 'open' and j.way <> 'outside'
       and not exists (select 1 from "BendRecord" r where r."pieceId" = p.id) order by p.id limit 1`,
  )
  if (!open) throw new Error('the demo shop has no piece to bend')
  const bench = await openAheadOfScripts(context, `/bench/${open.scanCode}`)
  const atPress = bench.page.getByRole('textbox', { name: 'Angle at the press, let go', exact: true })
  await atPress.fill('31.4')
  await bench.scriptsCome()
  await expect(atPress).toHaveValue('31.4')
  await bench.page.getByRole('button', { name: 'Angle at the press, let go: 0.1 ° more' }).click()
  await expect(atPress).toHaveValue('31.5')

  // A form that was filled in and sent before is sent once the scripts are there, and once only.
  const customer = await openAheadOfScripts(context, '/customers/new')
  const names = customer.page.getByLabel('Name', { exact: true })
  await names.first().fill('Gannet Rowing Club')
  await names.last().fill('Wren Ashdown')
  await customer.page.getByRole('button', { name: 'Add the customer' }).dblclick()
  await customer.scriptsCome()
  await expect(customer.page.getByRole('heading', { name: 'Gannet Rowing Club', level: 1 })).toBeVisible()
  expect(await servedRows(`select id from "Customer" where name = 'Gannet Rowing Club'`)).toHaveLength(1)

  // An estimate answers for the quantities that were typed.
  const [drawn] = await servedRows<{ id: number }>('select id from "Part" order by id limit 1')
  const estimate = await openAheadOfScripts(context, `/parts/${drawn?.id}/estimate`)
  await estimate.page.getByLabel('Quantities').fill('1, 6, 23')
  await estimate.scriptsCome()
  await expect(estimate.page.getByRole('button', { name: '23 pieces' })).toBeVisible()
  await expect(estimate.page.getByLabel('Quantities')).toHaveValue('1, 6, 23')

  // A part is kept with all of it: text, a choice, two ticks of which one was taken back, lines.
  const part = await openAheadOfScripts(context, '/parts/new')
  const field = (label: string) => part.page.getByLabel(label, { exact: true })
  await field('Customer').selectOption({ label: 'Kestrel Harbour Works' })
  await field('Name of the part').fill('Grab loop')
  await field('Shape').selectOption('round')
  await field('Wall').fill('1/8')
  await part.page.getByLabel('A failure could hurt somebody').check()
  await part.page.getByLabel('Welded afterwards').check()
  await part.page.getByLabel('Welded afterwards').uncheck()
  await part.page.getByLabel('Holes, notes').fill('No holes.\nPolished.')
  await part.scriptsCome()
  // The shape that was chosen asks for its own sizes.
  await field('Outside diameter').fill('1-1/2')
  await field('Material and temper').selectOption('6061-T6')
  await typeBend(part.page, 1, { 'Straight before': '14', Angle: '30', 'Centreline radius': '12' })
  await field('Last straight').fill('12')
  // Pressed twice, as on a slow line: there is one part all the same.
  await part.page.getByRole('button', { name: 'Add the part' }).dblclick()
  await expect(part.page.getByRole('heading', { name: 'Grab loop', level: 1 })).toBeVisible()
  const kept = await servedRows(
    `select c.name as customer, r.shape, r."wallMm"::float as "wallMm", r."couldHurt", r."weldedAfter", r."notesText"
     from "PartRevision" r join "Part" p on p.id = r."partId" join "Customer" c on c.id = p."customerId"
     where p.name = 'Grab loop'`,
  )
  expect(kept).toEqual([
    {
      customer: 'Kestrel Harbour Works',
      shape: 'round',
      wallMm: 3.175,
      couldHurt: true,
      weldedAfter: false,
      notesText: 'No holes.\nPolished.',
    },
  ])
})
