/**
 * The token of this session, taken once from the address (`#token=…`) and kept in memory only. The fragment is removed
 * at once, so that it stays out of bookmarks, screenshots and the history list.
 */
function takeToken(): string | null {
  const fragment = new URLSearchParams(window.location.hash.slice(1))
  const token = fragment.get('token')
  if (token === null) return null
  fragment.delete('token')
  const rest = fragment.toString()
  const { pathname, search } = window.location
  window.history.replaceState(null, '', `${pathname}${search}${rest === '' ? '' : `#${rest}`}`)
  return token
}

const token = takeToken()

/** True when the page can talk to its host: it runs in the shell, or it was opened by the full address. */
export const hasSession = window.bayledgerShell !== undefined || token !== null

/** Headers that prove to the browser host that this page was opened by the person who started it. */
export function sessionHeaders(): Record<string, string> {
  return token === null ? {} : { authorization: `Bearer ${token}` }
}
