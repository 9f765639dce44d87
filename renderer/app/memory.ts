/** What this machine remembers between starts, where the browser lets it; otherwise nothing, without complaint. */
export function remember(key: string, value: string | null): void {
  try {
    if (value === null) localStorage.removeItem(key)
    else localStorage.setItem(key, value)
  } catch (cause) {
    reportOnce(cause)
  }
}

export function recall(key: string): string | null {
  try {
    return localStorage.getItem(key)
  } catch (cause) {
    reportOnce(cause)
    return null
  }
}

let reported = false
function reportOnce(cause: unknown): void {
  if (!reported) console.info('This browser keeps nothing between starts:', cause)
  reported = true
}
