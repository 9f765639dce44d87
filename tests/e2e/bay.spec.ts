import { readFileSync } from 'node:fs'
import AxeBuilder from '@axe-core/playwright'
import type { Page } from '@playwright/test'
import { parse } from 'csv-parse/sync'
import { expect, test } from './fixture.ts'
import { writeAs } from './forms.ts'

test.use({ record: 'demo' })

const openBay = async (page: Page, floor: string, bay: string) => {
  await page.getByRole('link', { name: 'Floors' }).click()
  await page.getByText(floor, { exact: true }).click()
  await page.getByRole('button', { name: new RegExp(`^${bay},`) }).click()
  await page.getByRole('link', { name: 'Its life' }).click()
  await expect(page.getByRole('heading', { name: `Bay ${bay}`, level: 1 })).toBeVisible()
}
const forecastMs = 60_000

test('BAY-1: the frozen bay shows its lanes, its frost and the alert pinned to that night', async ({
  page,
}) => {
  await openBay(page, 'First floor', 'F1')
  const lanes = page.getByRole('group', { name: 'Happenings' })
  for (const lane of ['Laying', 'Sheets', 'Protection', 'Traffic', 'Tests', 'Defects']) {
    await expect(lanes.getByText(lane, { exact: true })).toBeVisible()
  }
  await page.getByRole('button', { name: 'First 7 days' }).click()
  const pin = page.getByRole('group', { name: 'Alerts' }).getByRole('button', { name: /Screed frozen early/ })
  await pin.click()
  const panel = page.getByRole('complementary', { name: 'Screed frozen early' })
  await expect(panel.getByRole('button', { name: /Coldest in the screed: −\d/ }).first()).toBeVisible()
})

test('BAY-2: a bar leads to its entry with author, history and what it led to', async ({ page }) => {
  await openBay(page, 'First floor', 'F1')
  await page
    .getByRole('button', { name: /^Whole sheet/ })
    .first()
    .press('Enter')
  const panel = page.getByRole('complementary', { name: 'Sheet laid' })
  await expect(panel.getByText('Polyethylene sheet')).toBeVisible()
  await expect(panel.getByText(/\(typed\)/)).toBeVisible()
  await expect(panel.getByText('Never changed.')).toBeVisible()
  await expect(panel.getByRole('heading', { name: 'Sheet laid' })).toBeFocused()
  await panel.getByRole('button', { name: 'Close' }).click()
  await expect(panel).toBeHidden()
})

test('BAY-3: the cursor is moved by keys and says the readings under it', async ({ page }) => {
  await openBay(page, 'First floor', 'F1')
  await page.getByRole('button', { name: 'First 7 days' }).click()
  const cursor = page.getByRole('slider', { name: 'Moment on the axis' })
  await cursor.focus()
  await page.keyboard.press('ArrowLeft')
  await expect(cursor).toHaveAttribute('aria-valuetext', /day \d.*In the screed −?\d+(\.\d)? °C/)
})

test('BAY-4: the chart is read as a table, and the saved CSV holds every reading and the frost', async ({
  page,
}) => {
  await openBay(page, 'First floor', 'F1')
  await page.getByRole('button', { name: 'As a table' }).click()
  await expect(page.getByRole('table').filter({ hasText: 'Whole sheet' })).toBeVisible()
  const files: string[] = []
  page.on('download', (download) => files.push(download.suggestedFilename()))
  const readings = page.waitForEvent('download', (download) => /readings/.test(download.suggestedFilename()))
  await page.getByRole('button', { name: 'Save CSV' }).click()
  const rows = parse(readFileSync(await (await readings).path(), 'utf8'), {
    bom: true,
    columns: true,
  }) as Record<string, string>[]
  expect(rows.length).toBeGreaterThan(500)
  const coldest = Math.min(
    ...rows
      .map((row) => row['In the screed [°C]'])
      .filter(Boolean)
      .map(Number),
  )
  expect(coldest).toBeLessThan(0)
  await expect.poll(() => files).toContain('bay-f1-its-life.csv')
})

test('BAY-5: the life of the bay is saved as a picture', async ({ page }) => {
  await openBay(page, 'First floor', 'F1')
  const saved = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Save PNG' }).click()
  const download = await saved
  expect(download.suggestedFilename()).toBe('bay-f1-its-life.png')
  const bytes = readFileSync(await download.path())
  expect(bytes.subarray(1, 4).toString()).toBe('PNG')
  expect(bytes.readUInt32BE(16)).toBeGreaterThan(1200)
  expect(bytes.length).toBeGreaterThan(40_000)
})

test('BAY-6: the estimate is a range with what drives it, and says that it never permits covering', async ({
  page,
}) => {
  await openBay(page, 'First floor', 'F1')
  await expect(page.getByText(/^Likely (by )?\d/)).toBeVisible({ timeout: forecastMs })
  await expect(page.getByText(/^Cautious/)).toBeVisible()
  await expect(
    page
      .getByText(/days for 1 % RH/)
      .or(page.getByText('for 1 % RH'))
      .first(),
  ).toBeVisible()
  await expect(
    page.getByText('An estimate for planning. It never permits covering: only a valid test does.'),
  ).toBeVisible()
  await expect(page.getByText('Likely (10 to 90 %)')).toBeVisible()
})

test('BAY-7: an open alert is answered with a sentence and not without', async ({ page }) => {
  await writeAs(page)
  await openBay(page, 'First floor', 'F1')
  await page.getByRole('button', { name: 'Answer' }).first().click()
  await page.getByRole('button', { name: 'Save the answer' }).click()
  await expect(page.getByText(/no alert is closed without a sentence/)).toBeVisible()
  await page.getByLabel('What was done, or why it can stand').fill('Cores booked for Thursday')
  await page.getByRole('button', { name: 'Save the answer' }).click()
  await expect(page.getByText('Saved: Alert answered, Bay F1')).toBeVisible()
})

for (const colour of ['light', 'dark'] as const) {
  test(`BAY-8: the life of a bay has no serious fault of access, ${colour}`, async ({ page }) => {
    await page.emulateMedia({ colorScheme: colour })
    await openBay(page, 'First floor', 'F1')
    await expect(page.getByText(/^Likely (by )?\d/)).toBeVisible({ timeout: forecastMs })
    await page
      .getByRole('button', { name: /^Whole sheet/ })
      .first()
      .click()
    const { violations } = await new AxeBuilder({ page }).analyze()
    expect(violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')).toEqual([])
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(
      0,
    )
  })
}
