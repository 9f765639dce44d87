import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { pathToFileURL } from 'node:url'
import type { Page } from '@playwright/test'
import { appendEntries, closeRecord, createRecord } from '#db/index.ts'
import type { BayId } from '#model/record/ids.ts'
import { bundleOf, madeAt, takenInto } from '../db/bundle/site-bundle.ts'
import { entry, openSite } from '../db/site.ts'
import { expect, test } from './fixture.ts'
import { goTo, openFirstProject, type, writeAs } from './forms.ts'
import { startBayledger } from './started.ts'

/** A check runs in a thread that first has to load; on a machine with much else to do that takes its time. */
const slowly = { timeout: 60_000 }

test.slow()

async function made(page: Page): Promise<{ file: string; fingerprint: string }> {
  await goTo(page, '/handover/bundle')
  await page.getByRole('button', { name: 'Sign and write the bundle' }).click()
  const note = page.getByText('The bundle is written and signed.').locator('xpath=ancestor::div[1]')
  await expect(note).toBeVisible(slowly)
  const fingerprint = /(?:[0-9a-f]{4} ){15}[0-9a-f]{4}/.exec((await note.textContent()) ?? '')?.[0] ?? ''
  expect(fingerprint).not.toBe('')
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save a copy' }).first().click(),
  ])
  return { file: await download.path(), fingerprint }
}

async function chooseBundle(page: Page, bytes: Buffer): Promise<void> {
  const file = { name: 'received.baybundle', mimeType: 'application/octet-stream', buffer: bytes }
  await page.locator('input[type=file]').setInputFiles(file)
}

test('BUNDLE-1: a bundle is made, a tampered copy is told in words, and the good one goes on in an empty record elsewhere', async ({
  page,
  browser,
}) => {
  await openFirstProject(page)
  const { file, fingerprint } = await made(page)
  const good = readFileSync(file)
  const bad = Buffer.from(good)
  bad[bad.indexOf('Hana Brook') + 2]! ^= 1
  await chooseBundle(page, bad)
  await expect(page.getByRole('alert')).toContainText(
    'Not good. First difference: manifest.json is not the one that was signed.',
  )
  await expect(page.getByRole('button', { name: 'Take it in' })).toBeHidden()

  const elsewhere = mkdtempSync(join(tmpdir(), 'bayledger-e2e-other-'))
  const host = await startBayledger({ data: elsewhere })
  const other = await (await browser.newContext()).newPage()
  await other.goto(host.url)
  await other.getByRole('heading', { name: 'Open the first project' }).waitFor()
  await chooseBundle(other, good)
  await expect(other.getByText('Good. Nothing in it was changed since it was signed.')).toBeVisible(slowly)
  await expect(other.getByText(fingerprint)).toBeVisible()
  await expect(
    other.getByText('This record sees that machine for the first time.', { exact: false }),
  ).toBeVisible()
  const take = other.getByRole('button', { name: 'Take it in' })
  await expect(take).toBeDisabled()
  await other.getByRole('checkbox', { name: /I compared the fingerprint/ }).check()
  await take.click()
  await expect(other.getByRole('heading', { name: 'Today', level: 1 })).toBeVisible(slowly)
  await expect(other.getByRole('banner').getByText('Mill Yard')).toBeVisible()
  await other.context().close()
  await host.stop()
  rmSync(elsewhere, { recursive: true })
})

test('BUNDLE-2: the page of the verifier, opened from disk, finds the bundle good and a changed one not', async ({
  page,
  context,
}) => {
  await openFirstProject(page)
  const { file, fingerprint } = await made(page)
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: /^Save verify.html/ }).click(),
  ])
  const saved = join(dirname(await download.path()), 'verify.html')
  writeFileSync(saved, readFileSync(await download.path()))
  const verifier = await context.newPage()
  await verifier.goto(pathToFileURL(saved).href)
  const result = verifier.getByRole('status')
  const good = readFileSync(file)
  await verifier.getByLabel('Fingerprint that was noted').fill(fingerprint)
  await chooseBundle(verifier, good)
  await expect(result).toContainText('GOOD', slowly)
  await expect(result).toContainText('it is the bundle whose fingerprint was noted')
  const bad = Buffer.from(good)
  bad[bad.length - 5000]! ^= 1
  await chooseBundle(verifier, bad)
  await expect(result).toContainText('NOT GOOD', slowly)
  await expect(result).toContainText('First difference:')
  rmSync(saved)
})

/** Two records of one site, each with a correction of its own of the same reading. */
const twoSites = test.extend<{ theirs: Buffer }>({
  theirs: async ({ data }, use) => {
    await use(readFileSync(join(data, 'theirs')))
  },
  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads the first argument's names.
  data: async ({}, use) => {
    const folder = mkdtempSync(join(tmpdir(), 'bayledger-e2e-'))
    const site = mkdtempSync(join(tmpdir(), 'bayledger-e2e-site-'))
    const open = openSite(site)
    const air = entry(open.site, 'air-read')
    open.append(air)
    const here = createRecord(join(folder, 'record.sqlite'), { now: madeAt })
    await takenInto(here, bundleOf(open).file)
    const corrected = (airC: number, reason: string) =>
      entry(open.site, 'air-read', { body: { ...air.body, airC }, corrects: air.id, reason })
    open.append(corrected(12.5, 'Read again beside the door'), madeAt)
    appendEntries(here, [corrected(21.5, 'Typed wrongly')], { recordedAt: madeAt })
    closeRecord(here)
    writeFileSync(join(folder, 'theirs'), readFileSync(bundleOf(open).file))
    open.close()
    await use(folder)
    rmSync(folder, { recursive: true })
    rmSync(site, { recursive: true })
  },
})

twoSites(
  'BUNDLE-3: a bundle with another correction of one entry is taken in, and a person settles which holds',
  async ({ page, theirs }) => {
    await writeAs(page)
    await goTo(page, '/handover/bundle')
    await chooseBundle(page, theirs)
    await expect(page.getByText('1 fact will then have two corrections', { exact: false })).toBeVisible(
      slowly,
    )
    await page.getByRole('button', { name: 'Take it in' }).click()
    await expect(page.getByText('Taken in: 1 new entry.')).toBeVisible(slowly)
    const theirEnd = page.getByText('Because: Read again beside the door').locator('xpath=ancestor::div[1]')
    await page.getByRole('button', { name: 'Settle it' }).click()
    await expect(page.getByText('Pick the one that holds.')).toBeVisible()
    await theirEnd.getByRole('radio', { name: 'This one holds' }).check()
    await type(page, 'Why this one', 'The hygrometer stood beside the door that day')
    await page.getByRole('button', { name: 'Settle it' }).click()
    await expect(page.getByText('No fact has two corrections.')).toBeVisible(slowly)
    await goTo(page, '/entries')
    await page.getByRole('link', { name: 'Air read' }).first().click()
    await expect(page.getByText('Because: The hygrometer stood beside the door that day')).toBeVisible()
  },
)

/** An empty record, and beside it a bundle of one of the two bays of a site, with a photo of that bay. */
const partOfSite = test.extend<{ part: Buffer }>({
  part: async ({ data }, use) => {
    await use(readFileSync(join(data, 'part')))
  },
  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads the first argument's names.
  data: async ({}, use) => {
    const folder = mkdtempSync(join(tmpdir(), 'bayledger-e2e-'))
    const site = mkdtempSync(join(tmpdir(), 'bayledger-e2e-site-'))
    const open = openSite(site)
    const { bay, otherBay } = open.site
    for (const subject of [bay, otherBay, bay]) open.append(entry(open.site, 'air-read', { subject }))
    open.append(entry(open.site, 'photo-added', { subject: otherBay }))
    const scope = { kind: 'bays' as const, bays: [otherBay as BayId] }
    writeFileSync(join(folder, 'part'), readFileSync(bundleOf(open, { scope }).file))
    open.close()
    await use(folder)
    rmSync(folder, { recursive: true })
    rmSync(site, { recursive: true })
  },
})

partOfSite(
  'BUNDLE-4: a bundle of some bays is taken into an empty record, which says on every page what it is a part of',
  async ({ page, part }) => {
    await page.getByRole('heading', { name: 'Open the first project' }).waitFor()
    await chooseBundle(page, part)
    await expect(page.getByText('1 of 2 bays of the project').first()).toBeVisible(slowly)
    await expect(page.getByText('It is a part, 1 of 2 bays', { exact: false })).toBeVisible()
    await page.getByRole('checkbox', { name: /I compared the fingerprint/ }).check()
    await page.getByRole('button', { name: 'Take it in' }).click()
    await expect(page.getByRole('heading', { name: 'Today', level: 1 })).toBeVisible(slowly)
    const says = page.getByText('This record holds 1 of 2 bays of the project')
    await expect(says).toBeVisible()
    await goTo(page, '/floors')
    await expect(says).toBeVisible()
    await goTo(page, '/set-up/record')
    await expect(says).toBeVisible()
    await page.getByRole('button', { name: 'Back up now' }).click()
    await expect(page.getByText(/^Backed up and checked, with 1 photo \(20 bytes\): /)).toBeVisible(slowly)
  },
)
