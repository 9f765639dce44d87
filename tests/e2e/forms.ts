import type { Locator, Page } from '@playwright/test'

/** Types into the box with this name, as the label says it. */
export async function type(scope: Page | Locator, label: string | RegExp, text: string): Promise<void> {
  await scope.getByRole('textbox', { name: label, exact: typeof label === 'string' }).fill(text)
}

/** Picks one of the big buttons of a choice. */
export async function pick(scope: Page | Locator, question: string, answer: string): Promise<void> {
  await scope.getByRole('group', { name: question }).getByRole('radio', { name: answer, exact: true }).check()
}

/** Picks from a list that opens. */
export async function choose(page: Page, label: string | RegExp, option: string | RegExp): Promise<void> {
  await page.getByRole('combobox', { name: label }).click()
  await page.getByRole('option', { name: option }).first().click()
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
  await page.getByRole('button', { name: 'Open the project' }).click()
  await page.getByRole('heading', { name: 'Today', level: 1 }).waitFor()
}
