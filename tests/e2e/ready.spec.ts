import AxeBuilder from '@axe-core/playwright'
import type { Page } from '@playwright/test'
import { expect, test } from './fixture.ts'
import { writeAs } from './forms.ts'

test.use({ record: 'demo' })

const openReady = async (page: Page, bay: string) => {
  await page.getByRole('link', { name: 'Ready to cover' }).click()
  await page.getByRole('link', { name: new RegExp(`^Bay ${bay} `) }).click()
  await expect(page.getByRole('heading', { name: new RegExp(`^Bay ${bay}`), level: 1 })).toBeVisible()
}

test('READY-1: a bay with valid tests within the limit is READY, with the reading that decides and its instrument', async ({
  page,
}) => {
  await openReady(page, 'G1')
  await expect(page.getByText('READY', { exact: true })).toBeVisible()
  await expect(page.getByText(/^\d+(\.\d)? % RH/).first()).toBeVisible()
  await expect(page.getByText('limit ≤ 75 % RH').first()).toBeVisible()
  await expect(page.getByText(/Salt check at 75 %.*passed/)).toBeVisible()
  await expect(page.getByText('If it is not ready, when?')).toBeHidden()
})

test('READY-2: a bay with a bad test is NOT PROVEN, cannot be accepted, and says when it may be dry as an estimate', async ({
  page,
}) => {
  await openReady(page, 'G2')
  await expect(page.getByText('NOT PROVEN', { exact: true })).toBeVisible()
  await expect(page.getByText('A bay that is NOT PROVEN cannot be accepted.')).toBeVisible()
  await expect(page.getByRole('radio', { name: 'Accept', exact: true })).toHaveCount(0)
  await expect(page.getByText(/The last test proves nothing/).first()).toBeVisible()
  await expect(page.getByText(/It never permits covering/)).toBeVisible({ timeout: 60_000 })
})

test('READY-3: another covering asks for another limit', async ({ page }) => {
  await openReady(page, 'G1')
  const covering = page.getByRole('combobox', { name: 'Covering to be laid' })
  await covering.click()
  await page.getByRole('option', { name: 'Timber, bonded' }).click()
  await expect(page.getByText('for timber, bonded')).toBeVisible()
  await expect(page.getByText('limit ≤ 75 % RH')).toBeHidden()
})

test('READY-4: accepting needs a check reading of one’s own and stands in the record after a reload', async ({
  page,
}) => {
  await writeAs(page, 'Tomas Reed')
  await openReady(page, 'G1')
  await page.getByRole('button', { name: 'Accept this bay' }).click()
  await expect(page.getByText(/accepting without having looked is worth nothing/)).toBeVisible()
  await page.getByLabel('My own check reading').fill('66 % RH at B3, probe 4417')
  await expect(page.getByText(/checked for myself \(66 % RH at B3, probe 4417\)/)).toBeVisible()
  await page.getByRole('button', { name: 'Accept this bay' }).click()
  await expect(page.getByText('Saved: Decision on covering, Bay G1')).toBeVisible()
  await page.reload()
  await openReady(page, 'G1')
  await expect(page.getByText('own check: 66 % RH at B3, probe 4417')).toBeVisible()
})

test('READY-5: refusing takes the open conditions as reasons and says when one looks again', async ({
  page,
}) => {
  await writeAs(page, 'Tomas Reed')
  await openReady(page, 'G2')
  await page.getByLabel('Another reason').fill('Dust on the north wall')
  await page.getByLabel('Next look on').fill('2027-01-11')
  await page.getByRole('button', { name: 'Record that it is not accepted' }).click()
  await expect(page.getByText('Saved: Decision on covering, Bay G2')).toBeVisible()
  await page.reload()
  await openReady(page, 'G2')
  const decisions = page
    .locator('section')
    .filter({ has: page.getByRole('heading', { name: 'Decisions on this bay' }) })
  await expect(decisions.getByText('Not accepted')).toBeVisible()
  await expect(decisions.getByText(/^Valid moisture test: /)).toBeVisible()
  await expect(decisions.getByText('Dust on the north wall')).toBeVisible()
  await expect(decisions.getByText('next look Mon 11 Jan 2027')).toBeVisible()
})

test('READY-6: the page prints on one sheet, READY or not', async ({ page }) => {
  for (const bay of ['G1', 'G2']) {
    await openReady(page, bay)
    if (bay === 'G2')
      await expect(page.getByText(/It never permits covering/)).toBeVisible({ timeout: 60_000 })
    const sheets = (await page.pdf({ format: 'A4' })).toString('latin1').match(/\/Type\s*\/Page\b/g)
    expect(sheets, bay).toHaveLength(1)
  }
})

for (const colour of ['light', 'dark'] as const) {
  test(`READY-7: the page has no serious fault of access, ${colour}`, async ({ page }) => {
    await page.emulateMedia({ colorScheme: colour })
    for (const bay of ['G1', 'G2']) {
      await openReady(page, bay)
      const { violations } = await new AxeBuilder({ page }).analyze()
      expect(violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')).toEqual([])
      expect(
        await page.evaluate(() => document.documentElement.scrollWidth - innerWidth),
      ).toBeLessThanOrEqual(0)
    }
  })
}
