import { expect, type Locator, type Page } from '@playwright/test'

/** Types into the box with this name, as the label says it. */
export async function type(scope: Page | Locator, label: string | RegExp, text: string): Promise<void> {
  await scope.getByRole('textbox', { name: label, exact: typeof label === 'string' }).fill(text)
}

/** Picks one of the big buttons of a choice. */
export async function pick(scope: Page | Locator, question: string, answer: string): Promise<void> {
  await scope.getByRole('group', { name: question }).getByRole('radio', { name: answer, exact: true }).check()
}

/** Picks from a list that opens; a list that rolled out of view with its box closes, and is opened again. */
export async function choose(page: Page, label: string | RegExp, option: string | RegExp): Promise<void> {
  const wanted = page.getByRole('listbox').getByRole('option', { name: option }).first()
  await expect(async () => {
    await page.getByRole('combobox', { name: label }).click()
    await wanted.click({ timeout: 3000 })
  }).toPass()
}

/** Picks who is writing, by name; the first of the list where it does not matter who. */
export async function writeAs(page: Page, name?: string): Promise<void> {
  await page
    .getByRole('combobox', { name: 'Who is writing' })
    .selectOption(name === undefined ? { index: 1 } : { label: name })
}

/** Sets the clock of a moment, on the day that stands there. */
export async function setClock(page: Page, label: string, clock: string): Promise<void> {
  await page.getByRole('textbox', { name: `${label}: Time` }).fill(clock)
  await page.keyboard.press('Tab')
}

/** Goes to a page of the app by its address, without a reload. */
export async function goTo(page: Page, hash: string): Promise<void> {
  await page.evaluate((to) => {
    location.hash = to
  }, hash)
}

/** Opens the first project with one person, from an empty record. */
export async function openFirstProject(page: Page): Promise<void> {
  await page.getByRole('heading', { name: 'Open the first project' }).waitFor()
  await type(page, 'Project name', 'Mill Yard')
  await pick(page, 'Standards in force', 'British (BS 8204, BS 8203, BS 5325, BS 8201, BS 5385)')
  await type(page, 'Name', 'Hana Brook')
  await pick(page, 'Role', 'Site supervisor')
  await expect(page.getByRole('checkbox', { name: 'Moisture test', exact: true })).toBeChecked()
  await expect(page.getByRole('checkbox', { name: 'Base survey', exact: true })).not.toBeChecked()
  await page.getByRole('button', { name: 'Open the project' }).click()
  await page.getByRole('heading', { name: 'Today', level: 1 }).waitFor()
}

/** Sets up one floor, one zone and one bay (6.4 m × 3.5 m, 65 mm) through the screen. */
export async function addFirstBay(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'Set up floors, zones and bays' }).click()
  await page.getByRole('link', { name: 'Add a floor' }).click()
  await type(page, 'Floor', 'Level 1')
  await pick(page, 'Base', 'Suspended slab')
  await page.getByRole('button', { name: 'Save the floor' }).click()
  await page.getByRole('link', { name: 'Add a zone' }).click()
  await type(page, 'Zone', 'North flats')
  await pick(page, 'Loading', 'Light (dwellings, offices)')
  await pick(page, 'Soundness category', 'C')
  await pick(page, 'Surface regularity class', 'SR2')
  await pick(page, 'Heated floor', 'No')
  await choose(page, 'Covering to be laid', 'Vinyl or other plastic')
  await choose(page, 'Agreed moisture test', 'Insulated hygrometer box')
  await page.getByRole('button', { name: 'Save the zone' }).click()
  await page.getByRole('link', { name: 'Add a bay' }).click()
  await type(page, 'Bay', 'B1')
  await type(page, 'Length', '6,4')
  await type(page, 'Width', '3.5')
  await pick(page, 'Screed', 'Cement-sand')
  await pick(page, 'Construction', 'Bonded')
  await type(page, 'Design thickness', '65')
  await page.getByRole('button', { name: 'Save the bay' }).click()
  await page.getByText('22.4 m², 65 mm, cement-sand, bonded').waitFor()
}

/** Opens the form of a fact by the rail: where stands already when there is one bay. */
export async function openFact(page: Page, title: string): Promise<void> {
  await page.getByRole('link', { name: 'Write down a fact' }).click()
  await page.getByRole('link', { name: title, exact: true }).click()
  await page.getByRole('heading', { name: title, level: 1 }).waitFor()
}

/** Presses Save and waits until the record has answered. */
export async function save(page: Page, title: string, button = 'Save'): Promise<void> {
  await page.getByRole('button', { name: button, exact: true }).click()
  await page
    .getByRole('status')
    .filter({ hasText: `Saved: ${title}` })
    .waitFor()
}
