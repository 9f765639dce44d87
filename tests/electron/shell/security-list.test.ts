import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { MessageChannel } from 'node:worker_threads'
import { createORPCClient } from '@orpc/client'
import { RPCLink } from '@orpc/client/message-port'
import type { ContractRouterClient } from '@orpc/contract'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import type { Contract } from '#model/contract/index.ts'
import { builder } from '#scripts/config/builder.ts'
import { root } from '#scripts/root.ts'
import {
  app,
  freshDataFolder,
  ipcMain,
  RecordingContents,
  recorded,
  session,
  windowShown,
} from './stand-in.ts'

vi.mock('electron', async () => await import('./stand-in.ts'))

/**
 * The twenty items of Electron's security list, in its order and numbering.
 * @source Electron documentation, "Security", checklist. @provenance from memory
 */
let preferences: Record<string, unknown>
const data = freshDataFolder()
const packed = `${root}release/linux-unpacked/bayledger`

beforeAll(async () => {
  await import('#electron/main.ts')
  const window = await windowShown()
  preferences = window.options.webPreferences ?? {}
})
afterAll(async () => {
  app.emit('will-quit', { preventDefault: () => undefined })
  await vi.waitFor(() => expect(recorded.order).toContain('exit 0'))
  rmSync(data, { recursive: true })
})

const ours = 'app://bayledger/index.html'
const topFrame = { url: ours, parent: null }

function contents(): RecordingContents {
  const made = new RecordingContents()
  app.emit('web-contents-created', {}, made)
  return made
}

function prevented(name: string, event: Record<string, unknown>): boolean {
  const preventDefault = vi.fn()
  contents().emit(name, { ...event, preventDefault })
  return preventDefault.mock.calls.length > 0
}

async function ask(address: string, options: RequestInit = {}): Promise<Response> {
  const handler = session.defaultSession.handlers.get('app')
  if (handler === undefined) throw new Error('The shell serves no scheme of its own.')
  return handler(new Request(address, options))
}

function sourcesUnder(folder: string): { file: string; text: string }[] {
  return readdirSync(root + folder, { recursive: true })
    .map(String)
    .filter((file) => /\.tsx?$/.test(file))
    .map((file) => ({ file: `${folder}/${file}`, text: readFileSync(`${root}${folder}/${file}`, 'utf8') }))
}

describe('the security list of Electron', () => {
  it('SHELL-1: only content of our own is loaded: one page, from our own scheme', async () => {
    expect(recorded.windows).toHaveLength(1)
    expect(recorded.windows[0]?.loaded).toEqual([ours])
    const page = await (await ask(ours)).text()
    expect(page).toContain('<title>Bayledger</title>')
    expect(page).not.toMatch(/(?:src|href)="(?:https?:)?\/\//)
  })

  it('SHELL-2: no page is given Node', () => {
    expect(preferences).toMatchObject({
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
    })
  })

  it('SHELL-3: the preload script lives in a context of its own', () => {
    expect(preferences.contextIsolation).toBe(true)
    expect(String(preferences.preload)).toMatch(/preload\.cjs$/)
  })

  it('SHELL-4: every renderer is sandboxed, and that is said before anything can start one', () => {
    expect(preferences.sandbox).toBe(true)
    expect(recorded.order[0]).toBe('enableSandbox')
  })

  it.each([
    'media',
    'geolocation',
    'notifications',
    'clipboard-read',
    'fileSystem',
    'openExternal',
    'unknown',
  ])('SHELL-5: the permission %s is denied when asked for and when checked', (permission) => {
    const { permissionRequest, permissionCheck, deviceCheck } = session.defaultSession
    const answer = vi.fn()
    permissionRequest?.({}, permission, answer)
    expect(answer.mock.calls).toEqual([[false]])
    expect(permissionCheck?.({}, permission)).toBe(false)
    expect(deviceCheck?.()).toBe(false)
    expect(recorded.displayMediaHandlers).toEqual([null])
  })

  it('SHELL-6: the web security of the page stays on', () => {
    expect(preferences.webSecurity).toBe(true)
  })

  it('SHELL-7: every answer has a content policy that allows nothing unsafe, with a new nonce each time', async () => {
    const policies = await Promise.all(
      [1, 2].map(async () => (await ask(ours)).headers.get('content-security-policy')),
    )
    for (const policy of policies) {
      expect(policy).toContain("default-src 'none'")
      expect(policy).toContain("script-src 'self';")
      expect(policy).toMatch(/style-src 'self' 'nonce-[\w-]{22}'/)
      expect(policy).not.toMatch(/unsafe|\*|https?:/)
    }
    expect(policies[0]).not.toBe(policies[1])
    const page = await ask(ours)
    const nonce = /nonce-([\w-]{22})/.exec(page.headers.get('content-security-policy') ?? '')?.[1]
    expect(await page.text()).toContain(`<meta name="csp-nonce" content="${nonce}">`)
  })

  it('SHELL-8: a secure page runs no insecure content', () => {
    expect(preferences.allowRunningInsecureContent).toBe(false)
  })

  it('SHELL-9: experimental features stay off', () => {
    expect(preferences.experimentalFeatures).toBe(false)
  })

  it('SHELL-10: no Blink feature is switched on', () => {
    expect(Object.keys(preferences)).not.toContain('enableBlinkFeatures')
    for (const { file, text } of sourcesUnder('electron')) {
      expect({ file, found: /enableBlinkFeatures|appendSwitch/.test(text) }).toEqual({ file, found: false })
    }
  })

  it('SHELL-11: there is no webview, so none has allowpopups', () => {
    expect(preferences.webviewTag).toBe(false)
    const sources = [...sourcesUnder('renderer'), ...sourcesUnder('electron')]
    expect(sources.length).toBeGreaterThan(20)
    for (const { file, text } of sources) {
      expect({ file, found: /<webview|allowpopups/i.test(text) }).toEqual({ file, found: false })
    }
  })

  it('SHELL-12: a webview that something tries to attach is refused', () => {
    expect(prevented('will-attach-webview', {})).toBe(true)
  })

  it.each(['will-navigate', 'will-frame-navigate', 'will-redirect'])(
    'SHELL-13: %s leaves our page for nothing else',
    (name) => {
      for (const url of [
        'https://example.org/',
        'http://127.0.0.1:8080/',
        'file:///etc/passwd',
        'data:text/html,x',
        'app://other/index.html',
        'app://bayledger.example.org/',
        'app://bayledger@example.org/',
        'app://somebody@bayledger/',
        'javascript:alert(1)',
        'not an address',
      ]) {
        expect({ url, prevented: prevented(name, { url }) }).toEqual({ url, prevented: true })
      }
      expect(prevented(name, { url: ours })).toBe(false)
    },
  )

  it('SHELL-14: no page opens another window', () => {
    const { openHandler } = contents()
    for (const url of ['https://example.org/', ours, 'about:blank', 'file:///etc/passwd']) {
      expect(openHandler?.({ url })).toEqual({ action: 'deny' })
    }
  })

  it('SHELL-15: only https and mailto are opened outside, and only after a person said so', async () => {
    const { openOutside } = await import('#electron/shell/open-outside.ts')
    recorded.press = 1
    recorded.asked.length = 0
    recorded.opened.length = 0
    for (const address of [
      'http://example.org/',
      'file:///etc/passwd',
      'smb://host/x',
      'javascript:alert(1)',
      'ms-msdt:/id',
      'x',
    ]) {
      expect(await openOutside(address)).toBe(false)
    }
    expect(recorded.asked).toEqual([])
    expect(await openOutside('https://example.org/a')).toBe(true)
    expect(await openOutside('mailto:somebody@example.org')).toBe(true)
    expect(recorded.opened).toEqual(['https://example.org/a', 'mailto:somebody@example.org'])
    recorded.press = 0
    expect(await openOutside('https://example.org/b')).toBe(false)
    expect(recorded.opened).toHaveLength(2)
    expect(recorded.asked.at(-1)?.detail).toBe('https://example.org/b')
    const callers = sourcesUnder('electron').filter(({ text }) => text.includes('openExternal('))
    expect(callers.map(({ file }) => file)).toEqual(['electron/shell/open-outside.ts'])
  })

  it('SHELL-16: the version of Electron is pinned exactly, so that an update is a decision', () => {
    const { devDependencies } = JSON.parse(readFileSync(`${root}package.json`, 'utf8'))
    expect(devDependencies.electron).toMatch(/^\d+\.\d+\.\d+$/)
    const installed = JSON.parse(readFileSync(`${root}node_modules/electron/package.json`, 'utf8')).version
    expect(devDependencies.electron).toBe(installed)
  })

  it('SHELL-17: a message is taken from the top frame of our own page only, and only in its agreed shape', async () => {
    const channels = ipcMain.eventNames()
    expect(channels).toEqual(['bayledger:connect'])
    const hostile = [
      { senderFrame: null, message: null },
      { senderFrame: { url: 'https://example.org/', parent: null }, message: null },
      { senderFrame: { url: 'app://other/index.html', parent: null }, message: null },
      { senderFrame: { url: 'file:///index.html', parent: null }, message: null },
      { senderFrame: { url: 'about:blank', parent: null }, message: null },
      { senderFrame: { url: ours, parent: topFrame }, message: null },
      { senderFrame: topFrame, message: { more: 'than agreed' } },
      { senderFrame: topFrame, message: undefined },
    ]
    for (const { senderFrame, message } of hostile) {
      const port = { on: vi.fn(), start: vi.fn(), close: vi.fn(), postMessage: vi.fn() }
      ipcMain.emit('bayledger:connect', { senderFrame, ports: [port] }, message)
      expect([port.start.mock.calls.length, port.close.mock.calls.length]).toEqual([0, 1])
    }
    // The control: our own page gets a port that answers.
    const { port1, port2 } = new MessageChannel()
    ipcMain.emit('bayledger:connect', { senderFrame: topFrame, ports: [port1] }, null)
    const link = new RPCLink({ port: port2 as unknown as MessagePort })
    port2.start()
    const client: ContractRouterClient<Contract> = createORPCClient(link)
    expect(await client.host.info()).toMatchObject({
      host: 'desktop',
      dataFolder: data,
      recordState: { state: 'open' },
    })
    port2.close()
  })

  it('SHELL-18: pages come from app://, never from file://, and only built files do', async () => {
    expect(recorded.schemes).toHaveLength(1)
    expect(recorded.schemes[0]).toMatchObject({ scheme: 'app', privileges: { standard: true, secure: true } })
    expect(recorded.schemes[0]?.privileges.bypassCSP).toBeUndefined()
    expect(recorded.order.indexOf('registerSchemesAsPrivileged')).toBeLessThan(
      recorded.order.indexOf('whenReady'),
    )
    for (const path of [
      '/../package.json',
      '/..%2fpackage.json',
      '/%2e%2e/package.json',
      '/main.tsx',
      '/none.js',
    ]) {
      expect({ path, status: (await ask(`app://bayledger${path}`)).status }).toEqual({ path, status: 404 })
    }
    expect((await ask('app://other/index.html')).status).toBe(421)
    expect((await ask(ours, { method: 'POST', body: 'x' })).status).toBe(405)
    expect((await ask(ours)).status).toBe(200)
  })

  it('SHELL-19: the fuses are set when the program is packaged', () => {
    expect(builder.electronFuses).toEqual({
      runAsNode: false,
      enableCookieEncryption: true,
      enableNodeOptionsEnvironmentVariable: false,
      enableNodeCliInspectArguments: false,
      enableEmbeddedAsarIntegrityValidation: true,
      onlyLoadAppFromAsar: true,
      loadBrowserProcessSpecificV8Snapshot: false,
      grantFileProtocolExtraPrivileges: false,
    })
  })
  it.skipIf(!existsSync(packed))(
    'SHELL-19: the fuses are blown in the packaged program (skipped without release/linux-unpacked)',
    () => {
      const program = readFileSync(packed)
      const wire = program.indexOf('dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX')
      expect(wire).toBeGreaterThan(-1)
      const states = program.subarray(wire + 34, wire + 34 + 8).toString('latin1')
      expect(states).toBe('01001100')
    },
  )

  it('SHELL-20: the page is given one frozen object with one function, and nothing of Electron', async () => {
    const posted = vi.fn()
    vi.stubGlobal('window', { postMessage: posted })
    await import('#electron/preload.ts')
    expect([...recorded.exposed.keys()]).toEqual(['bayledgerShell'])
    const bridge = recorded.exposed.get('bayledgerShell') as { connect: () => unknown }
    expect(Object.keys(bridge)).toEqual(['connect'])
    expect(Object.isFrozen(bridge)).toBe(true)
    expect(bridge.connect()).toBeUndefined()
    expect(recorded.posted).toMatchObject([{ channel: 'bayledger:connect', message: null }])
    expect(posted.mock.calls[0]?.slice(0, 2)).toEqual(['bayledger:port', '/'])
    vi.unstubAllGlobals()
  })
})

describe('the shell beside the list', () => {
  it('SHELL-21: developer tools are off in the packaged program', async () => {
    const { openWindow } = await import('#electron/window.ts')
    const packaged = await openWindow({ isPackaged: true } as Parameters<typeof openWindow>[0])
    expect(
      (packaged as unknown as { options: { webPreferences: object } }).options.webPreferences,
    ).toMatchObject({
      devTools: false,
    })
    expect(preferences.devTools).toBe(true)
  })

  it('SHELL-22: there is one instance: it is asked for before anything is opened', () => {
    const { order } = recorded
    expect(order.indexOf('requestSingleInstanceLock')).toBeGreaterThan(-1)
    expect(order.indexOf('requestSingleInstanceLock')).toBeLessThan(order.indexOf('whenReady'))
  })

  it('SHELL-23: a file is taken in by a streamed POST of our own page', async () => {
    const headers = { 'x-file-name': encodeURIComponent('Fühler 7.csv') }
    const answer = await ask('app://bayledger/upload', { method: 'POST', body: 'a;b\n1;2\n', headers })
    expect(answer.status).toBe(200)
    expect(((await answer.json()) as { upload: string }).upload).toMatch(/^[0-9a-f]{32}$/)
    expect((await ask('app://bayledger/upload')).status).toBe(405)
    expect((await ask('app://bayledger/upload', { method: 'POST', body: 'x' })).status).toBe(400)
  })
})
