import type { App, WebContents } from 'electron'
import { openOutside } from './open-outside.ts'
import { isOurs } from './our-page.ts'

/** Closes every way by which a page could become, open or embed another one. */
export function closeWaysOut(app: App): void {
  app.on('web-contents-created', (_event, contents) => closeWaysOutOf(contents))
}

function closeWaysOutOf(contents: WebContents): void {
  contents.on('will-navigate', stay)
  contents.on('will-frame-navigate', stay)
  contents.on('will-redirect', stay)
  contents.on('will-attach-webview', (event) => event.preventDefault())
  contents.setWindowOpenHandler(({ url }) => {
    void openOutside(url)
    return { action: 'deny' }
  })
}

/** Reloading our own page is the one navigation there is. */
function stay(event: { url: string; preventDefault: () => void }): void {
  if (!isOurs(event.url)) event.preventDefault()
}
