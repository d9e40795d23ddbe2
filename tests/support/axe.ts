import { AxeBuilder } from '@axe-core/playwright'
import { expect, type Page } from '@playwright/test'

const levels = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']

/** What an automatic check by WCAG 2.2 level A and AA can find on the page as it stands now: nothing. */
export async function expectNoAxeFaults(
  page: Page,
  { except = [] }: { except?: readonly string[] } = {},
): Promise<void> {
  // Scrolled, the bar that stays at the top half covers whatever lies under it, and that counts as a small target.
  await page.evaluate(() => window.scrollTo({ top: 0, behavior: 'instant' }))
  const builder = new AxeBuilder({ page }).withTags(levels)
  for (const selector of except) builder.exclude(selector)
  const { violations } = await builder.analyze()
  const faults = violations.flatMap(({ id, help, nodes }) =>
    nodes.map((node) => `${id}: ${help} at ${node.target.join(' ')}\n${node.failureSummary ?? ''}`),
  )
  expect(faults).toEqual([])
}
