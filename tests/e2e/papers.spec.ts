import { expectNoAxeFaults } from '../support/axe'
import { expect, test } from '../support/browser-test'
import { readPrinted } from '../support/printed-traveller'
import { emptyServedDatabase, servedRows, servedSetupKey } from '../support/served-database'

test('the papers of a demo job open, print and download', async ({ page }) => {
  test.slow()
  await emptyServedDatabase()
  await page.goto(`/setup?key=${servedSetupKey()}`)
  await page.getByLabel('The demo shop').check()
  await page.getByLabel('Name of the shop').fill('Tidewrack Fabrication')
  await page.getByLabel('Your name').fill('Mara Quill')
  await page.getByLabel('Sign-in name').fill('mara')
  await page.getByLabel('Password').fill('salt-marsh-and-tide')
  await page.locator('button[type=submit]').click()
  await expect(page.getByRole('heading', { name: 'Today', level: 1 })).toBeVisible({ timeout: 240_000 })

  const [job] = await servedRows(
    `select id, "revisionId" from "Job" where status = 'open' order by id limit 1`,
  )
  await page.goto(`/jobs/${String(job?.id)}/traveller`)
  await expect(page.getByRole('heading', { name: 'Operations, in order' })).toBeVisible()
  await expectNoAxeFaults(page)
  await page.emulateMedia({ media: 'print' })
  await expect(page.getByRole('button', { name: 'Print' })).toBeHidden()
  await expect(page.getByText('at the press °').first()).toBeVisible()
  await page.emulateMedia({ media: null })

  for (const paper of ['letter', 'a4'] as const) {
    const pdf = await page.pdf({ format: paper === 'a4' ? 'A4' : 'Letter', preferCSSPageSize: true })
    const pages = await readPrinted(pdf, paper)
    const operations = await servedRows(
      `select position * 10 as step, name from "JobOperation" where "jobId" = ${Number(job?.id)} and "leftOutAtIssue" is null order by position`,
    )
    const pieces = await servedRows(
      `select number from "Piece" where "jobId" = ${Number(job?.id)} and status <> 'scrapped' order by number`,
    )
    const steps = operations.map(({ step, name }) => `${String(step)} ${String(name)}`)
    for (const [index, printed] of pages.entries()) {
      expect(printed.cut).toEqual([])
      expect(printed.head).toMatch(
        /^(Job|Piece) J-\d+.* P-\d+ revision A .*issue \d+ .*printed .* by Mara Quill$/,
      )
      expect(printed.pageLine).toContain(`page ${index + 1} of ${pages.length}`)
    }
    const ofJob = pages.filter(({ head }) => head.startsWith('Job'))
    const begin = (words: string) => steps.find((step) => words.startsWith(`${step} `) || words === step)
    const found = ofJob.flatMap(({ lines }) => lines.map(({ words }) => begin(words))).filter(Boolean)
    expect(found).toEqual(steps)
    for (const { lines } of ofJob.slice(1)) expect(begin(lines[0]?.words ?? '')).toBeDefined()
    for (const { lines } of ofJob) expect(begin(lines.at(-1)?.words ?? '')).toBeUndefined()
    // Where, how far turned, and the angles to read: 15 and 19 pt, capitals of 3.5 mm and more.
    const lines = pages.flatMap((printed) => printed.lines)
    for (const [row, leastPt] of [
      [/^\d+ [\d.]+ in \d+\.\d°$/, 15],
      [/^(\d+\.\d° ){2,3}\d+\.\d°$/, 19],
    ] as const) {
      const figures = lines.filter(({ words }) => row.test(words))
      expect(figures.length).toBeGreaterThan(0)
      for (const { sizePt } of figures) expect(sizePt).toBeGreaterThan(leastPt - 0.1)
    }
    expect(pages.length - ofJob.length).toBe(pieces.length)
  }

  for (const paper of ['traveller.pdf', 'traveller.pdf?piece=1', 'labels.pdf']) {
    const answer = await page.request.get(`/jobs/${String(job?.id)}/${paper}`)
    expect(answer.status()).toBe(200)
    expect(answer.headers()['content-type']).toBe('application/pdf')
    expect((await answer.body()).subarray(0, 5).toString()).toBe('%PDF-')
  }
  expect((await page.request.get(`/jobs/${String(job?.id)}/traveller.pdf?piece=999`)).status()).toBe(404)

  const [part] = await servedRows(
    `select "partId" as id from "PartRevision" where id = ${Number(job?.revisionId)}`,
  )
  await page.goto(`/parts/${String(part?.id)}/templates`)
  await expect(page.getByRole('heading', { name: /^Bend check/ }).first()).toBeVisible()
  await expectNoAxeFaults(page)
  const svg = page.getByRole('link', { name: /^SVG of Bend check/ }).first()
  const [download] = await Promise.all([page.waitForEvent('download'), svg.click()])
  expect(download.suggestedFilename()).toMatch(/\.svg$/)
  const numbers = await page.request.get(`/parts/${String(part?.id)}/numbers.pdf`)
  expect(numbers.status()).toBe(200)
})
