import { test as base, type Page } from '@playwright/test'

export { type Browser, type BrowserContext, expect, type Locator, type Page } from '@playwright/test'

/** Opens as a person does who waits for the page before typing: back once its scripts have taken over. */
function waitingForScripts(page: Page): Page {
  const whenLive = async () => {
    await page.waitForFunction(() => !('earlyTyping' in window))
  }
  const goto = page.goto.bind(page)
  const reload = page.reload.bind(page)
  page.goto = async (...to) => {
    const answer = await goto(...to)
    await whenLive()
    return answer
  }
  page.reload = async (...how) => {
    const answer = await reload(...how)
    await whenLive()
    return answer
  }
  return page
}

/**
 * Playwright's test, which also fails when a page complains: an exception nobody caught, or console.error.
 * A test that provokes a complaint on purpose says which: `test.use({ expectedComplaints: [/403/] })`.
 */
export const test = base.extend<{ expectedComplaints: RegExp[]; complaintsFail: void }>({
  page: async ({ page }, use) => use(waitingForScripts(page)),
  expectedComplaints: [[], { option: true }],
  complaintsFail: [
    async ({ context, expectedComplaints }, use) => {
      const complaints: string[] = []
      const note = (text: string) => {
        if (!expectedComplaints.some((expected) => expected.test(text))) complaints.push(text)
      }
      const listen = (page: Page) => {
        page.on('pageerror', (error) => note(`uncaught: ${error.message}`))
        page.on('console', (message) => {
          if (message.type() === 'error') note(`${message.text()} (${message.location().url})`)
        })
      }
      context.pages().forEach(listen)
      context.on('page', listen)
      await use()
      if (complaints.length > 0) throw new Error(`The page complained:\n${complaints.join('\n')}`)
    },
    { auto: true },
  ],
})
