import { readSettings, writeSettings } from '../data-folder/settings.ts'
import { calls } from './base.ts'

export const info = calls.host.info.handler(({ context }) => {
  const { host, version, folder, record, demo, clock } = context
  const state = record.state()
  return {
    host,
    version,
    dataFolder: folder.path,
    device: state.state === 'open' ? (record.current().device?.name ?? '') : '',
    recordState: state,
    demo,
    notifications: host === 'desktop' ? readSettings(folder.settings).notifications : null,
    now: new Date(clock()).toISOString(),
  }
})

export const setNotifications = calls.host.setNotifications.handler(({ context, input }) => {
  const { settings } = context.folder
  writeSettings(settings, { ...readSettings(settings), notifications: input.on })
  return { on: input.on }
})
