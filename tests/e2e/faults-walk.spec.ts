// No measured values: the way of a fault through the program, and that its record holds what was done on the way.
import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from '@playwright/test'
import { closeRecord, listFacts, openRecord } from '#db/index.ts'
import type { StoryEntryOf } from '#model/record/entry.ts'
import type { ProjectId } from '#model/record/ids.ts'
import type { KindName } from '#model/record/kinds.ts'
import { expectAccessible } from './accessible.ts'
import { expect, test } from './fixture.ts'
import { choose, pick, save, type, writeAs } from './forms.ts'

test.use({ record: 'demo' })
test.slow()

const slowly = { timeout: 90_000 }

const openFault = async (page: Page, symptom: string) => {
  await page.getByRole('link', { name: 'Faults', exact: true }).click()
  await page.getByRole('link', { name: symptom }).click()
  await expect(page.getByRole('heading', { name: symptom, level: 1 })).toBeVisible(slowly)
}
const seen = (page: Page, text: string | RegExp) => page.getByText(text).filter({ visible: true }).first()
const sha256 = (file: string) => createHash('sha256').update(readFileSync(file)).digest('hex')

/** Draws an area into the bay at the left of the middle of the ground floor. */
async function drawArea(page: Page) {
  await pick(page, 'What it is on the plan', 'An area')
  const plan = page.getByRole('group', { name: /^Plan of Ground floor with the place/ })
  const box = (await plan.boundingBox())!
  for (const [x, y] of [
    [0.38, 0.42],
    [0.44, 0.42],
    [0.44, 0.52],
    [0.38, 0.52],
  ] as const)
    await plan.click({ position: { x: box.width * x, y: box.height * y } })
  await expect(page.getByRole('combobox', { name: 'Bay' })).toHaveValue('Bay G2')
}

async function saveFrozen(page: Page, name: string): Promise<string> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name }).click(),
  ])
  return download.path()
}

/** Every fact of a kind that the record on the disk holds, newest first. */
function recorded<K extends KindName>(data: string, kind: K): StoryEntryOf<K>[] {
  const record = openRecord(join(data, 'record.sqlite'), { now: Date.now(), readOnly: true, skipLook: true })
  try {
    const project = record.read.sqlite.prepare('select id from projects').pluck().get() as ProjectId
    const { entries } = listFacts(record.read, { project, kinds: [kind], limit: 50 })
    return entries as unknown as StoryEntryOf<K>[]
  } finally {
    closeRecord(record)
  }
}

test('FAULT-6: a fault goes from its report to its end: evidence, cause, option, repair, re-test, freezing, closing', async ({
  page,
  data,
}) => {
  await writeAs(page, 'Nora Vale')
  await page.getByRole('link', { name: 'Faults', exact: true }).click()
  await page.getByRole('link', { name: 'Report a fault' }).click()
  await drawArea(page)
  await page.getByRole('checkbox', { name: /^Surface dusting/ }).check()
  await page.getByRole('checkbox', { name: /^Map cracking/ }).check()
  await type(page, /^Area/, '6')
  await page.getByRole('button', { name: 'Report it' }).click()
  await expect(page.getByRole('heading', { name: 'Surface dusting, sound below', level: 1 })).toBeVisible(
    slowly,
  )

  // Before the cause is named every option is held back by one rule, and still gives its own reason.
  const fill = page.getByRole('row').filter({ hasText: 'Fill with low-viscosity resin' })
  await expect(fill).toContainText('There is no crack to fill.')
  await expect(fill.getByText('Rule R02 comes first')).toHaveCount(1)
  await expect(page.getByRole('button', { name: 'Record a repair' })).toHaveCount(0)

  // Evidence: what somebody found, then how big it is.
  await page.getByRole('button', { name: 'Something else was looked at' }).click()
  await choose(page, /^What was looked for/, /^Scratch test: soft 1-3 mm skin/)
  await pick(page, 'Found', 'True')
  await choose(page, /^How$/, 'Scratch')
  await save(page, 'Evidence on a fault', 'Save the answer')
  const weakSkin = page.locator('details').filter({ hasText: 'Over-trowelled / weak skin' }).first()
  await weakSkin.locator('summary').click()
  await expect(weakSkin).toContainText('Surface dusting, sound below – Scratch: found true')
  await page.getByRole('button', { name: 'Measure it again' }).click()
  await choose(page, /^How$/, 'Grinding a small patch in steps')
  await type(page, /^Area/, '6')
  await type(page, /^Weak down to/, '2')
  await type(page, /^Pull-off/, '1,2')
  await expect(page.getByRole('group', { name: /^Pipes and cables here are located/ })).toBeVisible()
  await pick(page, 'Pipes and cables here are located', 'Yes')
  await expect(page.getByRole('group', { name: /^The trial of consolidation passed/ })).toBeVisible()
  await save(page, 'Defect measured', 'Save the measures')

  // Diagnosis, then the option.
  await choose(page, /^Cause$/, 'Over-trowelled / weak skin')
  await type(page, 'Why', 'A soft skin only, hard below 2 mm')
  await pick(page, 'Is the cause gone?', 'Yes')
  await page.getByRole('button', { name: 'Sign as Nora Vale' }).click()
  await expect(seen(page, 'Named: Over-trowelled / weak skin')).toBeVisible()
  const skin = page.getByRole('row').filter({ hasText: 'Remove the weak skin' })
  await expect(skin).toContainText('Allowed')
  await expect(skin).toContainText('A skin of 2 mm, sound below, pull-off 1.2 N/mm² after grinding.')
  await expect(fill).toContainText('There is no crack to fill.')
  await expect(page.getByText('comes first').filter({ visible: true })).toHaveCount(0)

  // Days left: a question, refused with a sentence when it is no number of days.
  const days = 'Days that the programme has left before the covering'
  await type(page, days, 'soon')
  await page.keyboard.press('Enter')
  await expect(seen(page, /^A whole number of days from 0 to 3650/)).toBeVisible()
  await type(page, days, '4')
  await page.keyboard.press('Enter')
  await expect(page.getByText(/^A whole number of days from 0 to 3650/)).toHaveCount(0)

  // Repair, re-test.
  await page.getByRole('button', { name: 'Record a repair' }).click()
  await choose(page, /^Repair$/, 'Remove the weak skin')
  await type(page, /^Treated area/, '6')
  await save(page, 'Repair done', 'Save the repair')
  await page.getByRole('button', { name: 'Record the re-test' }).click()
  await choose(page, /^How$/, 'Scratch')
  await pick(page, 'Result', 'Passed')
  await save(page, 'Repair re-tested', 'Save the re-test')

  // The evidence is frozen: the bay with those beside it, which can be changed; never without a reason.
  await page.getByRole('button', { name: 'Freeze the evidence' }).click()
  await expect(seen(page, 'Bay G1')).toBeVisible()
  await page.getByRole('button', { name: 'Freeze as Nora Vale' }).click()
  await expect(seen(page, 'Write why: whoever opens it later wants to know.')).toBeVisible()
  await type(page, 'Why it is frozen', 'Claim of the flooring contractor')
  await expectAccessible(page, 'the form that freezes evidence')
  await page.getByRole('button', { name: 'Freeze as Nora Vale' }).click()
  const frozen = page.getByRole('article', { name: /^Frozen by Nora Vale/ })
  await expect(frozen).toBeVisible({ timeout: 180_000 })
  await expect(frozen).toContainText('Claim of the flooring contractor')
  await expect(frozen).toContainText(/Bay G2, Bay G1, Bay G3: \d+ entries/)
  const hashes = ((await frozen.textContent()) ?? '').match(/(?:[0-9a-f]{4} ){15}[0-9a-f]{4}/g) ?? []
  expect(hashes).toHaveLength(2)
  expect(sha256(await saveFrozen(page, 'Save the report (PDF)'))).toBe(hashes[1]!.replaceAll(' ', ''))
  expect(readFileSync(await saveFrozen(page, 'Save the signed bundle')).length).toBeGreaterThan(10_000)

  // Closed, and all of it stands in the record on the disk.
  await page.getByRole('button', { name: 'Close the fault' }).click()
  await type(page, 'What was seen', 'Hard everywhere')
  await page.getByRole('button', { name: 'Close it' }).click()
  await expect(page.getByText(/^Repaired and re-tested\. Nora Vale/).filter({ visible: true })).toHaveCount(1)

  const defects = recorded(data, 'defect-found').slice(0, 2)
  const ids = defects.map(({ id }) => id as string)
  expect(defects.map(({ body }) => body.symptom).toSorted()).toEqual(['S01', 'S04'])
  const ofFault = <K extends 'defect-measured' | 'fault-evidence-noted' | 'repair-done' | 'defect-closed'>(
    kind: K,
  ) => recorded(data, kind).filter(({ body }) => ids.includes(String((body as { defect: string }).defect)))
  expect(ofFault('fault-evidence-noted')[0]!.body).toMatchObject({ evidence: 'E45', found: 'true' })
  expect(ofFault('defect-measured')[0]!.body).toMatchObject({
    weakToMm: 2,
    pullOffMPa: 1.2,
    pipesLocated: true,
  })
  const [named] = recorded(data, 'cause-named')
  expect(named!.body).toMatchObject({ cause: 'LAITANCE', causeRemoved: 'yes' })
  const [repair] = ofFault('repair-done')
  expect(repair!.body).toMatchObject({ option: 'remove skin', areaM2: 6, diagnosis: named!.id })
  expect(recorded(data, 'repair-retested')[0]!.body).toMatchObject({ repair: repair!.id, result: 'passed' })
  const [seal] = recorded(data, 'evidence-frozen')
  expect(seal!.body).toMatchObject({
    contentHash: hashes[0]!.replaceAll(' ', ''),
    reportHash: hashes[1]!.replaceAll(' ', ''),
    reason: 'Claim of the flooring contractor',
  })
  expect(ids).toContain(seal!.body.defect)
  expect(sha256(join(data, 'bundles', String(seal!.body.report)))).toBe(seal!.body.reportHash)
  expect(ofFault('defect-closed').map(({ body }) => body.how)).toEqual(['repaired', 'repaired'])
  await page.reload()
  await expect(page.getByRole('article', { name: /^Frozen by Nora Vale/ })).toBeVisible(slowly)
})

test('FAULT-7: record and test that disagree get no score but a question, and sound neighbours are compared', async ({
  page,
}) => {
  await writeAs(page, 'Nora Vale')
  await openFault(page, 'Surface dusting, sound below')
  const neighbour = page.getByRole('article').filter({ hasText: 'Proven sound' }).first()
  await expect(neighbour).toContainText('Drop weight: 0 of')
  await neighbour.getByText(/^Different here/).click()
  await expect(neighbour).toContainText(/Here: .+ There: /)

  const conflicts = page.getByRole('region', { name: 'Where the record contradicts itself' })
  await expect(conflicts).toHaveCount(0)

  // The record says that no sheet lay for a day; somebody finds photographs that it lay at once.
  await page.getByRole('button', { name: 'Something else was looked at' }).click()
  await choose(page, /^What was looked for/, /^Curing on within 2 h, sealed/)
  await pick(page, 'Found', 'True')
  await choose(page, /^How$/, 'Found on paper or in a photograph')
  await save(page, 'Evidence on a fault', 'Save the answer')

  await expect(conflicts).toContainText('Record and test disagree: which is wrong?')
  await expect(conflicts).toContainText('No curing event, or started > 6 h after finishing')
  await expect(conflicts).toContainText('Found on paper or in a photograph: found true')
  await expect(conflicts).toContainText('No average is taken.')
  const curing = page.locator('details').filter({ hasText: 'Curing missing/late/short' }).first()
  await expect(curing).toContainText('Record and test disagree')
  await expect(curing).not.toContainText('Supported')
  await expectAccessible(page, 'a fault whose record contradicts itself')
})

test('FAULT-8: long text runs on to a third sheet and none of it is cut off', async ({ page }) => {
  await writeAs(page, 'Nora Vale')
  await page.getByRole('link', { name: 'Faults', exact: true }).click()
  await page.getByRole('link', { name: 'Report a fault' }).click()
  await drawArea(page)
  for (const symptom of [/^Surface dusting/, /^Friable through/, /^Straight crack mid-bay/])
    await page.getByRole('checkbox', { name: symptom }).check()
  const long = (end: string) =>
    `${'White hand, grade three by the windows and two elsewhere. '.repeat(65)}${end}`
  await type(page, /^Note/, long('End of note.'))
  await page.getByRole('button', { name: 'Report it' }).click()
  await expect(page.getByRole('heading', { name: 'Surface dusting, sound below', level: 1 })).toBeVisible(
    slowly,
  )
  await choose(page, /^Cause$/, 'Not known')
  await type(page, 'Treated as', 'Skin of 3 mm, cause not known')
  await type(page, 'Why', long('End of reason.'))
  await page.getByRole('button', { name: 'Sign as Nora Vale' }).click()
  await expect(seen(page, /End of reason\.$/)).toBeVisible()

  const paper = (await page.pdf({ preferCSSPageSize: true })).toString('latin1')
  const pages = paper.match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0
  expect(pages).toBeGreaterThanOrEqual(3)
  expect(pages).toBeLessThanOrEqual(4)

  // On paper of A4 less its margins: no box holds more than it shows.
  await page.setViewportSize({ width: 710, height: 1040 })
  await page.emulateMedia({ media: 'print' })
  const cut = await page.locator('article:visible').evaluateAll((sheets) =>
    sheets
      .flatMap((sheet) => [sheet, ...sheet.querySelectorAll('*')])
      .filter((box) => box instanceof HTMLElement && getComputedStyle(box).overflow !== 'visible')
      .filter((box) => box.scrollHeight > box.clientHeight + 1)
      .map((box) => box.className),
  )
  expect(cut).toEqual([])
  const sheets = page.locator('article:visible')
  await expect(sheets).toHaveCount(2)
  await expect(sheets.first()).toContainText('End of note.')
  await expect(sheets.first()).toContainText('End of reason.')
  expect(await sheets.first().evaluate((sheet) => sheet.clientHeight)).toBeGreaterThan(1100)
})
