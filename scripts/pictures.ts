import { mkdirSync } from 'node:fs'
import { chromium, type Page } from '@playwright/test'
import sharp from 'sharp'
import { words } from '#renderer/app/words.ts'
import { findBrowser } from './browser.mjs'
import { startDemoHost } from './docs/demo-host.ts'
import { root } from './root.ts'

/**
 * Makes the pictures of docs/using.md from the demonstration: `node scripts/pictures.ts [name …]`. Light, 1280 × 800.
 * The demonstration follows the day on which it is made, and so do they.
 */
const folder = `${root}docs/pictures`

interface Picture {
  name: string
  /** The address after #, with the bay's id where it stands in braces: /bay/{F1}. */
  at: string
  /** What must be there before the picture is taken. */
  shows: string
  /** Brings the page to what the picture is about. */
  before?: (page: Page) => Promise<unknown>
}

const pictures: Picture[] = [
  { name: 'today', at: '/', shows: 'main ul li' },
  { name: 'floors', at: '/floors', shows: 'main svg' },
  { name: 'bay', at: '/bay/{F1}', shows: 'main svg', before: scrollTo('The life of the bay') },
  { name: 'record', at: '/record/about/{S5}', shows: 'main ul li' },
  { name: 'batch', at: '/record/batch-mixed/{S5}', shows: 'main form', before: fillInBatch },
  { name: 'moisture', at: '/record/moisture-read/{F4}', shows: 'main form' },
  { name: 'import', at: '/import/{F4}', shows: 'main h1' },
  { name: 'ready', at: '/ready/{G1}', shows: 'main h2' },
  { name: 'not-proven', at: '/ready/{G2}', shows: 'main h2' },
  {
    name: 'forecast',
    at: '/ready/{F4}',
    shows: 'main h2',
    before: scrollTo('If it is not ready, when?'),
  },
  { name: 'ways', at: '/ways/{G3}', shows: 'main table', before: scrollTo('When the limit is kept') },
  { name: 'audit', at: '/audit', shows: 'main table' },
  { name: 'audit-bay', at: '/audit/bay/{G2}', shows: 'main h1' },
  { name: 'faults', at: '/faults', shows: 'main h1' },
  { name: 'fault', at: '/faults', shows: 'main h1', before: openFirstFault },
  { name: 'report-fault', at: '/faults/report/{F3}', shows: 'main h1' },
  { name: 'handover', at: '/handover', shows: 'main h1' },
  { name: 'bundle', at: '/handover/bundle', shows: 'main h1' },
  { name: 'entries', at: '/entries', shows: 'main h1' },
  { name: 'rules', at: '/set-up/rules', shows: 'main h2' },
  { name: 'people', at: '/set-up/people', shows: 'main h1' },
]

function scrollTo(heading: string | RegExp) {
  return async (page: Page) => {
    const title = page.getByRole('heading', { name: heading })
    await title.waitFor()
    // What is worked out in a thread comes later than the rest.
    await page.getByText(/^Working it out/).waitFor({ state: 'detached' })
    await title.evaluate((part) => part.scrollIntoView({ block: 'start' }))
  }
}

async function openFirstFault(page: Page): Promise<void> {
  await page.locator('main a[href*="#/faults/"]:not([href*="report"])').first().click()
  await scrollTo(/^Why: causes/)(page)
}

/** Somebody has to be writing, or every form asks for a name first. */
async function pickWriter(page: Page): Promise<void> {
  await page.getByRole('combobox', { name: words.rail.writer }).selectOption({ index: 1 })
  await page.mouse.move(0, 0)
}

async function fillInBatch(page: Page): Promise<void> {
  await page.getByRole('textbox', { name: /^Sand moisture/ }).fill('5')
  await page.getByRole('textbox', { name: 'Water added', exact: true }).fill('12')
  await page.getByRole('heading', { level: 1 }).scrollIntoViewIfNeeded()
}

async function take(page: Page, { name, at, shows, before }: Picture, bays: ReadonlyMap<string, string>) {
  const address = at.replace(/\{(\w+)\}/, (_, bay: string) => {
    const id = bays.get(bay)
    if (id === undefined)
      throw new Error(`The demonstration has no bay ${bay}; it has ${[...bays.keys()].join(', ')}.`)
    return id
  })
  await page.evaluate((hash) => {
    window.location.hash = hash
  }, address)
  await page.locator(`${shows} >> visible=true`).first().waitFor({ state: 'visible' })
  await page.getByText(words.waiting).first().waitFor({ state: 'detached' })
  await before?.(page)
  await page.waitForTimeout(900)
  const picture = await page.screenshot({ animations: 'disabled' })
  await sharp(picture).png({ palette: true, quality: 90, effort: 8 }).toFile(`${folder}/${name}.png`)
  process.stdout.write(`docs/pictures/${name}.png\n`)
}

/** The bays of the demonstration by name, read off the list of the page “Ready to cover”. */
async function baysOf(page: Page): Promise<Map<string, string>> {
  await page.evaluate(() => {
    window.location.hash = '/ready'
  })
  const links = page.locator('main a[href*="#/ready/"]')
  await links.first().waitFor({ state: 'visible' })
  const found = await links.evaluateAll((all) =>
    all.map((link) => [link.textContent ?? '', link.getAttribute('href') ?? ''] as const),
  )
  return new Map(
    found.map(([text, href]) => [/[A-Z]\d/.exec(text)?.[0] ?? text, href.split('/').at(-1) ?? '']),
  )
}

const wanted = process.argv.slice(2)
const chosen = pictures.filter(({ name }) => wanted.length === 0 || wanted.includes(name))
const host = await startDemoHost()
const browser = await chromium.launch({
  executablePath: findBrowser() ?? undefined,
  args: [
    '--lang=en-GB',
    '--no-sandbox',
    '--disable-gpu',
    '--disable-dev-shm-usage',
    '--disable-background-networking',
  ],
})
try {
  mkdirSync(folder, { recursive: true })
  const page = await browser.newPage({
    viewport: { width: 1280, height: 800 },
    colorScheme: 'light',
    locale: 'en-GB',
  })
  page.setDefaultTimeout(60_000)
  page.on('pageerror', (trouble) => process.stderr.write(`${trouble.message}\n`))
  await page.goto(host.url)
  const bays = await baysOf(page)
  await pickWriter(page)
  for (const picture of chosen) {
    try {
      await take(page, picture, bays)
    } catch (cause) {
      process.exitCode = 1
      process.stderr.write(`${picture.name} was not taken: ${String(cause)}\n`)
    }
  }
} finally {
  await browser.close()
  await host.stop()
}
