import { expectAccessible } from './accessible.ts'
import { expect, test } from './fixture.ts'
import { choose, goTo, writeAs } from './forms.ts'

test.use({ record: 'demo' })

/** Three days of an invented logger in a German spelling: day first, semicolon, decimal comma, two rows spoilt. */
function loggerFile(): { name: string; mimeType: string; buffer: Buffer } {
  const start = Date.now() - 3 * 86_400_000
  const two = (value: number) => String(value).padStart(2, '0')
  const rows = Array.from({ length: 288 }, (_, i) => {
    const at = new Date(start + i * 900_000)
    const day = `${two(at.getUTCDate())}.${two(at.getUTCMonth() + 1)}.${at.getUTCFullYear()}`
    const clock = `${two(at.getUTCHours())}:${two(at.getUTCMinutes())}`
    const airC = (12 + 4 * Math.sin(i / 15)).toFixed(1).replace('.', ',')
    const rh = i === 100 ? 'Fehler' : (62 + 9 * Math.cos(i / 21)).toFixed(1).replace('.', ',')
    return i === 200 ? 'Batterie schwach' : `${day} ${clock};${airC};${rh}`
  })
  const text = ['Zeit;Temperatur (°C);Feuchte (%rF)', ...rows].join('\r\n')
  return { name: 'logger-7.csv', mimeType: 'text/csv', buffer: Buffer.from(`\ufeff${text}`, 'utf8') }
}

test('IMPORT-1: a logger file is looked at, set right, checked, written once, and recognised the second time', async ({
  page,
}) => {
  test.setTimeout(120_000)
  await writeAs(page)
  await goTo(page, '/import')
  await choose(page, 'Bay that the logger stood in', 'Bay S1')
  const file = loggerFile()
  await page.locator('input[type=file]').setInputFiles(file)

  await test.step('everything guessed is shown', async () => {
    await expect(page.getByRole('combobox', { name: 'Separator' })).toHaveValue('Semicolon')
    await expect(page.getByRole('combobox', { name: 'Decimal sign' })).toHaveValue('Comma')
    await expect(page.getByRole('combobox', { name: 'Order of the date' })).toHaveValue(/^Day first/)
    await expect(page.getByRole('combobox', { name: 'Time zone of the logger' })).toHaveValue('Europe/London')
    await expect(page.getByRole('combobox', { name: 'Column 2 is' })).toHaveValue('Air temperature')
    await expect(page.getByRole('combobox', { name: 'Column 3 is' })).toHaveValue('Relative humidity')
    await choose(page, 'Time zone of the logger', 'UTC')
    await expectAccessible(page, 'import, reading')
  })

  await test.step('bad rows are named by line, and nothing is written before somebody leaves them out', async () => {
    await page.getByRole('button', { name: 'Check every row' }).click()
    await expect(page.getByText('286 of 288 rows can be read; 2 cannot.')).toBeVisible()
    const bad = page.getByRole('region', { name: '2 rows that cannot be read' })
    await expect(bad.getByRole('row').filter({ hasText: 'Fehler' })).toContainText('102')
    await expect(bad.getByRole('row').filter({ hasText: 'Batterie schwach' })).toContainText('202')
    const write = page.getByRole('button', { name: /^Write 286 rows/ })
    await expect(write).toBeDisabled()
    await page.getByRole('checkbox', { name: /^Leave out the 2 rows/ }).check()
    await expectAccessible(page, 'import, checked')
    await write.click()
    // 287 temperatures and 286 humidities: row 102 lost its humidity only.
    await expect(page.getByText(/^Saved: 573 readings; 2 rows left out/)).toBeVisible()
  })

  await test.step('the entry says how the file was read', async () => {
    await page.getByRole('link', { name: 'Show the entry' }).click()
    await expect(page.getByText('logger-7.csv').first()).toBeVisible()
    await expect(page.getByText(/semicolon, decimal comma/).first()).toBeVisible()
  })

  await test.step('the same file is recognised', async () => {
    await goTo(page, '/import')
    await choose(page, 'Bay that the logger stood in', 'Bay S1')
    await page.locator('input[type=file]').setInputFiles(file)
    await expect(page.getByText(/^This same file was already read into Bay S1/)).toBeVisible()
  })
})

test.describe('files that are none', () => {
  test.use({ expectedTrouble: [/4\d\d/] })

  test('IMPORT-2: a file with nothing to read is answered in a sentence', async ({ page }) => {
    await goTo(page, '/import')
    await writeAs(page)
    await choose(page, 'Bay that the logger stood in', 'Bay S1')
    await page.locator('input[type=file]').setInputFiles({
      name: 'poem.txt',
      mimeType: 'text/plain',
      buffer: Buffer.from('Roses are red\nviolets are blue\n'),
    })
    await expect(
      page.getByRole('heading', { name: 'How it is read' }).or(page.getByRole('alert')),
    ).toBeVisible()
    await page.getByRole('button', { name: 'Check every row' }).click()
    await expect(page.getByText(/can be read; \d+ cannot|cannot|no column|No row/i).first()).toBeVisible()
    await expect(page.getByRole('button', { name: /^Write [1-9]/ })).toBeHidden()
  })
})
