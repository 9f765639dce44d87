import { EventEmitter } from 'node:events'
import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

/**
 * What takes the place of the `electron` module in these tests: it does nothing and remembers what it was asked.
 * The process runs outside Electron, so only the shell's own decisions are tested here.
 */
class RecordingSession {
  permissionRequest:
    | ((contents: unknown, permission: string, answer: (allowed: boolean) => void) => void)
    | null = null
  permissionCheck: ((contents: unknown, permission: string) => boolean) | null = null
  deviceCheck: (() => boolean) | null = null
  handlers = new Map<string, (request: Request) => Promise<Response>>()
  protocol = {
    handle: (scheme: string, handler: (request: Request) => Promise<Response>) =>
      this.handlers.set(scheme, handler),
  }
  setPermissionRequestHandler = (handler: RecordingSession['permissionRequest']) => {
    this.permissionRequest = handler
  }
  setPermissionCheckHandler = (handler: RecordingSession['permissionCheck']) => {
    this.permissionCheck = handler
  }
  setDevicePermissionHandler = (handler: RecordingSession['deviceCheck']) => {
    this.deviceCheck = handler
  }
  setDisplayMediaRequestHandler = (handler: unknown) => {
    recorded.displayMediaHandlers.push(handler)
  }
}

type WindowOptions = { webPreferences?: Record<string, unknown> } & Record<string, unknown>
type OpenHandler = (details: { url: string }) => { action: string }

/** What a page's contents let the shell listen to and decide. */
export class RecordingContents extends EventEmitter {
  openHandler: OpenHandler | null = null
  setWindowOpenHandler = (handler: OpenHandler) => {
    this.openHandler = handler
  }
}

class RecordingWindow extends EventEmitter {
  options: WindowOptions
  loaded: string[] = []
  constructor(options: WindowOptions) {
    super()
    this.options = options
    recorded.windows.push(this)
  }
  loadURL = async (address: string) => {
    this.loaded.push(address)
  }
  show = () => undefined
  focus = () => undefined
  restore = () => undefined
  isMinimized = () => false
}

class RecordingApp extends EventEmitter {
  isPackaged = false
  enableSandbox = () => recorded.order.push('enableSandbox')
  requestSingleInstanceLock = () => {
    recorded.order.push('requestSingleInstanceLock')
    return true
  }
  whenReady = async () => {
    recorded.order.push('whenReady')
  }
  getVersion = () => '0.1.0'
  quit = () => recorded.order.push('quit')
  exit = (code = 0) => recorded.order.push(`exit ${code}`)
}

export const recorded = {
  order: [] as string[],
  windows: [] as RecordingWindow[],
  schemes: [] as { scheme: string; privileges: Record<string, boolean> }[],
  displayMediaHandlers: [] as unknown[],
  opened: [] as string[],
  asked: [] as { detail: string }[],
  errors: [] as string[],
  exposed: new Map<string, unknown>(),
  notified: [] as { title: string; body: string }[],
  posted: [] as { channel: string; message: unknown; ports: unknown[] }[],
  /** Which button a person presses next: 0 Cancel, 1 Open. */
  press: 0,
}

export const app = new RecordingApp()
export const ipcMain = new EventEmitter()
export const session = { defaultSession: new RecordingSession() }
export const BrowserWindow = RecordingWindow
export class Notification {
  options: { title: string; body: string }
  constructor(options: { title: string; body: string }) {
    this.options = options
  }
  show = () => void recorded.notified.push(this.options)
}
export const protocol = {
  registerSchemesAsPrivileged: (schemes: typeof recorded.schemes) => {
    recorded.order.push('registerSchemesAsPrivileged')
    recorded.schemes.push(...schemes)
  },
}
export const dialog = {
  showMessageBox: async (question: { detail: string }) => {
    recorded.asked.push(question)
    return { response: recorded.press }
  },
  showErrorBox: (_title: string, sentence: string) => recorded.errors.push(sentence),
}
export const shell = {
  openExternal: async (address: string) => {
    recorded.opened.push(address)
  },
}
export const contextBridge = {
  exposeInMainWorld: (name: string, value: unknown) => recorded.exposed.set(name, value),
}
export const ipcRenderer = {
  postMessage: (channel: string, message: unknown, ports: unknown[]) =>
    recorded.posted.push({ channel, message, ports }),
}

/** A data folder of its own for the shell under test, set before its main module is loaded. */
export function freshDataFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'bayledger-shell-'))
  process.env.BAYLEDGER_DATA = folder
  return folder
}

/** Resolves when the shell has opened its window and loaded its page. */
export async function windowShown(): Promise<RecordingWindow> {
  for (let i = 0; i < 500; i++) {
    const window = recorded.windows[0]
    if (window !== undefined && window.loaded.length > 0) return window
    if (recorded.errors.length > 0) throw new Error(`The shell gave up: ${recorded.errors.join(' ')}`)
    await new Promise((resolve) => setTimeout(resolve, 10))
  }
  throw new Error('The shell opened no window.')
}
