import { readAssets } from '#electron/hosts/assets.ts'
import { startBrowserHost } from '#electron/hosts/browser/server.ts'
import { startUp } from '#electron/start-up.ts'
import { root } from '../root.ts'
import type { ChosenData } from './data.ts'
import { openAddress } from './open-address.ts'
import type { StartOptions } from './options.ts'

/** Serves Bayledger to the browser until the process is told to stop; resolves when all is closed. */
export async function runInBrowser(options: StartOptions, data: ChosenData, version: string): Promise<void> {
  const stopped = stopAsked()
  const started = await startUp({ host: 'browser', version, data: data.path, demo: options.demo })
  try {
    const assets = readAssets(`${root}dist/renderer`)
    const host = await startBrowserHost({ services: started.services, assets, port: options.port })
    process.stdout.write(`Bayledger at ${host.url}\n`)
    if (options.open && !(await openAddress(host.url))) {
      process.stderr.write('No browser could be opened here; open the address above yourself.\n')
    }
    await stopped
    await host.close()
  } finally {
    await started.stop()
  }
}

/** Resolves at Ctrl-C, at `kill`, or when the terminal closes. A second one ends the process the hard way. */
function stopAsked(): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => resolve())
  })
}
