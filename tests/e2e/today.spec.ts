import { expectAccessible } from './accessible.ts'
import { expect, test } from './fixture.ts'
import { goTo, writeAs } from './forms.ts'

test.use({ record: 'demo' })

const screens = {
  Today: '/',
  'Write down a fact': '/record',
  Entries: '/entries',
  Project: '/set-up/project',
  Rules: '/set-up/rules',
  'Floors, zones and bays': '/set-up/places',
  People: '/set-up/people',
  Instruments: '/set-up/instruments',
  'The record': '/set-up/record',
  'Read a logger file': '/import',
} as const

for (const colorScheme of ['light', 'dark'] as const) {
  test.describe(`in the ${colorScheme}`, () => {
    test.use({ colorScheme })

    test(`LOOK-1: no screen has a serious finding of axe, and none scrolls sideways, ${colorScheme}`, async ({
      page,
    }) => {
      test.setTimeout(180_000)
      for (const [title, hash] of Object.entries(screens)) {
        await goTo(page, hash)
        await page.getByRole('heading', { name: title, level: 1 }).waitFor()
        await expect(page.getByText('Reading the record…')).toHaveCount(0)
        await expectAccessible(page, title)
      }
    })

    test(`LOOK-2: the forms and dialogs have none either, ${colorScheme}`, async ({ page }) => {
      test.setTimeout(180_000)
      await writeAs(page)
      const bay = await firstBay(page)
      for (const kind of ['batch-mixed', 'air-read', 'moisture-read', 'sheet-on', 'soundness-tested']) {
        await goTo(page, `/record/${kind}/${bay}`)
        await page.getByRole('button', { name: 'Save', exact: true }).click()
        await page.getByRole('heading', { level: 1 }).waitFor()
        await expectAccessible(page, kind)
      }
      await page.keyboard.press('Control+k')
      await page.getByRole('combobox', { name: /A bay, a page/ }).waitFor()
      await expectAccessible(page, 'command field')
    })
  })
}

for (const width of [1024, 1920]) {
  test(`LOOK-3: nothing scrolls sideways at ${width} px`, async ({ page }) => {
    await page.setViewportSize({ width, height: 1000 })
    for (const [title, hash] of Object.entries(screens)) {
      await goTo(page, hash)
      await page.getByRole('heading', { name: title, level: 1 }).waitFor()
      const tooWide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)
      expect(tooWide, title).toBeLessThanOrEqual(0)
    }
  })
}

test('TODAY-1: each bay that needs something has one line with its act, and its button leads to that form', async ({
  page,
}) => {
  await writeAs(page)
  // What falls due changes with the hour; that a button leads to its own form does not.
  const act = page.getByRole('main').locator('a[href*="#/record/"]').first()
  const title = (await act.textContent())?.trim() ?? ''
  expect(title).not.toBe('')
  await act.click()
  await expect(page.getByRole('heading', { name: title, level: 1 })).toBeVisible()
})

test('TODAY-2: a sheet filled in from the last one is written down, undone with a reason, and stays readable', async ({
  page,
}) => {
  await writeAs(page)
  await goTo(page, `/record/sheet-on/${await firstBay(page)}`)
  await expect(page.getByText(/^Filled in from the last one/)).toBeVisible()
  await page.getByRole('button', { name: 'Save', exact: true }).click()
  const saved = page.getByRole('complementary', { name: 'Last entry' })
  await expect(saved).toContainText('Saved: Sheet laid')
  await saved.getByRole('button', { name: 'Undo' }).click()
  const dialog = page.getByRole('dialog')
  await dialog.getByRole('radio', { name: 'Wrong bay' }).check()
  await dialog.getByRole('button', { name: 'Withdraw the entry' }).click()
  await expect(saved).toBeHidden()
  await page.getByRole('link', { name: 'Entries', exact: true }).click()
  const line = page.getByRole('listitem').filter({ hasText: 'Sheet laid' }).first()
  await expect(line).toContainText('Withdrawn')
  await line.getByRole('link').click()
  await expect(page.getByText('Because: Wrong bay')).toBeVisible()
})

test.describe('without a network', () => {
  test.use({ expectedTrouble: [/ERR_INTERNET_DISCONNECTED/] })

  test('TODAY-3: the minutes of a batch run down on screen without asking anybody', async ({ page }) => {
    await page.clock.install({ time: Date.now() })
    await page.reload()
    const minutes = page.getByText(/^\d+ min left$/).first()
    await minutes.waitFor()
    const before = Number.parseInt((await minutes.textContent()) ?? '', 10)
    await page.context().setOffline(true)
    await page.clock.runFor(3 * 60_000)
    await expect
      .poll(async () => Number.parseInt((await minutes.textContent()) ?? '', 10))
      .toBeLessThanOrEqual(before - 2)
    await page.context().setOffline(false)
  })
})

test('TODAY-4: nobody has said who writes: saving says so and writes nothing', async ({ page }) => {
  const bay = await firstBay(page)
  await goTo(page, `/record/no-traffic-confirmed/${bay}`)
  await page.getByRole('textbox', { name: 'Who kept the keys or the barrier' }).fill('Site office')
  await page.getByRole('button', { name: 'Save', exact: true }).click()
  await expect(page.getByRole('alert')).toContainText('Pick your name')
  await expect(page.getByRole('textbox', { name: 'Who kept the keys or the barrier' })).toHaveValue(
    'Site office',
  )
})

test('KEYS-1: the command field opens a form by keyboard alone, and Escape closes it', async ({ page }) => {
  await page.getByRole('heading', { name: 'Today', level: 1 }).waitFor()
  await page.keyboard.press('Control+k')
  const field = page.getByRole('combobox', { name: /A bay, a page/ })
  await expect(field).toBeFocused()
  await page.keyboard.press('Escape')
  await expect(field).toBeHidden()
  await page.keyboard.press('Control+k')
  await expect(field).toBeFocused()
  await page.keyboard.type('g1 air')
  await expect(page.getByRole('listbox').getByRole('option').first()).toContainText('Air read: Bay G1')
  await page.keyboard.press('Enter')
  await expect(page.getByRole('heading', { name: 'Air read', level: 1 })).toBeVisible()
  await expect(page.getByText('Bay G1', { exact: true })).toBeVisible()
})

test('PRINT-1: Today prints its lines without rail and buttons', async ({ page }) => {
  await page.getByRole('heading', { name: 'Next for each bay' }).waitFor()
  await page.emulateMedia({ media: 'print' })
  await expect(page.getByRole('navigation', { name: 'Pages' })).toBeHidden()
  await expect(page.getByRole('button', { name: 'Print' })).toBeHidden()
  await expect(page.getByRole('heading', { name: 'Next for each bay' })).toBeVisible()
})

type Page = import('@playwright/test').Page

async function firstBay(page: Page): Promise<string> {
  await goTo(page, '/set-up/places')
  const href = await page.getByRole('link', { name: 'Open', exact: true }).first().getAttribute('href')
  return href?.split('/').at(-1) ?? ''
}
