import { expect, test } from './fixture.ts'
import { choose, goTo, openFirstProject, pick, save, type } from './forms.ts'

test.beforeEach(async ({ page }) => openFirstProject(page))

test('RULES-1: a project sets its own value within the range and with a reason, and takes it back', async ({
  page,
}) => {
  await goTo(page, '/set-up/rules')
  await type(page, 'Find a rule', 'stay covered')
  const line = page.getByRole('row').filter({ hasText: 'How many days must the screed stay covered?' })
  await expect(line).toContainText('≥ 7 days')
  await expect(line).toContainText('learned-society guidance')
  await expect(line).toContainText('quoted second-hand')
  await line.getByRole('button', { name: /^Set own value/ }).click()
  const dialog = page.getByRole('dialog')
  await type(dialog, /^Value/, '90')
  await dialog.getByRole('button', { name: 'Save own value' }).click()
  await expect(dialog).toContainText('The value must be a number from 1 to 28 days.')
  await expect(dialog).toContainText('a limit without a reason cannot be defended')
  await type(dialog, /^Value/, '10')
  await type(dialog, 'Why this project differs', 'Contract, clause 4.2')
  await dialog.getByRole('button', { name: 'Save own value' }).click()
  await expect(line).toContainText('≥ 10 days')
  await expect(line).toContainText('company rule')
  await expect(line).toContainText('Because: Contract, clause 4.2')
  await page.reload()
  await type(page, 'Find a rule', 'stay covered')
  await expect(line).toContainText('≥ 10 days')
  await line.getByRole('button', { name: 'Take back the own value' }).click()
  await expect(line).toContainText('≥ 7 days')
  await goTo(page, '/entries')
  await page.getByRole('link', { name: 'Project opened' }).click()
  await expect(page.getByText(/Because: Own value for .*Contract, clause 4.2/).first()).toBeVisible()
})

test('RULES-2: where sources disagree the project chooses, with a reason', async ({ page }) => {
  await goTo(page, '/set-up/rules')
  await pick(page, 'From which day may people walk on the screed?', '7 days: the whole of the curing time')
  await type(page, 'Why the choice changes', 'Wish of the client')
  await page.getByRole('button', { name: 'Save the choice' }).click()
  await expect(page.getByRole('button', { name: 'Save the choice' })).toBeHidden()
  await page.reload()
  await expect(page.getByRole('radio', { name: '7 days: the whole of the curing time' })).toBeChecked()
})

test('SETUP-1: a change of the project is a correction that keeps the old value readable', async ({
  page,
}) => {
  await goTo(page, '/set-up/project')
  await page.getByRole('link', { name: 'Change' }).click()
  await type(page, /^Client/, 'Weir Housing')
  await type(page, 'Why is it corrected?', 'The client is known now')
  await save(page, 'Project opened', 'Save the correction')
  await expect(page.getByText('Because: The client is known now')).toBeVisible()
  await goTo(page, '/set-up/project')
  await expect(page.getByText('Weir Housing')).toBeVisible()
})

test('SETUP-2: an instrument is added and its check written down; a failed check shows', async ({ page }) => {
  await goTo(page, '/set-up/instruments')
  await expect(page.getByRole('heading', { name: 'No instrument yet' })).toBeVisible()
  await page.getByRole('link', { name: 'Add an instrument' }).click()
  await choose(page, 'Type', 'Hygrometer')
  await type(page, 'Serial number', 'H-9')
  await save(page, 'Instrument added', 'Save the instrument')
  await expect(page.getByText('Never checked in this record')).toBeVisible()
  await page.getByRole('link', { name: 'Write down a check' }).click()
  await pick(page, 'Check', 'Salt check at 75 %')
  await pick(page, 'Passed', 'No')
  await save(page, 'Instrument checked')
  await expect(page.getByText('Failed its check')).toBeVisible()
})

test('SETUP-3: the record is backed up, and checked from end to end with its result in words', async ({
  page,
}) => {
  await goTo(page, '/set-up/record')
  await page.getByRole('button', { name: 'Back up now' }).click()
  await expect(page.getByText(/^Backed up and checked, the record without photos: /)).toBeVisible()
  await page.getByRole('button', { name: 'Check the whole record' }).click()
  await expect(page.getByText(/^The record is whole\. 2 entries/)).toBeVisible()
})

test('SETUP-4: light or dark is chosen here and kept', async ({ page }) => {
  const page0 = await page.evaluate(() => getComputedStyle(document.body).backgroundColor)
  await page.getByText('Dark', { exact: true }).click()
  await expect
    .poll(() => page.evaluate(() => getComputedStyle(document.body).backgroundColor))
    .toBe('rgb(20, 23, 26)')
  expect(page0).toBe('rgb(246, 244, 238)')
  await page.reload()
  await expect
    .poll(() => page.evaluate(() => getComputedStyle(document.body).backgroundColor))
    .toBe('rgb(20, 23, 26)')
})
