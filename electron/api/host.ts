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
    now: new Date(clock()).toISOString(),
  }
})
