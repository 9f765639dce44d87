import { ipcMain, type MessagePortMain } from 'electron'
import type { z } from 'zod'
import type { Log } from '../log.ts'
import { isOurFrame } from './our-page.ts'

/**
 * The only way by which a message of a page reaches the main process: from the top frame of our own page, of the shape
 * that was agreed, or not at all.
 */
export function onMessage<S extends z.ZodType>(
  channel: string,
  shape: S,
  log: Log,
  act: (message: z.output<S>, ports: MessagePortMain[]) => void,
): void {
  ipcMain.on(channel, (event, raw: unknown) => {
    const drop = (why: string) => {
      for (const port of event.ports) port.close()
      log.keep(`message ${channel}`, new Error(why))
    }
    if (!isOurFrame(event.senderFrame)) return drop('It came from a page or frame that is not ours.')
    const parsed = shape.safeParse(raw)
    if (!parsed.success) return drop(`It had not the agreed shape: ${parsed.error.message}`)
    act(parsed.data, event.ports)
  })
}
