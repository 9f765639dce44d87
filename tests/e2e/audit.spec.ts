import type { Page } from '@playwright/test'
import { expectAccessible } from './accessible.ts'
import { expect, test } from './fixture.ts'
import { goTo, writeAs } from './forms.ts'

test.use({ record: 'demo' })
// Each walks through several parts of the page over a record of fifteen bays.
test.setTimeout(180_000)

const openAudit = async (page: Page) => {
  await page.getByRole('link', { name: 'Audit', exact: true }).click()
  await expect(page.getByRole('table', { name: 'Bays and what their records must hold' })).toBeVisible()
}
const cell = (page: Page, requirement: string, bay: string) =>
  page.getByRole('button', { name: new RegExp(`^${requirement} [^,]+, Bay ${bay}: `) })

test('AUDIT-1: bays against requirements; a cell opens its reason, the score answers why, keys walk', async ({
  page,
}) => {
  await openAudit(page)
  await expect(page.getByRole('columnheader', { name: /C12/ })).toBeVisible()
  await expect(cell(page, 'C12', 'G2')).toHaveAccessibleName('C12 Moisture, Bay G2: Not met')
  await expect(cell(page, 'C12', 'G1')).toHaveAccessibleName('C12 Moisture, Bay G1: Met')
  await expect(cell(page, 'C12', 'S6')).toHaveAccessibleName('C12 Moisture, Bay S6: Not yet')
  await expect(cell(page, 'C9', 'F1')).toHaveAccessibleName('C9 Heating, Bay F1: Does not apply')
  await cell(page, 'C12', 'G2').click()
  await expect(page.getByText(/The last test proves nothing: .*20 against ≥ 72 h/)).toBeVisible()
  await page.keyboard.press('ArrowLeft')
  await expect(cell(page, 'C11', 'G2')).toBeFocused()
  await page.keyboard.press('Enter')
  await expect(page.getByRole('heading', { name: /C11 Flatness, Bay G2/ })).toBeVisible()
  await page.keyboard.press('Escape')
  await expect(page.getByRole('heading', { name: /C11 Flatness, Bay G2/ })).toBeHidden()
  await page.getByRole('button', { name: 'Why? Completeness of Bay G1' }).click()
  await expect(page.getByText(/It only sorts: a bay is let go when all are met/)).toBeVisible()
  await page.keyboard.press('Escape')
  await cell(page, 'C12', 'G2').click()
  await page.getByRole('link', { name: /^Moisture test, / }).click()
  await expect(page.getByRole('heading', { name: 'Moisture test', level: 1 })).toBeVisible()
})

test('AUDIT-2: a gap is answered by a non-conformance that somebody else closes', async ({ page }) => {
  await writeAs(page, 'Ida Marsh')
  await openAudit(page)
  await cell(page, 'C7', 'G3').click()
  await page.getByRole('button', { name: 'Raise a non-conformance' }).click()
  await expect(page.getByRole('textbox', { name: 'Rule or finding' })).toHaveValue('C7: Edge strip')
  await page.getByRole('button', { name: 'Raise it' }).click()
  await expect(page.getByText('Saved: Non-conformance raised, Bay G3')).toBeVisible()
  await expect(cell(page, 'C13', 'G3')).toHaveAccessibleName(/Not met$/)

  await page.getByRole('link', { name: 'Held and raised' }).click()
  await expect(page.getByRole('button', { name: 'Close it' })).toBeDisabled()
  await expect(page.getByText('You raised it: somebody else has to close it.')).toBeVisible()
  await writeAs(page, 'Nora Vale')
  await page.getByRole('button', { name: 'Close it' }).click()
  await page.getByRole('textbox', { name: 'Cause' }).fill('The camera was lost')
  await page.getByRole('textbox', { name: 'What was done' }).fill('Two people looked along every wall')
  await page.getByRole('button', { name: 'Close it' }).click()
  await expect(page.getByText('Saved: Non-conformance closed, Bay G3')).toBeVisible()
  await expect(page.getByText(/Closed by Nora Vale/)).toBeVisible()

  await page.getByRole('link', { name: 'Bays', exact: true }).click()
  await expect(cell(page, 'C7', 'G3')).toHaveAccessibleName(/Answered with a reason$/)
  await expect(cell(page, 'C13', 'G3')).toHaveAccessibleName(/: Met$/)
})

test('AUDIT-3: questions, tests, alerts, what is held, changes and the chain are told in words', async ({
  page,
}) => {
  await openAudit(page)
  const part = async (name: string) => page.getByRole('link', { name, exact: true }).click()
  await part('Questions')
  await expect(page.getByText(/hygrometer H-117 had failed its last check before this/)).toBeVisible()
  await expect(page.getByText('1 question', { exact: true })).toBeVisible()
  await part('Tests')
  await page.getByText('Not valid', { exact: true }).click()
  await expect(page.getByRole('row', { name: /Bay G2, B1/ })).toContainText('Invalid')
  await expect(page.getByRole('row', { name: /Bay G1, B1/ })).toHaveCount(0)
  await part('Alerts')
  await expect(page.getByText('Screed frozen early')).toBeVisible()
  await part('Held and raised')
  await expect(page.getByText(/Box stood 20 h and the instrument had failed its check/)).toBeVisible()
  await part('Changes')
  await expect(page.getByText('Nothing was corrected or withdrawn.')).toBeVisible()
  await part('Chain check')
  await page.getByRole('button', { name: 'Check the whole record' }).click()
  await expect(page.getByText(/^The record is whole|entries/).last()).toBeVisible({ timeout: 60_000 })
})

for (const colour of ['light', 'dark'] as const) {
  test(`AUDIT-4: the parts have no serious fault of access and do not scroll sideways, ${colour}`, async ({
    page,
  }) => {
    await page.emulateMedia({ colorScheme: colour })
    await openAudit(page)
    await cell(page, 'C12', 'G2').click()
    await expect(page.getByText(/The last test proves nothing/)).toBeVisible()
    await expectAccessible(page, 'bays')
    await page.setViewportSize({ width: 1024, height: 800 })
    for (const name of ['bays', 'questions', 'tests', 'alerts', 'holds', 'changes', 'chain']) {
      await goTo(page, `/audit/${name}`)
      await expect(page.getByRole('heading', { name: 'Audit', level: 1 })).toBeVisible()
      expect(
        await page.evaluate(() => document.documentElement.scrollWidth - innerWidth),
      ).toBeLessThanOrEqual(0)
    }
    await goTo(page, '/audit')
    await page.getByRole('rowheader', { name: 'Bay G2' }).getByRole('link').click()
    await expect(page.getByText('One person’s word').first()).toBeVisible()
    await expectAccessible(page, 'one bay')
  })
}
