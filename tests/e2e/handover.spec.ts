import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import AxeBuilder from '@axe-core/playwright'
import type { Page } from '@playwright/test'
import { readPdf } from '../electron/reports/read-pdf.ts'
import { expect, test } from './fixture.ts'

test.use({ record: 'demo' })
// A file of many pages is made while other tests may run.
test.describe.configure({ timeout: 120_000 })

const openHandover = async (page: Page) => {
  await page.getByRole('link', { name: 'Handover', exact: true }).click()
  await expect(page.getByRole('heading', { name: 'Handover', level: 1 })).toBeVisible()
  await expect(page.getByText(/things? missing/).first()).toBeVisible()
}

test('HANDOVER-1: two chosen bays become a PDF on the person’s disk, with its hash on screen and its facts inside', async ({
  page,
}) => {
  await openHandover(page)
  await page.getByRole('button', { name: 'None' }).click()
  await expect(page.getByText('Choose at least one bay first.')).toBeVisible()
  await expect(page.getByRole('button', { name: 'Make the file' })).toBeDisabled()
  await page.getByRole('checkbox', { name: 'Bay G1' }).check()
  await page.getByRole('checkbox', { name: 'Bay G2' }).check()
  await expect(page.getByText('2 of 15 chosen')).toBeVisible()
  await page.getByRole('checkbox', { name: /With drying estimates/ }).uncheck()
  const download = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Make the file' }).click()
  const file = await download
  expect(file.suggestedFilename()).toMatch(/^winter-job-demonstration-handover-\d{4}-\d\d-\d\d\.pdf$/)
  const bytes = readFileSync(await file.path())
  await expect(page.getByText(createHash('sha256').update(bytes).digest('hex'))).toBeVisible()
  const { text, pages } = readPdf(bytes)
  expect(pages).toBeGreaterThan(10)
  for (const fact of ['Known gaps', 'Bay G1', 'READY', 'Bay G2', 'NOT PROVEN', 'Salt check at 75 %'])
    expect(text).toContain(fact)
  expect(text).not.toContain('Bay F1')
})

test('HANDOVER-2: the making can be stopped, says so, and goes again', async ({ page }) => {
  await openHandover(page)
  await page.getByRole('button', { name: 'Make the file' }).click()
  await page.getByRole('button', { name: 'Stop' }).click()
  await expect(page.getByText('Stopped. No file was made.')).toBeVisible()
  await page.getByRole('button', { name: 'None' }).click()
  await page.getByRole('checkbox', { name: 'Bay G1' }).check()
  await page.getByRole('radio', { name: 'Story for another program (JSON)' }).check()
  const download = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Make the file' }).click()
  const story = JSON.parse(readFileSync(await (await download).path(), 'utf8'))
  expect(story).toMatchObject({ format: 'bay-story', story: { bay: { body: { name: 'G1' } } } })
})

for (const colour of ['light', 'dark'] as const) {
  test(`HANDOVER-3: the page has no serious fault of access and does not scroll sideways, ${colour}`, async ({
    page,
  }) => {
    await page.emulateMedia({ colorScheme: colour })
    await openHandover(page)
    await page.locator('summary').first().click()
    const { violations } = await new AxeBuilder({ page }).analyze()
    expect(violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')).toEqual([])
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(
      0,
    )
  })
}
