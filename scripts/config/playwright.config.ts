import { defineConfig } from '@playwright/test'
import { findBrowser } from '../browser.mjs'
import { root } from '../root.ts'

const browser = findBrowser()

/** The whole program in a real browser: one worker, no second try, so that what is flaky is seen. */
export default defineConfig({
  testDir: `${root}tests/e2e`,
  outputDir: `${root}test-results`,
  globalSetup: `${root}tests/e2e/build-first.ts`,
  workers: 1,
  retries: 0,
  fullyParallel: false,
  forbidOnly: process.env.CI === 'true',
  // Generous: a slow machine is no failure, and speed is measured in scripts/bench.
  timeout: 150_000,
  expect: { timeout: 20_000 },
  reporter: [['list'], ['json', { outputFile: `${root}test-results/e2e.json` }]],
  use: {
    viewport: { width: 1280, height: 800 },
    locale: 'en-GB',
    timezoneId: 'Europe/London',
    screenshot: 'only-on-failure',
    // Recording every step costs more than the step; ask for it when a test must be looked into.
    trace: process.env.BAYLEDGER_TRACE === '1' ? 'retain-on-failure' : 'off',
    launchOptions: {
      ...(browser === null ? {} : { executablePath: browser }),
      args: [
        // Tests run as root in a container, where Chromium's own sandbox cannot start; the page is ours.
        '--no-sandbox',
        '--disable-gpu',
        '--disable-dev-shm-usage',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
        '--no-first-run',
        '--force-prefers-reduced-motion',
      ],
    },
  },
})
