import { fileURLToPath } from 'node:url'
import { app, dialog, session } from 'electron'
import { z } from 'zod'
import { usualDataFolder } from './data-folder/place.ts'
import { readAssets } from './hosts/assets.ts'
import { servePort } from './hosts/desktop/port.ts'
import { keepReminding } from './notifications.ts'
import { connectChannel } from './shell/channels.ts'
import { onMessage } from './shell/messages.ts'
import { denyPowers } from './shell/powers.ts'
import { declareScheme, serveScheme } from './shell/scheme.ts'
import { closeWaysOut } from './shell/ways-out.ts'
import { type StartedUp, startUp } from './start-up.ts'
import { openWindow } from './window.ts'

/** The desktop shell, as thin as it can be: it guards one page and connects it to the services. */
app.enableSandbox()
declareScheme()
closeWaysOut(app)

if (app.requestSingleInstanceLock()) run().catch(giveUp)
else app.quit()

async function run(): Promise<void> {
  await app.whenReady()
  const { BAYLEDGER_DATA: data, BAYLEDGER_DEMO: demo } = process.env
  const started = await startUp({
    host: 'desktop',
    version: app.getVersion(),
    data: data ?? usualDataFolder(process.platform, process.env),
    demo: demo === '1',
  })
  stopWithApp(started)
  const { services } = started
  denyPowers(session.defaultSession)
  serveScheme(
    session.defaultSession,
    services,
    readAssets(fileURLToPath(new URL('../renderer', import.meta.url))),
  )
  onMessage(connectChannel, z.null(), services.log, (_nothing, [port]) => {
    if (port !== undefined) servePort(port, services)
  })
  const reminding = keepReminding(services)
  app.once('will-quit', reminding.stop)
  const window = await openWindow(app)
  app.on('second-instance', () => {
    if (window.isMinimized()) window.restore()
    window.focus()
  })
}

/** The app waits for the record to be closed before it goes. */
function stopWithApp({ stop, services }: StartedUp): void {
  app.on('window-all-closed', () => app.quit())
  app.once('will-quit', (event) => {
    event.preventDefault()
    stop()
      .catch((cause: unknown) => services.log.keep('closing', cause))
      .finally(() => app.exit())
  })
}

function giveUp(cause: unknown): void {
  dialog.showErrorBox('Bayledger cannot start', cause instanceof Error ? cause.message : String(cause))
  app.exit(1)
}
