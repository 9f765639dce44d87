import AxeBuilder from '@axe-core/playwright'
import type { Page } from '@playwright/test'
import { expect, test } from './fixture.ts'
import { writeAs } from './forms.ts'

test.use({ record: 'demo' })

/** Working out takes seconds on a quiet machine. */
const patient = { timeout: 60_000 }

async function openWays(page: Page, bay: string) {
  await page.getByRole('link', { name: 'Ways to dry' }).click()
  await expect(page.getByRole('heading', { name: 'Ways to dry', level: 1 })).toBeVisible()
  await page.getByRole('combobox', { name: 'Bay or room' }).click()
  await page.getByRole('option', { name: `Bay ${bay}`, exact: true }).click()
}
async function typeOutdoors(page: Page, airC: string, rhPercent: string) {
  await page.getByLabel('Outdoor air', { exact: true }).fill(airC)
  await page.getByLabel('Outdoor humidity').fill(rhPercent)
}
const table = (page: Page) => page.getByRole('table', { name: 'Ways to dry, side by side' })
const row = (page: Page, name: string) =>
  table(page)
    .getByRole('row')
    .filter({ has: page.getByRole('rowheader', { name, exact: true }) })

test('WAYS-1: ways stand beside each other with dates, water and machines; what is not typed is not known', async ({
  page,
}) => {
  await openWays(page, 'F4')
  await expect(page.getByText(/Outdoor air .*: middle of the weather forecast noted/)).toBeVisible(patient)
  await typeOutdoors(page, '4', '85')
  await expect(page.getByText(/Outdoor air 4 °C, 85 % RH: typed on this page/)).toBeVisible(patient)
  await expect(row(page, 'Outdoor air').getByText(/m³\/h/).first()).toBeVisible(patient)
  await expect(table(page).getByRole('columnheader', { name: /^(Wait|Ventilate|Dehumidify)/ })).toHaveCount(3)
  await expect(
    row(page, 'Cost hire and energy')
      .getByText(/needs .*price of heat/)
      .first(),
  ).toBeVisible()
  await expect(page.getByText(/it never releases a bay/)).toBeVisible()

  await page.getByText('Machines, prices, ways to show').click()
  const typed = {
    Heat: '0.1',
    'One heater gives': '3',
    'Hire of a heater': '5',
    'Loss of walls and windows': '40',
  }
  for (const [label, value] of Object.entries(typed))
    await page.getByLabel(label, { exact: true }).fill(value)
  await expect(
    row(page, 'Cost hire and energy')
      .getByText(/^[\d,]+( to [\d,]+)? GBP$/)
      .first(),
  ).toBeVisible()
  await row(page, 'Cost hire and energy')
    .getByRole('button', { name: /^Why\? hire and energy until the likely date, ventilate/ })
    .first()
    .click()
  await expect(page.getByText('rates as typed on this page')).toBeVisible()
  await page.keyboard.press('Escape')

  await page.reload()
  await expect(page.getByLabel('Outdoor air', { exact: true })).toHaveValue('4')
})

test('WAYS-2: air that would wet the floor is said so; a wrong number names its box and leaves the rest', async ({
  page,
}) => {
  await openWays(page, 'F4')
  await typeOutdoors(page, '27', '90')
  await expect(page.getByText(/Ventilating would wet the floor/)).toBeVisible(patient)
  await expect(
    table(page)
      .getByRole('columnheader', { name: /Ventilate/ })
      .getByText('Not now'),
  ).toBeVisible()
  await expect(page.getByText(/does not reach the limit in two years under this air/).first()).toBeVisible()
  await page.getByLabel('Room height').fill('three')
  await expect(page.getByText('Room height: write a number.')).toBeVisible()
  await expect(table(page)).toBeVisible()
})

test('WAYS-3: a way that is chosen is written down for its bay as planned', async ({ page }) => {
  await writeAs(page, 'Ida Marsh')
  await openWays(page, 'F4')
  await page.getByRole('button', { name: 'Plan it: Dehumidify' }).click(patient)
  await expect(page.getByLabel('Note')).toHaveValue(
    /Way to dry: dehumidify\. Room .* An estimate, never a release\./,
  )
  await page.getByRole('button', { name: 'Write it down' }).click()
  await expect(page.getByText('Saved: Protection put on, Bay F4')).toBeVisible()
  await page.getByRole('link', { name: 'Show' }).click()
  await expect(page.getByRole('heading', { name: /^Protection put on/, level: 1 })).toBeVisible()
  await expect(page.getByText('Dehumidifier', { exact: true }).first()).toBeVisible()
  await expect(page.getByText(/Way to dry: dehumidify/).first()).toBeVisible()
})

for (const colour of ['light', 'dark'] as const) {
  test(`WAYS-4: the page has no serious fault of access and does not scroll sideways, ${colour}`, async ({
    page,
  }) => {
    await page.emulateMedia({ colorScheme: colour })
    await openWays(page, 'F4')
    await typeOutdoors(page, '4', '85')
    await expect(row(page, 'Outdoor air').getByText(/m³\/h/).first()).toBeVisible(patient)
    await page.getByText('Machines, prices, ways to show').click()
    const { violations } = await new AxeBuilder({ page }).analyze()
    expect(violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')).toEqual([])
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(
      0,
    )
    await page.emulateMedia({ colorScheme: colour, media: 'print' })
    const sheets = (await page.pdf({ preferCSSPageSize: true, format: 'A4' }))
      .toString('latin1')
      .match(/\/Type\s*\/Page\b/g)
    expect(sheets).toHaveLength(1)
  })
}
