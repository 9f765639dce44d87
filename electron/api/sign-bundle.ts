import { join } from 'node:path'
import type { BundleAsked } from '#db/bundle/make-bundle.ts'
import type { KeptBundle } from '#model/contract/bundles.ts'
import { type Progress, withProgress } from './progress.ts'
import type { Services } from './services.ts'

/** Writes a signed bundle into the data folder. Whoever asks must have been let before. */
export async function* signBundle(
  context: Services,
  asked: BundleAsked,
  signal: AbortSignal | undefined,
): AsyncGenerator<Progress, KeptBundle, void> {
  const place = {
    bundles: bundlesIn(context),
    keys: join(context.folder.path, 'keys'),
    program: `Bayledger ${context.version}`,
    now: context.clock(),
  }
  const job = { recordFile: context.record.current().file, asked, place }
  return yield* withProgress((options) => context.workers.run('make bundle', job, options), signal)
}

/** Where the bundles of this data folder lie. */
export function bundlesIn({ folder }: Services): string {
  return join(folder.path, 'bundles')
}
