import { randomBytes } from 'node:crypto'

/** A nonce for the style elements of one page load. */
export function freshNonce(): string {
  return randomBytes(16).toString('base64url')
}

/**
 * What a page of Bayledger may load: its own built files and nothing else. Style elements made while running need the
 * nonce of the page load; pictures may also come from memory (a chart saved as PNG, a photo being looked at).
 */
export function contentPolicy(nonce: string): string {
  return [
    "default-src 'none'",
    "script-src 'self'",
    `style-src 'self' 'nonce-${nonce}'`,
    "font-src 'self'",
    "img-src 'self' data: blob:",
    "connect-src 'self'",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
    "object-src 'none'",
  ].join('; ')
}

const refusedPowers = [
  'accelerometer',
  'camera',
  'display-capture',
  'geolocation',
  'gyroscope',
  'hid',
  'magnetometer',
  'microphone',
  'midi',
  'payment',
  'screen-wake-lock',
  'serial',
  'usb',
  'xr-spatial-tracking',
]

/** Headers of every answer, whatever it carries. */
export const guardHeaders: Readonly<Record<string, string>> = {
  'x-content-type-options': 'nosniff',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-embedder-policy': 'require-corp',
  'cross-origin-resource-policy': 'same-origin',
  'referrer-policy': 'no-referrer',
  'permissions-policy': refusedPowers.map((power) => `${power}=()`).join(', '),
  'x-frame-options': 'DENY',
}
