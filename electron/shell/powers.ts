import type { Session } from 'electron'

/** Denies every permission a page can ask for, now and when it asks again, and every device. */
export function denyPowers(session: Session): void {
  session.setPermissionRequestHandler((_contents, _permission, answer) => answer(false))
  session.setPermissionCheckHandler(() => false)
  session.setDevicePermissionHandler(() => false)
  session.setDisplayMediaRequestHandler(null)
}
