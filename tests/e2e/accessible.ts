import AxeBuilder from '@axe-core/playwright'
import { expect, type Page } from '@playwright/test'

/** Fails on any serious or critical finding of axe, and when the page scrolls sideways. */
export async function expectAccessible(page: Page, where: string): Promise<void> {
  const { violations, passes } = await new AxeBuilder({ page }).analyze()
  expect(passes.length, `axe looked at something on ${where}`).toBeGreaterThan(10)
  const bad = violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(
      ({ id, nodes }) =>
        `${where}: ${id}: ${nodes.map(({ html, failureSummary }) => `${html} ${failureSummary}`).join('; ')}`,
    )
  expect(bad).toEqual([])
  const tooWide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)
  expect(tooWide, `${where} scrolls sideways by this many px`).toBeLessThanOrEqual(0)
}
