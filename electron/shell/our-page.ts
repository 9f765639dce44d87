/** The scheme and host of the one page of the shell. Never file://, whose pages may read each other. */
export const pageScheme = 'app'
export const pageHost = 'bayledger'
export const pageAddress = `${pageScheme}://${pageHost}/index.html`

/** True when an address is of our own page. Node gives such a URL the origin "null", so its parts are compared. */
export function isOurs(address: string): boolean {
  if (!URL.canParse(address)) return false
  const { protocol, host, username, password } = new URL(address)
  return protocol === `${pageScheme}:` && host === pageHost && username === '' && password === ''
}

interface Frame {
  url: string
  parent: unknown
}

/** True for the top frame of our own page: no message from any other is taken. */
export function isOurFrame(frame: Frame | null): boolean {
  return frame !== null && frame.parent === null && isOurs(frame.url)
}
