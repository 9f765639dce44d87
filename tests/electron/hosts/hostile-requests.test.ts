import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { callMaxBytes, uploadMaxBytes } from '#electron/hosts/browser/routes.ts'
import { contractRoutes } from './contract-routes.ts'
import { type Asked, type RunningHost, runningHost } from './running-host.ts'

let host: RunningHost
beforeAll(async () => {
  host = await runningHost()
})
afterAll(() => host.stop())

const callRoutes = contractRoutes()
const postRoutes = [...callRoutes, '/upload']
const fileRoutes = ['/', '/index.html', '/assets/main-1a2b.js']
const gateCodes = [
  'WRONG_HOST',
  'CROSS_SITE',
  'UNAUTHORIZED',
  'METHOD_NOT_SUPPORTED',
  'LENGTH_REQUIRED',
  'PAYLOAD_TOO_LARGE',
  'UNSUPPORTED_MEDIA_TYPE',
]

interface Hostile {
  name: string
  status: number
  code: string
  /** Changes a request of ours into a hostile one. */
  change: (ours: Record<string, string>) => Partial<Asked>
}

/** How a request differs from one of our own page, whatever it asks for. */
const fromElsewhere: Hostile[] = [
  {
    name: 'the name of another host',
    status: 421,
    code: 'WRONG_HOST',
    change: () => ({ headers: { host: 'example.org' } }),
  },
  {
    name: 'a name that was rebound to 127.0.0.1, with our port',
    status: 421,
    code: 'WRONG_HOST',
    change: () => ({ headers: { host: `rebound.example:${host.port}` } }),
  },
  {
    name: 'localhost, which is not our name',
    status: 421,
    code: 'WRONG_HOST',
    change: () => ({ headers: { host: `localhost:${host.port}` } }),
  },
  {
    name: 'our name with another port',
    status: 421,
    code: 'WRONG_HOST',
    change: () => ({ headers: { host: '127.0.0.1:1' } }),
  },
  {
    name: 'the Origin of another site',
    status: 403,
    code: 'CROSS_SITE',
    change: () => ({ headers: { origin: 'https://example.org' } }),
  },
  {
    name: 'the Origin null of a sandboxed frame',
    status: 403,
    code: 'CROSS_SITE',
    change: () => ({ headers: { origin: 'null' } }),
  },
  {
    name: 'our Origin with another port',
    status: 403,
    code: 'CROSS_SITE',
    change: () => ({ headers: { origin: 'http://127.0.0.1:1' } }),
  },
  {
    name: 'Sec-Fetch-Site cross-site',
    status: 403,
    code: 'CROSS_SITE',
    change: () => ({ headers: { 'sec-fetch-site': 'cross-site' } }),
  },
  {
    name: 'Sec-Fetch-Site same-site',
    status: 403,
    code: 'CROSS_SITE',
    change: () => ({ headers: { 'sec-fetch-site': 'same-site' } }),
  },
]

const withoutRight: Hostile[] = [
  { name: 'no Origin', status: 403, code: 'CROSS_SITE', change: () => ({ headers: { origin: undefined } }) },
  {
    name: 'Sec-Fetch-Site none, as a typed address has',
    status: 403,
    code: 'CROSS_SITE',
    change: () => ({ headers: { 'sec-fetch-site': 'none' } }),
  },
  {
    name: 'no token',
    status: 401,
    code: 'UNAUTHORIZED',
    change: () => ({ headers: { authorization: undefined } }),
  },
  {
    name: 'a wrong token of the right length',
    status: 401,
    code: 'UNAUTHORIZED',
    change: () => ({ headers: { authorization: `Bearer ${'A'.repeat(43)}` } }),
  },
  {
    name: 'the first half of the token',
    status: 401,
    code: 'UNAUTHORIZED',
    change: () => ({ headers: { authorization: `Bearer ${host.token.slice(0, 21)}` } }),
  },
  {
    name: 'the token and one character more',
    status: 401,
    code: 'UNAUTHORIZED',
    change: () => ({ headers: { authorization: `Bearer ${host.token}x` } }),
  },
  {
    name: 'an empty bearer',
    status: 401,
    code: 'UNAUTHORIZED',
    change: () => ({ headers: { authorization: 'Bearer ' } }),
  },
  {
    name: 'the bare token',
    status: 401,
    code: 'UNAUTHORIZED',
    change: () => ({ headers: { authorization: host.token } }),
  },
  {
    name: 'GET',
    status: 405,
    code: 'METHOD_NOT_SUPPORTED',
    change: () => ({ method: 'GET', body: undefined }),
  },
  { name: 'PUT', status: 405, code: 'METHOD_NOT_SUPPORTED', change: () => ({ method: 'PUT' }) },
  {
    name: 'OPTIONS, as a cross-site preflight',
    status: 405,
    code: 'METHOD_NOT_SUPPORTED',
    change: () => ({ method: 'OPTIONS' }),
  },
  {
    name: 'a body of unknown length',
    status: 411,
    code: 'LENGTH_REQUIRED',
    change: () => ({ chunked: true }),
  },
  {
    name: 'a form, as a cross-site page can send',
    status: 415,
    code: 'UNSUPPORTED_MEDIA_TYPE',
    change: () => ({ headers: { 'content-type': 'text/plain' } }),
  },
]

function ourRequest(
  path: string,
): Required<Pick<Asked, 'method' | 'path'>> & { headers: Record<string, string>; body: string } {
  const headers: Record<string, string> = { ...host.ours }
  if (path === '/upload') {
    headers['content-type'] = 'application/octet-stream'
    headers['x-file-name'] = 'logger.csv'
  }
  return { method: 'POST', path, headers, body: '{"json":{}}' }
}

async function expectRefused(asked: Asked, status: number, code: string) {
  const before = host.written()
  const answer = await host.ask(asked)
  expect({ path: asked.path, status: answer.status, code: answer.code }).toEqual({
    path: asked.path,
    status,
    code,
  })
  expect(answer.headers['access-control-allow-origin']).toBeUndefined()
  expect(answer.headers['x-content-type-options']).toBe('nosniff')
  expect(host.written()).toEqual(before)
}

describe('the hostile matrix', () => {
  it('HOST-1: the routes come from the contract, and there are many', () => {
    expect(callRoutes).toContain('/rpc/record/append')
    expect(callRoutes.length).toBeGreaterThanOrEqual(15)
  })

  it.each([...fromElsewhere, ...withoutRight])(
    'HOST-2: $name is refused with $status on every route that can read or write',
    async ({ status, code, change }) => {
      for (const path of postRoutes) {
        const ours = ourRequest(path)
        const changed = change(ours.headers)
        await expectRefused(
          { ...ours, ...changed, headers: { ...ours.headers, ...changed.headers } },
          status,
          code,
        )
      }
    },
  )

  it.each(fromElsewhere)(
    'HOST-3: $name is refused with $status on every built file',
    async ({ status, code, change }) => {
      for (const path of fileRoutes) await expectRefused({ path, ...change({}) }, status, code)
    },
  )

  it.each(callRoutes)('HOST-4: %s refuses a body beyond the limit, and one that is no JSON', async (path) => {
    const ours = ourRequest(path)
    const claim = { ...ours.headers, 'content-length': String(callMaxBytes + 1) }
    await expectRefused({ ...ours, headers: claim, body: '' }, 413, 'PAYLOAD_TOO_LARGE')
    await expectRefused({ ...ours, body: '{"json":' }, 400, 'BAD_REQUEST')
  })

  it('HOST-5: an upload beyond the limit is refused before it is read', async () => {
    const ours = ourRequest('/upload')
    const claim = { ...ours.headers, 'content-length': String(uploadMaxBytes + 1) }
    await expectRefused({ ...ours, headers: claim, body: '' }, 413, 'PAYLOAD_TOO_LARGE')
  })

  it('HOST-6: unknown calls and unknown files are not found', async () => {
    for (const path of [
      '/rpc',
      '/rpc/',
      '/rpc/record',
      '/rpc/record/erase',
      '/rpc/__proto__',
      '/rpc/constructor',
    ]) {
      await expectRefused(ourRequest(path), 404, 'NOT_FOUND')
    }
    for (const path of ['/favicon.ico', '/assets/', '/assets', '/assets/main-1a2b.js.map', '/index.htm']) {
      await expectRefused({ path }, 404, 'NOT_FOUND')
    }
  })

  it('HOST-7: no spelling of a path leaves the folder of built files', async () => {
    const spellings = [
      '/../outside.js',
      '/assets/../../outside.js',
      '/assets/..%2f..%2foutside.js',
      '/%2e%2e/outside.js',
      '/..\\outside.js',
      '/assets/%5c..%5c..%5coutside.js',
      '/..;/outside.js',
      '/.%00./outside.js',
      '/assets//../../outside.js',
    ]
    for (const path of spellings) await expectRefused({ path }, 404, 'NOT_FOUND')
    for (const path of ['//example.org/outside.js', 'http://example.org/', '*'])
      await expectRefused({ path }, 400, 'BAD_REQUEST')
  })

  it('HOST-8: files are only read: other methods and bodies are refused', async () => {
    for (const path of fileRoutes) {
      for (const method of ['POST', 'PUT', 'DELETE', 'OPTIONS', 'PATCH']) {
        await expectRefused({ path, method }, 405, 'METHOD_NOT_SUPPORTED')
      }
      await expectRefused({ path, body: 'x' }, 413, 'PAYLOAD_TOO_LARGE')
    }
  })

  it.each(callRoutes)('HOST-9: control: %s lets in what our own page asks', async (path) => {
    const { status, code } = await host.ask(ourRequest(path))
    expect(status).toBeGreaterThanOrEqual(200)
    expect(gateCodes).not.toContain(code)
    expect([404, 500]).not.toContain(status)
  })

  it('HOST-10: control: our own page gets the file, the facts and the upload', async () => {
    const page = await host.ask({ path: '/', headers: { 'sec-fetch-site': 'none' } })
    expect(page.status).toBe(200)
    const info = await host.ask(ourRequest('/rpc/host/info'))
    expect(JSON.parse(info.text).json).toMatchObject({ host: 'browser', recordState: { state: 'open' } })
    const upload = await host.ask(ourRequest('/upload'))
    expect(JSON.parse(upload.text).upload).toMatch(/^[0-9a-f]{32}$/)
    expect(host.services.uploads.find(JSON.parse(upload.text).upload).fileName).toBe('logger.csv')
  })

  it('HOST-11: an upload without a name, or with one that is not percent-encoded, is refused', async () => {
    const ours = ourRequest('/upload')
    await expectRefused({ ...ours, headers: { ...ours.headers, 'x-file-name': '%zz' } }, 400, 'BAD_REQUEST')
    const { 'x-file-name': _name, ...nameless } = ours.headers
    await expectRefused({ ...ours, headers: nameless }, 400, 'BAD_REQUEST')
  })
})
