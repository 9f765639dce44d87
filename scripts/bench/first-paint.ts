import { chromium } from '@playwright/test'
import { findBrowser } from '../browser.mjs'
import { startDemoHost } from '../docs/demo-host.ts'
import { type Measured, median } from './measure.ts'

const runs = 5
const goalMs = 1500

/**
 * How long a person waits for Today of the demonstration once the address is there: a fresh browser context each time,
 * nothing in its cache. The yardstick is the same browser opening a page without anything in it.
 */
export default async function firstPaint(): Promise<Measured[]> {
  const { url, stop } = await startDemoHost()
  const browser = await chromium.launch({
    executablePath: findBrowser() ?? undefined,
    args: ['--no-sandbox', '--disable-gpu', '--disable-dev-shm-usage', '--disable-background-networking'],
  })
  try {
    const timed = async (address: string, isThere: string) => {
      const context = await browser.newContext({ viewport: { width: 1280, height: 800 } })
      const page = await context.newPage()
      const startedAt = performance.now()
      await page.goto(address)
      await page.locator(isThere).first().waitFor({ state: 'visible' })
      const took = performance.now() - startedAt
      await context.close()
      return took
    }
    const today: number[] = []
    const empty: number[] = []
    for (let run = 0; run < runs; run++) {
      empty.push(await timed('data:text/html,<main>empty</main>', 'main'))
      today.push(await timed(url, 'main h1'))
    }
    const measured = median(today)
    const yardstick = median(empty)
    return [
      {
        name: 'Today of the demonstration is there, first time',
        measured: today[0]!,
        unit: 'ms',
        yardstick,
        ratio: today[0]! / yardstick,
        goal: `≤ ${goalMs} ms`,
        met: today[0]! <= goalMs,
      },
      {
        name: `Today of the demonstration is there, median of ${runs}`,
        measured,
        unit: 'ms',
        yardstick,
        ratio: measured / yardstick,
        goal: `≤ ${goalMs} ms`,
        met: measured <= goalMs,
      },
    ]
  } finally {
    await browser.close()
    await stop()
  }
}
