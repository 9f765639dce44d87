import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expectAccessible } from './accessible.ts'
import { test as base, expect } from './fixture.ts'

const rubbish = 'This is not a record. '.repeat(400)

/** A data folder whose record was overwritten by something else. */
const test = base.extend({
  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads the first argument's names.
  data: async ({}, use) => {
    const data = mkdtempSync(join(tmpdir(), 'bayledger-e2e-damaged-'))
    mkdirSync(data, { recursive: true })
    writeFileSync(join(data, 'record.sqlite'), rubbish)
    await use(data)
    rmSync(data, { recursive: true })
  },
})

// The first page asks for its projects before it knows that there is no record to ask.
test.use({ expectedTrouble: [/503/] })

test('RECOVERY-1: a record that cannot be opened still gives a window with the reason; moving aside deletes nothing', async ({
  page,
  data,
}) => {
  await expect(page.getByRole('heading', { name: 'The record cannot be opened' })).toBeVisible()
  await expect(page.getByRole('alert').first()).toBeVisible()
  await expect(page.getByText(data, { exact: true })).toBeVisible()
  await expectAccessible(page, 'recovery')
  const move = page.getByRole('button', { name: 'Move the damaged file aside' })
  await expect(move).toBeDisabled()
  await page.getByRole('checkbox', { name: /^I have a copy/ }).check()
  await move.click()
  await expect(page.getByText(/^The damaged file now lies at /)).toBeVisible()
  const files = readdirSync(data, { recursive: true, withFileTypes: true }).filter((file) => file.isFile())
  const kept = files.filter((file) => readFileSync(join(file.parentPath, file.name), 'utf8') === rubbish)
  expect(kept, 'the damaged bytes are still somewhere in the folder').toHaveLength(1)
  await page.getByRole('button', { name: 'Go on with the empty record' }).click()
  await expect(page.getByRole('heading', { name: 'Open the first project' })).toBeVisible()
})
