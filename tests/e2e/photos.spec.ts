import { readFileSync } from 'node:fs'
import type { Page } from '@playwright/test'
import { drawing, leftOvers, withCameraWords } from '#tests/electron/photos/camera.ts'
import { expectAccessible } from './accessible.ts'
import { expect, test } from './fixture.ts'
import { writeAs } from './forms.ts'

test.use({ record: 'demo', expectedTrouble: [/status of 422/] })
// A host, a forecast and a decoder start in each; on a busy machine that takes its time.
test.describe.configure({ timeout: 120_000 })

const openBay = async (page: Page) => {
  await page.getByRole('link', { name: 'Floors' }).click()
  await page.getByText('First floor', { exact: true }).click()
  await page.getByRole('button', { name: /^F1,/ }).click()
  await page.getByRole('link', { name: 'Its life' }).click()
  await writeAs(page, 'Nora Vale')
}
const photoNamed = async (orientation: number, takenAt: string) =>
  withCameraWords(await drawing(1200, 900).jpeg().toBuffer(), { orientation, takenAt })

test('PHOTO-E2E-1: photos are added, a bad file is refused by name, the same one is recognised', async ({
  page,
}) => {
  await openBay(page)
  const photos = page.getByRole('list', { name: /^\d+ photos?$/ })
  await expect(photos.getByRole('listitem')).toHaveCount(1)
  const files = [
    { name: 'north.jpg', mimeType: 'image/jpeg', buffer: await photoNamed(6, '2026:11:02 07:10:00') },
    { name: 'phone.heic', mimeType: 'image/heic', buffer: Buffer.from('\0\0\0\x18ftypheic\0\0\0\0') },
  ]
  await page.locator('input[type=file][accept*="image/jpeg"]').setInputFiles(files)
  await expect(page.getByText('1 photo added.')).toBeVisible({ timeout: 30_000 })
  await expect(page.getByText(/“phone\.heic” is a HEIC photo.*save or send this one as JPEG/)).toBeVisible()
  await expect(photos.getByRole('listitem')).toHaveCount(2)
  await photos.scrollIntoViewIfNeeded()
  const shown = photos.locator('img').first()
  await expect(shown).toBeVisible()
  // The picture itself is there, and stands upright: the camera was held on its side.
  await expect
    .poll(() => shown.evaluate((img: HTMLImageElement) => [img.naturalWidth, img.naturalHeight]))
    .toEqual(expect.arrayContaining([270, 360]))

  await page.locator('input[type=file][accept*="image/jpeg"]').setInputFiles(files.slice(0, 1))
  await expect(page.getByText('“north.jpg” is here already and was not added again.')).toBeVisible()
  await expect(photos.getByRole('listitem')).toHaveCount(2)
  await expectAccessible(page, 'the bay with photos')
})

test('PHOTO-E2E-2: a photo is turned, captioned and measured; its entry shows who, what and every version', async ({
  page,
}) => {
  await openBay(page)
  const before = {
    name: 'crack.jpg',
    mimeType: 'image/jpeg',
    buffer: await photoNamed(1, '2026:11:03 08:00:00'),
  }
  await page.locator('input[type=file][accept*="image/jpeg"]').setInputFiles([before])
  await expect(page.getByText('1 photo added.')).toBeVisible({ timeout: 30_000 })
  await page.getByRole('button', { name: /^Look at photo: Other Tue 3 Nov/ }).press('Enter')

  const viewer = page.getByRole('dialog')
  await viewer.getByRole('button', { name: 'Turn right' }).click()
  await viewer.getByRole('button', { name: 'Keep it turned so' }).click()
  await expect(viewer.getByRole('button', { name: 'Keep it turned so' })).toBeHidden()

  await viewer.getByRole('button', { name: 'Write a caption' }).click()
  await viewer.getByRole('textbox', { name: 'Caption' }).fill('Crack at the door, rule beside it')
  await viewer.getByRole('button', { name: 'Save', exact: true }).click()
  await expect(viewer.getByText('Crack at the door, rule beside it').first()).toBeVisible()

  // By keyboard alone: Enter sets a point, arrows move the cross by pixels with Shift.
  const surface = viewer.getByRole('img', { name: 'Photo with its marks' })
  const line = async (pixels: number) => {
    await surface.focus()
    await page.keyboard.press('Enter')
    for (let i = 0; i < pixels; i++) await page.keyboard.press('Shift+ArrowRight')
    await page.keyboard.press('Enter')
  }
  await viewer.getByRole('button', { name: 'Set the scale' }).click()
  await line(40)
  await viewer.getByRole('textbox', { name: 'Length between the points' }).fill('20')
  await viewer.getByRole('button', { name: 'Save', exact: true }).click()
  await viewer.getByRole('button', { name: 'Measure a width' }).click()
  await line(10)
  await expect(viewer.getByText(/^5 mm ± 0\.7 mm/)).toBeVisible()
  await viewer.getByRole('textbox', { name: 'What was measured' }).fill('Crack')
  await viewer.getByRole('button', { name: 'Save', exact: true }).click()
  await expect(viewer.getByRole('link', { name: 'Crack: 5 mm' })).toBeVisible()

  await viewer.getByRole('link', { name: 'Entry and history' }).click()
  await expect(page.getByRole('heading', { name: 'Photo added', level: 1 })).toBeVisible()
  for (const why of ['Turned upright', 'Caption written', 'Scale set by a known length'])
    await expect(page.getByText(`Because: ${why}`)).toBeVisible()
  await expect(page.getByText('First written')).toBeVisible()
})

test('PHOTO-E2E-3: what was added has no position in it; withdrawn it is gone from the bay and can be brought back', async ({
  page,
  data,
}) => {
  await openBay(page)
  const photo = await photoNamed(1, '2026:11:04 08:00:00')
  expect(leftOvers(photo).length).toBeGreaterThan(3)
  await page
    .locator('input[type=file][accept*="image/jpeg"]')
    .setInputFiles([{ name: 'strip.jpg', mimeType: 'image/jpeg', buffer: photo }])
  await expect(page.getByText('1 photo added.')).toBeVisible({ timeout: 30_000 })
  await page.getByRole('button', { name: /^Look at photo: Other Wed 4 Nov/ }).click()
  const viewer = page.getByRole('dialog')
  const hash = await viewer.locator('code').textContent()
  const kept = readFileSync(`${data}/photos/${hash?.slice(0, 2)}/${hash}.jpg`)
  expect(leftOvers(kept)).toEqual([])

  await viewer.getByRole('link', { name: 'Entry and history' }).click()
  await page.getByRole('button', { name: 'Withdraw it' }).click()
  await page.getByRole('textbox', { name: 'Why is it wrong?' }).fill('Another bay')
  await page.getByRole('button', { name: 'Withdraw the entry' }).click()
  await page.getByRole('button', { name: 'Bring it back' }).click()
  await page.getByRole('textbox', { name: 'Why is it right?' }).fill('It was this bay after all')
  await page.getByRole('dialog').getByRole('button', { name: 'Bring it back' }).click()
  await expect(page.getByText('Because: It was this bay after all')).toBeVisible()
  await expect(page.getByRole('button', { name: 'Withdraw it' })).toBeVisible()
})
