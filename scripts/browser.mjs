// Where a Chromium-like browser lies on this machine: one answer for the installer, the tests and the screenshots.
import { existsSync } from 'node:fs'

const places = [
  process.env.BAYLEDGER_BROWSER,
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/microsoft-edge',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  'C:/Program Files/Google/Chrome/Application/chrome.exe',
  'C:/Program Files (x86)/Microsoft/Edge/Application/msedge.exe',
]

/** Returns the path of an installed browser, or null. */
export function findBrowser() {
  return places.find((place) => place !== undefined && existsSync(place)) ?? null
}
