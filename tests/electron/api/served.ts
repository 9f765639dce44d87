import { createRouterClient } from '@orpc/server'
import { onTestFinished } from 'vitest'
import { router } from '#electron/api/router.ts'
import { closeServices, openServices, type Services } from '#electron/api/services.ts'
import { dataFolderAt } from '#electron/data-folder/place.ts'

/** Services over a folder, as a host opens them, and a client of the router on them; closed when the test is over. */
export async function served(folder: string, clock: () => number) {
  const services: Services = await openServices({
    host: 'browser',
    version: '0.0.0',
    folder: dataFolderAt(folder),
    clock,
  })
  onTestFinished(() => closeServices(services))
  return { services, client: createRouterClient(router, { context: services }) }
}

export async function* once(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield bytes
}

/** Everything that a call yields. */
export async function all<T>(stream: AsyncIterable<T>): Promise<T[]> {
  const events: T[] = []
  for await (const event of stream) events.push(event)
  return events
}
