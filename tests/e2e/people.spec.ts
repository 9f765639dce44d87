import type { Page } from '@playwright/test'
import { expectAccessible } from './accessible.ts'
import { expect as impatient, test } from './fixture.ts'
import { goTo, writeAs } from './forms.ts'

test.use({ record: 'demo', expectedTrouble: [/403|422/] })

// A PIN costs a second of work, and a busy machine has others to do.
const expect = impatient.configure({ timeout: 30_000 })
test.beforeEach(() => test.setTimeout(240_000))

const pin = '482139'
const wrong = '771204'

const personCard = (page: Page, name: string) => page.getByRole('listitem').filter({ hasText: name })
const setPin = async (page: Page, name: string) => {
  await goTo(page, '/set-up/people')
  await personCard(page, name).getByRole('button', { name: 'Set a PIN' }).click()
  const dialog = page.getByRole('dialog')
  await dialog.getByLabel('New PIN', { exact: true }).fill(pin)
  await dialog.getByLabel('New PIN again').fill(pin)
  await dialog.getByRole('button', { name: 'Set the PIN' }).click()
  await expect(dialog).toBeHidden()
  await expect(personCard(page, name)).toContainText('PIN set')
}
const openReady = async (page: Page, bay: string) => {
  await page.getByRole('link', { name: 'Ready to cover' }).click()
  await page.getByRole('link', { name: new RegExp(`^Bay ${bay} `) }).click()
  await expect(page.getByRole('heading', { name: new RegExp(`^Bay ${bay}`), level: 1 })).toBeVisible()
}
const decideEdgeStrip = async (page: Page) => {
  await page.getByRole('link', { name: 'Floors', exact: true }).click()
  await page.getByText('Second floor', { exact: true }).click()
  await page.getByRole('button', { name: /^S6,/ }).click()
  await page.getByRole('link', { name: 'Its life' }).click()
  const panel = page
    .locator('section')
    .filter({ has: page.getByRole('heading', { name: 'Hold points', exact: true }) })
  await panel.locator('ol > li').filter({ hasText: 'Edge strip' }).getByRole('button').click()
  await panel.getByRole('button', { name: 'Decide' }).click()
  await panel.getByLabel('What was seen').fill('Whole, above finished level at every wall')
  return panel
}

test('PEOPLE-1: a PIN is set; releasing asks for it, a wrong one is refused, the right one writes what was filled in', async ({
  page,
}) => {
  await goTo(page, '/set-up/people')
  await expect(page.getByText(/names are taken at their word/)).toBeVisible()
  await setPin(page, 'Nora Vale')
  await expect(page.getByText(/names are taken at their word/)).toBeHidden()
  await writeAs(page, 'Nora Vale')
  await page.getByRole('button', { name: 'Lock now' }).click()
  await expect(page.getByRole('button', { name: 'Lock now' })).toBeHidden()

  const panel = await decideEdgeStrip(page)
  await panel.getByRole('button', { name: 'Save the decision' }).click()
  const dialog = page.getByRole('dialog', { name: 'Sign as Nora Vale' })
  await expect(dialog.getByLabel('PIN', { exact: true })).toBeFocused()
  await expectAccessible(page, 'PIN dialog')
  await dialog.getByLabel('PIN', { exact: true }).fill(wrong)
  await dialog.getByRole('button', { name: 'Sign' }).click()
  await expect(dialog.getByRole('alert')).toContainText(
    'The PIN is wrong. 4 more tries before one has to wait.',
  )
  await expect(page.getByText('Saved: Hold point released')).toBeHidden()
  await dialog.getByLabel('PIN', { exact: true }).fill(pin)
  await page.keyboard.press('Enter')
  await expect(page.getByText('Saved: Hold point released, Bay S6')).toBeVisible()
  await expect(page.getByRole('button', { name: 'Lock now' })).toBeVisible()
})

test('PEOPLE-2: five wrong PINs and no more is taken, which the set-up tells; declining leaves what was typed', async ({
  page,
}) => {
  await setPin(page, 'Nora Vale')
  await writeAs(page, 'Nora Vale')
  await page.getByRole('button', { name: 'Lock now' }).click()
  const panel = await decideEdgeStrip(page)
  await panel.getByRole('button', { name: 'Save the decision' }).click()
  const dialog = page.getByRole('dialog', { name: 'Sign as Nora Vale' })
  for (const told of [
    /4 more tries/,
    /3 more tries/,
    /2 more tries/,
    /1 more try/,
    /5 times in a row.*No PIN is taken for the next 1 min/,
  ]) {
    await dialog.getByLabel('PIN', { exact: true }).fill(wrong)
    await dialog.getByRole('button', { name: 'Sign' }).click()
    await expect(dialog.getByRole('alert')).toContainText(told)
  }
  await dialog.getByLabel('PIN', { exact: true }).fill(pin)
  await dialog.getByRole('button', { name: 'Sign' }).click()
  await expect(dialog.getByRole('alert')).toContainText('Too many wrong tries')
  await dialog.getByRole('button', { name: 'Not now' }).click()
  await expect(panel.getByLabel('What was seen')).toHaveValue('Whole, above finished level at every wall')
  await expect(panel.getByRole('alert').first()).toContainText('the PIN of the person who signs is needed')
  await goTo(page, '/set-up/people')
  await expect(personCard(page, 'Nora Vale')).toContainText(/No PIN taken for the next (1 min|\d+ s)/)
})

test('PEOPLE-3: who has no PIN sets one at the first signature; the floor layer accepts with a measured check, and the waiver names who ordered it', async ({
  page,
}) => {
  await setPin(page, 'Nora Vale')
  await writeAs(page, 'Tomas Reed')
  await openReady(page, 'G1')
  await expect(page.getByText(/^The tests count until .*, or until anything wets the floor/)).toBeVisible()
  await page.getByLabel('Value read, % RH').fill('66,5')
  await page.getByRole('button', { name: 'Accept this bay' }).click()
  await expect(page.getByRole('alert')).toContainText('Say at which place you read it.')
  await page.getByLabel('At which place').fill('B3')
  await expect(
    page.getByText(/checked for myself \(66\.5 % RH at B3, insulated hygrometer box\)/),
  ).toBeVisible()
  await page.getByRole('button', { name: 'Accept this bay' }).click()
  const dialog = page.getByRole('dialog', { name: 'Set a PIN for Tomas Reed' })
  await dialog.getByLabel('New PIN', { exact: true }).fill('123456')
  await dialog.getByRole('button', { name: 'Set and sign' }).click()
  await expect(
    dialog.getByText('The PIN must not be one digit again and again, or digits in a row.'),
  ).toBeVisible()
  await dialog.getByLabel('New PIN', { exact: true }).fill(pin)
  await dialog.getByLabel('New PIN again').fill(pin)
  await dialog.getByRole('button', { name: 'Set and sign' }).click()
  await expect(page.getByText('Saved: Decision on covering, Bay G1')).toBeVisible()
  await expect(page.getByText('own check: 66.5 % RH at B3, insulated hygrometer box')).toBeVisible()

  await openReady(page, 'G2')
  await page.getByText('Cover before it is ready', { exact: true }).click()
  await page.getByLabel('Ordered by (name)').fill('Iris Penn')
  await page.getByLabel('In which role').fill('client’s agent')
  await page.getByLabel('What may come of it, as it was explained').fill('Blisters and a ruined covering.')
  await expect(
    page.getByText(
      /because Iris Penn \(client’s agent\) ordered it, knowing what was read \(no valid reading\) and what is asked \(≤ 75 % RH\)/,
    ),
  ).toBeVisible()
  await page.getByRole('button', { name: 'Record the waiver' }).click()
  await expect(page.getByText('Saved: Decision on covering, Bay G2')).toBeVisible()
})

test('PEOPLE-4: the maker and the wrong role are told before and refused after', async ({ page }) => {
  await writeAs(page, 'Ida Marsh')
  await openReady(page, 'G1')
  await expect(page.getByText('A site supervisor may not write down “Decision on covering”.')).toBeVisible()
  await page.getByLabel('My own check reading').fill('66 % RH at B3')
  await page.getByRole('button', { name: 'Accept this bay' }).click()
  await expect(page.getByRole('alert')).toContainText('Let a flooring contractor or quality manager do it.')
  await writeAs(page, 'Wen Alder')
  const bay = page.url().split('/').at(-1)
  await goTo(page, `/bay/${bay}`)
  const panel = page
    .locator('section')
    .filter({ has: page.getByRole('heading', { name: 'Hold points', exact: true }) })
  await panel.locator('ol > li').filter({ hasText: 'Moisture test' }).getByRole('button').click()
  await panel.getByRole('button', { name: 'Decide again' }).click()
  await panel.getByLabel('What was seen').fill('My own boxes')
  await panel.getByRole('button', { name: 'Save the decision' }).click()
  await expect(panel.getByRole('alert').first()).toContainText(
    'Whoever wrote down what the hold point “Moisture test” judges cannot let it go.',
  )
})

for (const colour of ['light', 'dark'] as const) {
  test(`PEOPLE-5: the people of the set-up have no serious fault of access, ${colour}`, async ({ page }) => {
    await page.emulateMedia({ colorScheme: colour })
    await setPin(page, 'Nora Vale')
    await personCard(page, 'Ida Marsh').getByText('What a site supervisor may do').click()
    await expect(personCard(page, 'Ida Marsh')).toContainText('Writes down:')
    await expectAccessible(page, 'people')
    await personCard(page, 'Nora Vale').getByRole('button', { name: 'Change PIN' }).click()
    await expectAccessible(page, 'change of PIN')
  })
}
