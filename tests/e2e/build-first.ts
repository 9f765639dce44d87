import { isFresh } from '#scripts/build-stamp.ts'

/** The pages are built once before the first test, unless they are of these sources already. */
export default async function buildFirst(): Promise<void> {
  if (isFresh('renderer')) return
  const { buildRenderer } = await import('#scripts/build.ts')
  await buildRenderer()
}
