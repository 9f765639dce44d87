/** The nonce of this page load, which the content policy asks of every style element made while running. */
export function styleNonce(): string {
  const meta = document.querySelector<HTMLMetaElement>('meta[property="csp-nonce"]')
  return meta?.nonce ?? ''
}
