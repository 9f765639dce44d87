import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { type IncomingHttpHeaders, request } from 'node:http'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { lastSeq } from '#db/queries/touched-since.ts'
import { readAssets } from '#electron/hosts/assets.ts'
import { startBrowserHost } from '#electron/hosts/browser/server.ts'
import { startUp } from '#electron/start-up.ts'

export interface Asked {
  method?: string
  path: string
  headers?: Record<string, string | string[] | undefined>
  body?: string | Buffer
  /** Leaves the body's length out, as a chunked request does. */
  chunked?: boolean
}

export interface Answered {
  status: number
  headers: IncomingHttpHeaders
  text: string
  /** The code of a refusal or of a call's error; null when there is none. */
  code: string | null
}

export const now = Date.UTC(2026, 10, 24, 7, 15)

/** A browser host on a fresh folder with two built files, and a client that can lie in every header. */
export async function runningHost() {
  const folder = mkdtempSync(join(tmpdir(), 'bayledger-host-'))
  const built = join(folder, 'built')
  mkdirSync(join(built, 'assets'), { recursive: true })
  writeFileSync(
    join(built, 'index.html'),
    '<!doctype html><meta name="csp-nonce" content=""><div id="root"></div>',
  )
  writeFileSync(join(built, 'assets', 'main-1a2b.js'), 'document.title = "Bayledger"')
  writeFileSync(join(built, 'assets', 'main-1a2b.js.map'), '{}')
  writeFileSync(join(folder, 'outside.js'), 'not to be served')
  const data = join(folder, 'data')
  const { services, stop } = await startUp({ host: 'browser', version: '0.1.0', data, clock: () => now })
  const host = await startBrowserHost({ services, assets: readAssets(built) })
  const port = Number(new URL(host.origin).port)

  return {
    ...host,
    port,
    services,
    data,
    /** Headers of a page of ours. */
    ours: {
      authorization: `Bearer ${host.token}`,
      origin: host.origin,
      'sec-fetch-site': 'same-origin',
      'content-type': 'application/json',
    },
    ask: (asked: Asked) => ask(port, asked),
    /** What a refused request must not change. */
    written: () => ({
      entries: lastSeq(services.record.current().read),
      files: readdirSync(data, { recursive: true }).map(String).sort(),
    }),
    stop: async () => {
      await host.close()
      await stop()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

export type RunningHost = Awaited<ReturnType<typeof runningHost>>

function ask(
  port: number,
  { method = 'GET', path, headers = {}, body, chunked = false }: Asked,
): Promise<Answered> {
  return new Promise((resolve, reject) => {
    const length = lengthHeader(body, chunked)
    const given = Object.fromEntries(
      Object.entries({ host: `127.0.0.1:${port}`, ...length, ...headers }).filter(
        ([, value]) => value !== undefined,
      ),
    ) as Record<string, string | string[]>
    const asking = request(
      { host: '127.0.0.1', port, method, path, headers: given, agent: false },
      (response) => {
        const chunks: Buffer[] = []
        response.on('data', (chunk: Buffer) => chunks.push(chunk))
        response.on('error', reject)
        response.on('end', () => {
          const text = Buffer.concat(chunks).toString('utf8')
          resolve({ status: response.statusCode ?? 0, headers: response.headers, text, code: codeIn(text) })
        })
      },
    )
    asking.on('error', reject)
    asking.end(body)
  })
}

function lengthHeader(body: Asked['body'], chunked: boolean): Record<string, string> {
  if (chunked) return { 'transfer-encoding': 'chunked' }
  return body === undefined ? {} : { 'content-length': String(Buffer.byteLength(body)) }
}

function codeIn(text: string): string | null {
  return /"code":"([A-Z_]+)"/.exec(text)?.[1] ?? null
}
