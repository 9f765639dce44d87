import { isFresh } from '#scripts/build-stamp.ts'

/** Before the first test the pages are built, unless they are of these sources already. After the last, tidies up. */
export default async function buildFirst(): Promise<() => Promise<void>> {
  process.env.BAYLEDGER_E2E_RUN = String(process.pid)
  if (!isFresh('renderer')) {
    const { buildRenderer } = await import('#scripts/build.ts')
    await buildRenderer()
  }
  return async () => {
    const { forgetDemoRecord } = await import('./demo-record.ts')
    forgetDemoRecord()
  }
}
