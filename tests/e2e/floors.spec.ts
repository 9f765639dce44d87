import AxeBuilder from '@axe-core/playwright'
import type { Page } from '@playwright/test'
import { expect, test } from './fixture.ts'
import { writeAs } from './forms.ts'

test.use({ record: 'demo' })

const openFloor = async (page: Page, floor: string) => {
  await page.getByRole('link', { name: 'Floors' }).click()
  await page.getByText(floor, { exact: true }).click()
  await expect(page.locator('[data-bay]').first()).toBeVisible()
}
/** Where a bay is drawn, in pixels of the page, without the width of its line. */
const boxOf = async (page: Page, bay: string) => {
  const shape = page.locator(`[data-bay=${bay}] polygon`)
  const corners = ((await shape.getAttribute('points')) ?? '')
    .split(' ')
    .map((corner) => corner.split(',').map(Number))
  const frame = await page.getByRole('group', { name: /^Plan of/ }).boundingBox()
  if (frame === null || corners.length < 3) throw new Error(`Bay ${bay} is not on the plan`)
  const xs = corners.map(([x]) => frame.x + x!)
  const ys = corners.map(([, y]) => frame.y + y!)
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)]
  return { left, top, bottom, width: right - left, height: bottom - top }
}

test('FLOORS-1: a bay is picked by keys and shows state, next act and the ways on', async ({ page }) => {
  await openFloor(page, 'First floor')
  const bay = page.getByRole('button', { name: /^F1, Stopped/ })
  await bay.focus()
  await page.keyboard.press('Enter')
  await expect(bay).toHaveAttribute('aria-pressed', 'true')
  const card = page.getByRole('region', { name: 'Bay F1' })
  await expect(card.getByText('Screed frozen early', { exact: true })).toBeVisible()
  await card.getByRole('link', { name: 'Its life' }).click()
  await expect(page.getByRole('heading', { name: 'Bay F1', level: 1 })).toBeVisible()
})

test('FLOORS-2: a bay drawn by typing its length and width is there after a reload, where it was typed', async ({
  page,
}) => {
  await writeAs(page, 'Ida Marsh')
  await openFloor(page, 'Ground floor')
  await page.getByRole('button', { name: 'Draw a bay' }).click()
  await page.getByLabel('Bay', { exact: true }).fill('G9')
  await page.getByRole('textbox', { name: 'Length' }).fill('4')
  await page.getByRole('textbox', { name: 'Width' }).fill('3.5')
  await page.getByLabel('Starts at x').fill('0')
  await page.getByLabel('Starts at y').fill('5.5')
  await expect(page.getByLabel('Shape').getByText('14 m²').first()).toBeVisible()
  await page.getByRole('button', { name: 'Save the bay' }).click()
  await expect(page.getByText('Saved: Bay planned, Bay G9')).toBeVisible()
  await page.reload()
  await openFloor(page, 'Ground floor')
  const [drawn, below] = [await boxOf(page, 'G9'), await boxOf(page, 'G1')]
  expect(drawn.width / drawn.height).toBeCloseTo(4 / 3.5, 3)
  expect(drawn.left).toBeCloseTo(below.left, 3)
  expect(drawn.bottom).toBeCloseTo(below.top, 3)
})

test('FLOORS-3: a bay dragged on the plan catches on the corner of its neighbour and is there after a reload', async ({
  page,
}) => {
  await writeAs(page, 'Ida Marsh')
  await openFloor(page, 'Ground floor')
  await page.getByRole('button', { name: 'Draw a bay' }).click()
  await page.getByLabel('Bay', { exact: true }).fill('G8')
  const neighbour = await boxOf(page, 'G1')
  // Begun a few pixels beside the upper left corner of G1: the corner draws it to itself.
  const [x, y] = [neighbour.left + 5, neighbour.top - 4]
  await page.mouse.move(x, y)
  await page.mouse.down()
  await page.mouse.move(x + 40, y - 40, { steps: 6 })
  await page.mouse.move(x + 60, y - 60, { steps: 6 })
  await page.mouse.up()
  await expect(page.getByRole('button', { name: /^Corner 1: x 0 m, y 5.5 m/ })).toBeVisible()
  // What was dragged stands in the boxes as it would have been typed.
  await expect(page.getByRole('textbox', { name: 'Starts at y' })).toHaveValue('5.5')
  await expect(page.getByRole('textbox', { name: 'Length' })).toHaveValue(/^\d+(\.\d)?$/)
  const corner = page.getByRole('button', { name: /^Corner 3/ })
  const before = await corner.getAttribute('aria-label')
  await corner.focus()
  await page.keyboard.press('ArrowUp')
  await expect(corner).not.toHaveAttribute('aria-label', before ?? '')
  await page.getByRole('button', { name: 'Save the bay' }).click()
  await expect(page.getByText('Saved: Bay planned, Bay G8')).toBeVisible()
  await page.reload()
  await openFloor(page, 'Ground floor')
  const [drawn, after] = [await boxOf(page, 'G8'), await boxOf(page, 'G1')]
  expect(drawn.left).toBeCloseTo(after.left, 3)
  expect(drawn.bottom).toBeCloseTo(after.top, 3)
})

test('FLOORS-4: an outline that crosses itself is refused with a sentence, and nothing is written', async ({
  page,
}) => {
  await writeAs(page, 'Ida Marsh')
  await openFloor(page, 'Ground floor')
  await page.getByRole('button', { name: 'Draw a bay' }).click()
  await page.getByLabel('Bay', { exact: true }).fill('G7')
  await page.getByRole('textbox', { name: 'Length' }).fill('4')
  await page.getByRole('textbox', { name: 'Width' }).fill('4')
  await page.getByLabel('Starts at y').fill('6')
  // Pull the third corner far to the left of the fourth: the outline becomes a bow.
  const corner = page.getByRole('button', { name: /^Corner 3/ })
  await corner.focus()
  for (let metre = 0; metre < 7; metre++) await page.keyboard.press('Shift+ArrowLeft')
  await page.getByRole('button', { name: /^Corner 3/ }).press('Shift+ArrowDown')
  await page.getByRole('button', { name: /^Corner 3/ }).press('Shift+ArrowDown')
  await expect(page.getByLabel('Shape').getByText(/Side \d of the outline meets side \d/)).toBeVisible()
  await page.getByRole('button', { name: 'Save the bay' }).click()
  await expect(page.getByText(/must go once around the bay/).first()).toBeVisible()
  await expect(page.getByText(/^Saved/)).toBeHidden()
})

test('FLOORS-5: the outline of a bay is changed with a reason, and the entry shows both', async ({
  page,
}) => {
  // The quality manager: another person's plan is theirs to correct.
  await writeAs(page, 'Nora Vale')
  await openFloor(page, 'Second floor')
  await page.getByRole('button', { name: /^S6/ }).click()
  await page.getByRole('button', { name: 'Change the outline' }).click()
  const corner = page.getByRole('button', { name: /^Corner 2/ })
  await corner.focus()
  await page.keyboard.press('Shift+ArrowRight')
  await page.getByLabel('Why is it corrected?').fill('The door stands one metre further')
  await page.getByRole('button', { name: 'Save the outline' }).click()
  await expect(page.getByText('Saved: Bay planned, Bay S6')).toBeVisible()
  await page.getByRole('link', { name: 'Show', exact: true }).click()
  await expect(page.getByText('The door stands one metre further').first()).toBeVisible()
})

for (const colour of ['light', 'dark'] as const) {
  test(`FLOORS-6: the plan has no serious fault of access, ${colour}`, async ({ page }) => {
    await page.emulateMedia({ colorScheme: colour })
    await openFloor(page, 'First floor')
    await page.getByRole('button', { name: /^F1/ }).click()
    await expect(page.getByRole('region', { name: 'Bay F1' })).toBeVisible()
    const { violations } = await new AxeBuilder({ page }).analyze()
    expect(violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')).toEqual([])
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(
      0,
    )
  })
}
