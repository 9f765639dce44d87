import { fileURLToPath } from 'node:url'
import { type App, BrowserWindow } from 'electron'
import { pageAddress } from './shell/our-page.ts'

/** Opens the window of the record. It shows itself when there is something to see. */
export async function openWindow(app: App): Promise<BrowserWindow> {
  const window = new BrowserWindow({
    title: 'Bayledger',
    width: 1440,
    height: 900,
    minWidth: 1024,
    minHeight: 640,
    show: false,
    autoHideMenuBar: true,
    webPreferences: {
      preload: fileURLToPath(new URL('./preload.cjs', import.meta.url)),
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      allowRunningInsecureContent: false,
      experimentalFeatures: false,
      webviewTag: false,
      navigateOnDragDrop: false,
      spellcheck: false,
      devTools: !app.isPackaged,
    },
  })
  window.once('ready-to-show', () => window.show())
  await window.loadURL(pageAddress)
  return window
}
