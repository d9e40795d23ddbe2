import { benchPageWeight, mostScriptBytes } from '../bench/page-weight'
import { expectNoAxeFaults } from '../support/axe'
import { expect, type Page, test } from '../support/browser-test'
import { emptyServedDatabase, servedRows, servedSetupKey } from '../support/served-database'

const password = 'salt-marsh-and-tide'
const pin = '4827'

test.setTimeout(180_000)
test.use({
  viewport: { width: 375, height: 740 },
  hasTouch: true,
  // Without a connection the browser says so itself, and a refused entry has its status.
  expectedComplaints: [/ERR_INTERNET_DISCONNECTED|ERR_FAILED|status of (400|404|503)/],
})

/** One demo shop for all tests of this file: each takes a piece of its own. */
let ready = false

async function setUpDemo(page: Page): Promise<void> {
  await emptyServedDatabase()
  await page.goto(`/setup?key=${servedSetupKey()}`)
  await page.getByLabel('The demo shop').check()
  await page.getByLabel('Name of the shop').fill('Tidewrack Fabrication')
  await page.getByLabel('Your name').fill('Mara Quill')
  await page.getByLabel('Sign-in name').fill('mara')
  await page.getByLabel('Password').fill(password)
  await page.locator('button[type=submit]').click()
  await expect(page.getByRole('heading', { name: 'Today', level: 1 })).toBeVisible({ timeout: 90_000 })
  await page.goto('/account')
  await page.getByLabel('Your password').fill(password)
  await page.getByLabel('PIN', { exact: true }).fill(pin)
  await page.getByLabel('PIN again').fill(pin)
  await page.getByRole('button', { name: 'Set the PIN' }).click()
  await expect(page.getByText('You have a PIN.')).toBeVisible()
  await signOut(page)
  ready = true
}

async function signOut(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Menu' }).click()
  await page.getByRole('button', { name: 'Sign out', exact: true }).click()
  await page.waitForURL(/\/sign-in/)
}

/** Makes this browser a bench device: the owner admits it once with the password. */
async function admitDevice(page: Page): Promise<void> {
  if (!ready) await setUpDemo(page)
  await page.goto('/sign-in?then=/people')
  await page.getByLabel('Sign-in name').fill('mara')
  await page.getByLabel('Password').fill(password)
  await page.getByRole('button', { name: 'Sign in' }).click()
  await page.waitForURL(/\/people$/)
  await page.getByLabel('Name of this device').fill('Bench phone')
  await page.getByRole('button', { name: 'Admit this device for PINs' }).click()
  await expect(page.getByRole('button', { name: /^Revoke this device/ }).first()).toBeVisible()
  await signOut(page)
}

/** Scans a traveller: the code's address is opened signed out, and a PIN leads back to it. */
async function scanAndSignIn(page: Page, address: string): Promise<void> {
  await page.goto(address)
  await page.waitForURL(/\/sign-in\?then=/)
  await page.getByLabel('Who are you?').selectOption({ label: 'Mara Quill' })
  await page.getByLabel('PIN', { exact: true }).fill(pin)
  await page.getByRole('button', { name: 'Sign in' }).click()
  await page.waitForURL((url) => url.pathname === address)
}

type Piece = { id: number; code: string; jobId: number; partId: number }

/** A piece on which nothing is logged yet, each time another. */
async function freshPiece(): Promise<Piece> {
  const [piece] = await servedRows<Piece>(
    `select p.id, p."scanCode" as code, j.id as "jobId", r."partId"
     from "Piece" p join "Job" j on j.id = p."jobId" join "PartRevision" r on r.id = j."revisionId"
     where p.status = 'open' and j.status = 'open'
       and not exists (select 1 from "BendRecord" b where b."pieceId" = p.id)
       and not exists (select 1 from "OperationLog" l where l."pieceId" = p.id)
     order by p.id limit 1`,
  )
  if (!piece) throw new Error('The demo shop has no piece left to bend')
  return piece
}

const triesOf = ({ id }: Piece) =>
  servedRows<{ angleAtPressDeg: number; verdict: string }>(
    'select "angleAtPressDeg", verdict::text from "BendRecord" where "pieceId" = $1',
    [id],
  )

const atPress = (page: Page) => page.getByLabel('Angle at the press, let go', { exact: true })
const waiting = (page: Page) => page.getByText(/not sent yet/)

test('a try logged without a connection waits on the device and is kept once when it is back', async ({
  page,
  context,
}) => {
  await admitDevice(page)
  const piece = await freshPiece()
  await scanAndSignIn(page, `/bench/${piece.code}`)
  await expectNoAxeFaults(page)
  await context.setOffline(true)
  await atPress(page).fill('31.4')
  await page.getByRole('button', { name: 'Log this try' }).click()
  await expect(waiting(page)).toHaveText(/^1 entry not sent yet/)
  await expect(page.getByText('is kept on this device')).toBeVisible()
  await expectNoAxeFaults(page)
  expect(await triesOf(piece)).toEqual([])
  await context.setOffline(false)
  await expect(waiting(page)).toBeHidden()
  await expect(page.getByText('Try 1, waiting')).toBeVisible()
  // Sent again from a second press or a second round it would be a second try.
  await page.reload()
  await expect(page.getByText('Try 1, waiting')).toBeVisible()
  expect(await triesOf(piece)).toEqual([{ angleAtPressDeg: 31.4, verdict: 'waiting' }])
})

/** What this device keeps of screens; the bench's and the scripts alone may stand there. */
const keptAddresses = (page: Page) =>
  page.evaluate(async () => {
    const names = await caches.keys()
    const keys = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()))
    const addresses = keys.flat().map(({ url }) => new URL(url).pathname)
    // The number of the person whose screens they are.
    return addresses.filter((address) => address !== '/bench/kept-for')
  })

test('a bench screen loads again without a connection, and is gone when its person signs out', async ({
  page,
  context,
}) => {
  await admitDevice(page)
  const piece = await freshPiece()
  const address = `/bench/${piece.code}`
  await scanAndSignIn(page, address)
  await expect.poll(() => keptAddresses(page)).toContain(address)
  await expect.poll(async () => (await keptAddresses(page)).some((kept) => kept.endsWith('.js'))).toBe(true)
  await context.setOffline(true)
  await page.reload()
  await expect(page.getByText(/^As of \d\d:\d\d, no connection/)).toBeVisible()
  await atPress(page).fill('31.6')
  await page.getByRole('button', { name: 'Log this try' }).click()
  await expect(waiting(page)).toBeVisible()
  await page.reload()
  await expect(waiting(page)).toBeVisible()
  await expectNoAxeFaults(page)
  await page.goto('/bench/another-piece-0001')
  await expect(page.getByRole('heading', { name: 'No connection' })).toBeVisible()
  await page.goto(address)
  await context.setOffline(false)
  await expect(waiting(page)).toBeHidden()
  await expect(page.getByText('Try 1, waiting')).toBeVisible()
  await expect(page.getByText(/^As of/)).toBeHidden()
  expect(await triesOf(piece)).toEqual([{ angleAtPressDeg: 31.6, verdict: 'waiting' }])
  await page.goto(`/jobs/${piece.jobId}`)
  const others = (await keptAddresses(page)).filter((kept) => !/^\/(bench|_next\/static)\//.test(kept))
  expect(others.filter((kept) => kept !== '/bench')).toEqual([])
  await signOut(page)
  await expect
    .poll(async () => (await keptAddresses(page)).filter((kept) => /^\/bench/.test(kept)))
    .toEqual([])
  await context.setOffline(true)
  await page.goto(address)
  await expect(page.getByRole('heading', { name: 'No connection' })).toBeVisible()
  await expect(page.getByText(piece.code)).toBeHidden()
  await context.setOffline(false)
})

test('a try that is not sent yet corrects the next target on the device', async ({ page, context }) => {
  await admitDevice(page)
  const piece = await freshPiece()
  await scanAndSignIn(page, `/bench/${piece.code}`)
  await expect(page.getByText('Load to', { exact: true })).toBeVisible()
  await context.setOffline(true)
  await page.getByLabel('Loaded angle reached', { exact: true }).fill('37')
  await atPress(page).fill('30.2')
  await page.getByLabel('Angle after melt-out', { exact: true }).fill('29.8')
  await page.getByRole('button', { name: 'Log this try' }).click()
  await expect(waiting(page)).toBeVisible()
  await expect(page.getByText(/^Corrected on this device by 1 try/)).toBeVisible()
  await expectNoAxeFaults(page)
  await context.setOffline(false)
  await expect(waiting(page)).toBeHidden()
  await expect(page.getByText(/^Corrected on this device/)).toBeHidden()
  await expect(page.getByText('Try 1, waiting')).toBeVisible()
})

test('a refused try stays with its reason, and is kept once it is corrected', async ({ page }) => {
  await admitDevice(page)
  const piece = await freshPiece()
  await scanAndSignIn(page, `/bench/${piece.code}`)
  await atPress(page).fill('314')
  await page.getByRole('button', { name: 'Log this try' }).click()
  const refused = page.getByText('Not kept:').locator('..')
  await expect(refused).toContainText('angle at press: Allowed: 0° to 179.9°; met: 314°')
  await expectNoAxeFaults(page)
  await page.reload()
  await expect(page.getByText('Not kept:')).toBeVisible()
  await expect(atPress(page)).toHaveValue('314')
  expect(await triesOf(piece)).toEqual([])
  // Dropped by mistake it can be taken back, with all that was typed.
  await page.getByRole('button', { name: /^Drop: / }).click()
  await expect(page.getByText('Not kept:')).toBeHidden()
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(page.getByText('Not kept:')).toBeVisible()
  await expect(atPress(page)).toHaveValue('314')
  await atPress(page).fill('31.4')
  await page.getByRole('button', { name: 'Send it corrected' }).click()
  await expect(page.getByText('Try 1, waiting')).toBeVisible()
  await expect(page.getByText('Not kept:')).toBeHidden()
  expect(await triesOf(piece)).toEqual([{ angleAtPressDeg: 31.4, verdict: 'waiting' }])
})

test('a fault seen at the bench is opened once, after what was too short is corrected', async ({ page }) => {
  await admitDevice(page)
  const piece = await freshPiece()
  await scanAndSignIn(page, `/bench/${piece.code}`)
  await page.getByText('Something else is wrong with this piece').click()
  await page.getByRole('button', { name: 'Open a fault' }).click()
  await expect(page.getByText('Not kept: fault of')).toBeVisible()
  await expect(page.getByLabel('What is wrong')).toHaveAttribute('aria-invalid', 'true')
  await page.getByLabel('What is wrong').fill('Dropped: a dent beside bend 1')
  await page.getByRole('button', { name: 'Open a fault' }).click()
  await expect(page.getByText('Not kept:')).toBeHidden()
  await expect(page.getByText(/^Set this piece aside: N-\d+ is open$/)).toBeVisible()
  const faults = () =>
    servedRows<{ description: string }>('select description from "Nonconformance" where "pieceId" = $1', [
      piece.id,
    ])
  expect(await faults()).toEqual([{ description: 'Dropped: a dent beside bend 1' }])
  await expectNoAxeFaults(page)
})

test('a picture hangs on its try, and can be opened', async ({ page }) => {
  await admitDevice(page)
  const piece = await freshPiece()
  await scanAndSignIn(page, `/bench/${piece.code}`)
  await atPress(page).fill('31.4')
  await page.getByRole('button', { name: 'Log this try' }).click()
  await expect(page.getByText('Try 1, waiting')).toBeVisible()
  const picture = await page.screenshot()
  await page
    .getByLabel('Photograph the last try')
    .setInputFiles({ name: 'IMG 1.png', mimeType: 'image/png', buffer: picture })
  const link = page.getByRole('link', { name: 'Picture 1' })
  await expect(link).toBeVisible()
  const files = await servedRows<{ id: number; mediaType: string }>(
    `select f.id, f."mediaType" from "StoredFile" f join "BendRecord" b on b.id = f."bendRecordId"
     where b."pieceId" = $1`,
    [piece.id],
  )
  expect(files.map(({ mediaType }) => mediaType)).toEqual(['image/jpeg'])
  const answer = await page.request.get((await link.getAttribute('href')) ?? '')
  expect([answer.status(), answer.headers()['content-type']]).toEqual([200, 'image/jpeg'])
})

test('two clocks run side by side, outlive a reload and a lost connection, and stop at their own times', async ({
  page,
  context,
}) => {
  await admitDevice(page)
  const piece = await freshPiece()
  await scanAndSignIn(page, `/bench/${piece.code}`)
  const stops = page.getByRole('button', { name: /^Stop: / })
  await page.getByRole('button', { name: 'Start the clock' }).click()
  await expect(stops).toHaveCount(1)
  await page.getByLabel('Operation').selectOption({ index: 2 })
  await page.getByRole('button', { name: 'Start the clock' }).click()
  await expect(stops).toHaveCount(2)
  await expect(waiting(page)).toBeHidden()
  await page.reload()
  await expect(stops).toHaveCount(2)
  await expect(page.getByText(/runs since \d\d:\d\d/)).toHaveCount(2)

  // Forgotten: a time before the start is refused on the spot, and nothing is stopped without saying why.
  await page.getByText('It stopped earlier, I forgot').first().click()
  await page.getByLabel('Stopped at').first().fill('2020-01-01T08:00')
  await page.getByRole('button', { name: 'Stop it at that time' }).first().click()
  await expect(page.getByText(/^A time after .* when it was started/)).toBeVisible()
  await expect(page.getByText('Say why: it stands in the history')).toBeVisible()
  await expectNoAxeFaults(page)

  await context.setOffline(true)
  await stops.last().click()
  await expect(stops).toHaveCount(1)
  await expect(waiting(page)).toBeVisible()
  await context.setOffline(false)
  await expect(waiting(page)).toBeHidden()
  await stops.click()
  await expect(stops).toHaveCount(0)
  await page.reload()
  await expect(page.getByRole('button', { name: 'Start the clock' })).toBeVisible()
  await expect(stops).toHaveCount(0)
  const logs = await servedRows<{ ended: boolean }>(
    'select "endedAt" is not null as ended from "OperationLog" where "pieceId" = $1',
    [piece.id],
  )
  expect(logs).toEqual([{ ended: true }, { ended: true }])
})

/** Tells in the console when an entry has left this device: a page that is being left can't be asked. */
function tellOfWhatLeaves() {
  const remove: IDBObjectStore['delete'] = Reflect.get(IDBObjectStore.prototype, 'delete')
  IDBObjectStore.prototype.delete = function (key) {
    this.transaction.addEventListener('complete', () => console.info('left the device'))
    return remove.call(this, key)
  }
}

test.describe('a page asked for while the clock’s stop is on its way', () => {
  // A worker would ask for the page itself, where the test can't hold it.
  test.use({ serviceWorkers: 'block' })

  test('shows no clock that is stopped, though it was made before the shop kept the stop', async ({
    page,
  }) => {
    await page.addInitScript(tellOfWhatLeaves)
    await admitDevice(page)
    const piece = await freshPiece()
    const address = `/bench/${piece.code}`
    await scanAndSignIn(page, address)
    const stop = page.getByRole('button', { name: /^Stop: / })
    await page.getByRole('button', { name: 'Start the clock' }).click()
    await expect(stop).toHaveCount(1)
    await expect(waiting(page)).toBeHidden()

    let letGo = () => {}
    const made = new Promise<void>((resolve) => {
      letGo = resolve
    })
    await page.route('**/api/bench', async (route) => {
      await made
      await route.continue()
    })
    await page.route(
      (url) => url.pathname === address && !url.searchParams.has('_rsc'),
      async (route) => {
        const answer = await route.fetch()
        const left = page.waitForEvent('console', (message) => message.text() === 'left the device')
        letGo()
        await left
        await route.fulfill({ response: answer })
      },
      { times: 1 },
    )
    await stop.click()
    await expect(stop).toHaveCount(0)
    await page.reload()
    await expect(page.getByRole('button', { name: 'Start the clock' })).toBeVisible()
    await expect(stop).toHaveCount(0)
    const logs = await servedRows<{ ended: boolean }>(
      'select "endedAt" is not null as ended from "OperationLog" where "pieceId" = $1',
      [piece.id],
    )
    expect(logs).toEqual([{ ended: true }])
  })
})

test('the bench is shown no price, and everything on it can be pressed with a glove', async ({ page }) => {
  await admitDevice(page)
  const piece = await freshPiece()
  await scanAndSignIn(page, `/bench/${piece.code}`)
  const addresses = [
    '/bench',
    `/bench/${piece.code}`,
    `/jobs/${piece.jobId}`,
    `/parts/${piece.partId}`,
    '/bench/never-printed-0001',
  ]
  for (const address of addresses) {
    await page.goto(address)
    await expect(page.getByRole('heading', { level: 1 })).toBeVisible()
    const text = await page.locator('body').innerText()
    expect(text, address).not.toMatch(/[$€£]|\bUSD\b|\bprices?\b|\bmargin\b|\bquoted?\b/i)
    const html = await page.content()
    expect(html, address).not.toMatch(/priceCents|unitCents|rateCents/)
    const wide = await page.evaluate(() => document.documentElement.scrollWidth > window.innerWidth)
    expect([address, wide]).toEqual([address, false])
    await expectNoAxeFaults(page)
  }
  await page.goto(`/bench/${piece.code}`)
  // 44 px: WCAG 2.2, success criterion 2.5.5 Target Size (Enhanced).
  const small = await page
    .locator('.bench :is(button, input, select, summary, a.button)')
    .evaluateAll((targets) =>
      targets.flatMap((target) => {
        const { width, height } = target.getBoundingClientRect()
        const row = target.closest('label')?.getBoundingClientRect()
        const [w, h] = [Math.max(width, row?.width ?? 0), Math.max(height, row?.height ?? 0)]
        return width > 0 && (w < 44 || h < 44) ? [`${target.outerHTML.slice(0, 80)} ${w} x ${h}`] : []
      }),
    )
  expect(small).toEqual([])
})

test('a bench screen loads no more script than a weak phone bears', async ({ page }) => {
  await admitDevice(page)
  const piece = await freshPiece()
  await scanAndSignIn(page, `/bench/${piece.code}`)
  // Without what the sign-in before it has loaded.
  await page.goto(`/bench/${piece.code}`)
  const weight = benchPageWeight()
  expect(weight?.files.length).toBeGreaterThan(4)
  expect(weight?.scriptBytes).toBeLessThan(mostScriptBytes)
  // What is measured is what the page asks for.
  const asked = await page
    .locator('script[src]')
    .evaluateAll((scripts) =>
      scripts.filter((one) => !one.hasAttribute('nomodule')).map((one) => one.getAttribute('src') ?? ''),
    )
  const known = weight?.files.map(({ file }) => `/_next/${file}`) ?? []
  expect(asked.map((src) => src.split('?')[0]).filter((src) => !known.includes(src ?? ''))).toEqual([])
})
