const storageKey = 'bayledger:token'

/**
 * The token of this session. It arrives in the fragment of the address (`#token=…`), is taken out of it at once, so
 * that it stays out of bookmarks, screenshots and the history list, and lives in this tab until the tab is closed:
 * a reload must not end the session of a person with a half-filled form. It dies with the host in any case.
 */
function takeToken(): string | null {
  const fragment = new URLSearchParams(window.location.hash.slice(1))
  const given = fragment.get('token')
  if (given === null) return remembered()
  fragment.delete('token')
  const rest = fragment.toString()
  const { pathname, search } = window.location
  window.history.replaceState(null, '', `${pathname}${search}${rest === '' ? '' : `#${rest}`}`)
  remember(given)
  return given
}

function remembered(): string | null {
  try {
    return window.sessionStorage.getItem(storageKey)
  } catch (cause) {
    // The person's browser keeps no data of sites: the token lives until the page is reloaded.
    if (cause instanceof DOMException) return null
    throw cause
  }
}

function remember(given: string): void {
  try {
    window.sessionStorage.setItem(storageKey, given)
  } catch (cause) {
    if (!(cause instanceof DOMException)) throw cause
  }
}

const token = takeToken()

// The full address typed into a tab that is open already changes the fragment only: start again with its token.
window.addEventListener('hashchange', () => {
  if (!new URLSearchParams(window.location.hash.slice(1)).has('token')) return
  takeToken()
  window.location.reload()
})

/** True when the page can talk to its host: it runs in the shell, or it was opened by the full address. */
export const hasSession = window.bayledgerShell !== undefined || token !== null

/** Headers that prove to the browser host that this page was opened by the person who started it. */
export function sessionHeaders(): Record<string, string> {
  return token === null ? {} : { authorization: `Bearer ${token}` }
}
