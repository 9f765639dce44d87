import { copyFileSync, cpSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { test as base, expect, type Page } from '@playwright/test'
import { demoRecord } from './demo-record.ts'
import { type Started, startBayledger } from './started.ts'

interface Options {
  /** What the record holds when the test begins. */
  record: 'empty' | 'demo'
  /** Messages of the console that this test expects, such as a refused call that it provokes. */
  expectedTrouble: RegExp[]
}

interface Given {
  /** The data folder of this test alone. */
  data: string
  host: Started
  /** The full address with the token. */
  url: string
  /** Everything that went wrong in the page so far; the test fails when it is not empty at its end. */
  trouble: string[]
}

/**
 * A test with its own Bayledger: `page` stands open on it. Any error or warning of policy in the console, any error of
 * the page and any request to elsewhere fails the test.
 */
export const test = base.extend<Options & Given>({
  record: ['empty', { option: true }],
  expectedTrouble: [[], { option: true }],

  data: async ({ record }, use) => {
    const data = mkdtempSync(join(tmpdir(), 'bayledger-e2e-'))
    if (record === 'demo') {
      const demo = await demoRecord()
      copyFileSync(demo, join(data, 'record.sqlite'))
      cpSync(join(demo, '..', 'photos'), join(data, 'photos'), { recursive: true })
    }
    await use(data)
    rmSync(data, { recursive: true })
  },

  host: async ({ data }, use) => {
    const host = await startBayledger({ data })
    await use(host)
    const code = await host.stop()
    expect(code, `Bayledger ended badly:\n${host.printed().err}`).toBe(0)
  },

  url: async ({ host }, use) => use(host.url),

  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads the first argument's names.
  trouble: async ({}, use) => use([]),

  page: async ({ page, url, host, trouble, expectedTrouble }, use) => {
    collectTrouble(page, host.origin, trouble)
    await page.goto(url)
    await use(page)
    const unexpected = trouble.filter((one) => !expectedTrouble.some((expected) => expected.test(one)))
    expect(unexpected, 'The page had trouble.').toEqual([])
  },
})

export { expect }

/** Listens to everything that a page can complain of. */
export function collectTrouble(page: Page, origin: string, trouble: string[]): void {
  page.on('console', (message) => {
    if (message.type() === 'error' || /Content Security Policy/i.test(message.text())) {
      trouble.push(`console: ${message.text()} (${message.location().url})`)
    }
  })
  page.on('pageerror', (error) => trouble.push(`error: ${error.stack ?? error.message}`))
  page.on('request', (request) => {
    const address = request.url()
    if (!address.startsWith(`${origin}/`) && !/^(?:data|blob):/.test(address))
      trouble.push(`request: ${address}`)
  })
}
