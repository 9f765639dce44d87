import { expect, test } from './fixture.ts'
import { addFirstBay, openFact, openFirstProject, pick, save, type } from './forms.ts'

test('FIRST-1: the whole first bay is typed through the screen, corrected with a reason, and its history shows both', async ({
  page,
}) => {
  test.setTimeout(120_000)
  await openFirstProject(page)
  await addFirstBay(page)

  await test.step('a batch, with its ratios worked out while it is typed', async () => {
    await openFact(page, 'Batch mixed')
    await expect(page.getByRole('textbox', { name: 'Batch number' })).toHaveValue('1')
    await type(page, 'Cement', '50')
    await type(page, 'Damp sand', '200')
    await type(page, 'Water added', '10')
    await expect(page.getByText(/need the moisture of the sand/)).toBeVisible()
    await type(page, /^Sand moisture/, '6')
    // 200 kg damp at 6 %: dry 188.7 kg; 188.7/50 = 3.77, (11.3 + 10)/50 = 0.43 (arithmetic on dry mass, EN 1097-5).
    await expect(page.getByText('1 : 3.77')).toBeVisible()
    await expect(page.getByText(/^0\.43(why\?)?$/)).toBeVisible()
    await page.getByRole('button', { name: 'Why? Sand for one part of cement' }).click()
    await expect(page.getByText(/BS 8204-1/).first()).toBeVisible()
    await page.keyboard.press('Escape')
    await pick(page, 'Mixer', 'Forced action')
    await save(page, 'Batch mixed')
  })

  await test.step('the lift, the finish, the sheet', async () => {
    await openFact(page, 'Lift laid')
    await page
      .getByRole('group', { name: /^Started/ })
      .getByRole('button', { name: '1 h ago' })
      .click()
    await type(page, 'Thickness of this lift', '35')
    await pick(page, 'Compaction', 'Tamped by hand')
    await save(page, 'Lift laid')
    await openFact(page, 'Bay finished')
    // The lift says when laying began: nobody is asked twice.
    await expect(page.getByRole('textbox', { name: 'Laying started: Time' })).toHaveValue(/^\d\d:\d\d$/)
    await pick(page, 'Finish', 'Wood float')
    await save(page, 'Bay finished')
    await openFact(page, 'Sheet laid')
    await pick(page, 'Cover', 'Polyethylene sheet')
    await page.getByRole('button', { name: '100 %' }).click()
    await pick(page, 'Edges and laps held down', 'Yes')
    await save(page, 'Sheet laid')
  })

  await test.step('the air, with dew point and evaporation', async () => {
    await openFact(page, 'Air read')
    await type(page, 'Air temperature', '20')
    await type(page, /^Relative humidity/, '60')
    await type(page, /^Screed surface/, '18')
    await type(page, /^Air speed/, '0,5')
    // 20 °C at 60 %: dew point 12.0 °C (psychrometric tables; published).
    await expect(page.getByText('12 °C', { exact: true })).toBeVisible()
    await expect(page.getByText(/^6 K(why\?)?$/)).toBeVisible()
    await save(page, 'Air read')
  })

  await test.step('a moisture test, which says what it still lacks', async () => {
    await openFact(page, 'Moisture test')
    await type(page, 'Test point', 'P1')
    await expect(page.getByText('Not recorded: a reading.')).toBeVisible()
    await page
      .getByRole('group', { name: /^Box set/ })
      .getByRole('button', { name: 'Now' })
      .click()
    await page.getByRole('button', { name: 'Add one' }).click()
    const readings = page.getByRole('group', { name: /^Readings, oldest first/ })
    await type(readings, 'Relative humidity', '92')
    await expect(page.getByText('92 % RH', { exact: true })).toBeVisible()
    await expect(page.getByText(/proves nothing|Not proven yet/)).toBeVisible()
    await save(page, 'Moisture test')
  })

  await test.step('a correction with a reason; the history shows both', async () => {
    await page.getByRole('link', { name: 'Entries', exact: true }).click()
    await page.getByRole('link', { name: 'Batch mixed' }).click()
    await page.getByRole('link', { name: 'Correct it' }).click()
    await expect(page.getByRole('textbox', { name: 'Water added', exact: true })).toHaveValue('10')
    await type(page, 'Water added', '12')
    await page.getByRole('button', { name: 'Save the correction' }).click()
    await expect(page.getByRole('alert')).toContainText('Say why it is corrected')
    await type(page, 'Why is it corrected?', 'The can holds 12 kg, not 10.')
    await save(page, 'Batch mixed', 'Save the correction')
    await expect(page.getByText('Because: The can holds 12 kg, not 10.')).toBeVisible()
    await expect(page.locator('del')).toHaveText('10 kg')
    await expect(page.locator('ins')).toHaveText('12 kg')
    await expect(page.getByText('First written')).toBeVisible()
    await expect(page.getByText('Correction, version 2')).toBeVisible()
  })

  await test.step('all of it is there after a reload', async () => {
    await page.getByRole('link', { name: 'Entries', exact: true }).click()
    await page.reload()
    for (const title of [
      'Batch mixed',
      'Lift laid',
      'Bay finished',
      'Sheet laid',
      'Air read',
      'Moisture test',
    ])
      await expect(page.getByRole('link', { name: title, exact: true })).toBeVisible()
    await expect(page.getByText('Corrected').first()).toBeVisible()
  })
})

test('FIRST-2: bad input is refused in sentences, nothing is written, and nothing typed is lost', async ({
  page,
}) => {
  test.setTimeout(120_000)
  const writes: string[] = []
  page.on('request', (request) => {
    if (request.url().includes('/rpc/record/append')) writes.push(request.url())
  })
  await test.step('the first form', async () => {
    await page.getByRole('button', { name: 'Open the project' }).click()
    await expect(page.getByRole('alert').first()).toContainText('Project name is needed.')
    expect(writes).toEqual([])
  })
  await openFirstProject(page)
  await addFirstBay(page)
  const before = writes.length

  await test.step('a word, a value out of range, an unusual value', async () => {
    await openFact(page, 'Batch mixed')
    await type(page, 'Cement', 'fifty')
    await type(page, 'Damp sand', '20000')
    await type(page, 'Water added', '150')
    await page.getByRole('button', { name: 'Save', exact: true }).click()
    const problems = page.getByRole('alert')
    await expect(problems).toContainText('“fifty” under “Cement” is not a number.')
    await expect(problems).toContainText('Damp sand must be a number from 5 to 10000 kg, not 20000.')
    await expect(problems).toContainText('Mixer is needed.')
    await expect(problems).toContainText('Say whether water added is right')
    expect(writes).toHaveLength(before)
  })

  await test.step('what was typed outlives leaving the page and a reload', async () => {
    await page.getByRole('link', { name: 'Entries', exact: true }).click()
    await page.reload()
    await openFact(page, 'Batch mixed')
    await expect(page.getByRole('textbox', { name: 'Cement', exact: true })).toHaveValue('fifty')
  })

  await test.step('an unusual value is kept when somebody says so, and the answer with it', async () => {
    await type(page, 'Cement', '50')
    await type(page, 'Damp sand', '200')
    await pick(page, 'Mixer', 'Screed pump')
    await page.getByRole('button', { name: 'Yes, it is right' }).click()
    await type(page, 'Why it is so (kept with the entry)', 'Flooded by rain')
    await save(page, 'Batch mixed')
    await page.getByRole('link', { name: 'Show' }).click()
    await expect(page.getByText(/Unusual value 150 .*Flooded by rain/)).toBeVisible()
  })

  await test.step('a cleared form is a new one: it accuses nobody of what was typed before', async () => {
    await openFact(page, 'Sheet laid')
    await type(page, /^Covered/, 'most of it')
    await page.getByRole('button', { name: 'Save', exact: true }).click()
    await expect(page.getByRole('alert')).toContainText('is not a number')
    await page.getByRole('button', { name: 'Clear the form' }).click()
    await expect(page.getByRole('alert')).toBeHidden()
    await expect(page.getByRole('textbox', { name: /^Covered/ })).toHaveValue('')
  })
})

test.describe('what only the record can see', () => {
  test.use({ expectedTrouble: [/422/] })

  test('FIRST-3: a sheet taken off that was never laid is refused by the record, beside the form', async ({
    page,
  }) => {
    test.setTimeout(120_000)
    await openFirstProject(page)
    await addFirstBay(page)
    await openFact(page, 'Sheet off')
    await pick(page, 'Why', 'End of curing')
    await page.getByRole('button', { name: 'Save', exact: true }).click()
    await expect(page.getByRole('alert')).toContainText('record first when the sheet was laid')
    await expect(page.getByRole('alert')).toContainText('Nothing was written')
    await expect(page.getByRole('radio', { name: 'End of curing' })).toBeChecked()
    await page.getByRole('link', { name: 'Entries', exact: true }).click()
    await expect(page.getByRole('link', { name: 'Bay planned' })).toBeVisible()
    await expect(page.getByRole('link', { name: 'Sheet off' })).toBeHidden()
  })
})
