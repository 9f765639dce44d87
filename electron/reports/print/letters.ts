/**
 * The letters that the embedded font has: Latin, Greek and Cyrillic with their usual marks, and the signs that reports
 * use. Anything else would come out as an empty box, so a mark stands for it.
 */
const printable =
  /[\n\u0020-\u007E\u00A0-\u017F\u0192\u01A0\u01A1\u01AF\u01B0\u01FA-\u01FF\u0218-\u021B\u0384-\u038A\u038C\u038E-\u03A1\u03A3-\u03CE\u0400-\u0482\u048A-\u0513\u1E80-\u1E85\u1E9E\u1EA0-\u1EF9\u2010\u2011\u2013-\u2015\u2017-\u201E\u2020-\u2022\u2026\u2030\u2032\u2033\u2039\u203A\u2070\u2074-\u208E\u20AC\u2116\u2122\u2126\u2202\u2206\u2211\u2212\u221A\u221E\u2248\u2260\u2264\u2265\u25CF]/u

/** Every kind of blank that the font does not have, and tabs. */
const blanks = /[\t\u2000-\u200A\u202F\u205F\u3000]/gu
/** Signs that are not seen: controls and the marks of writing direction. */
const unseen = /[\p{Cc}\p{Cf}]/u

/** Stands for a run of letters that cannot be printed. */
export const lostMark = '‹?›'

/**
 * Returns a text with plain blanks and with a mark in place of every run of letters that cannot be printed.
 * @param lost is told the code point of each of them
 */
export function printableText(text: string, lost?: Set<number>): string {
  // An accent that stands on its own is put on its letter first.
  const whole = text.normalize('NFC').replaceAll(blanks, ' ')
  let out = ''
  let inRun = false
  for (const letter of whole) {
    if (!printable.test(letter) && unseen.test(letter)) continue
    const isLost = !printable.test(letter)
    if (isLost) lost?.add(letter.codePointAt(0)!)
    if (!isLost) out += letter
    else if (!inRun) out += lostMark
    inRun = isLost
  }
  return out
}

/** More code points than this are counted and not listed. */
const mostListed = 8

/** What a page says of the letters that it could not print; null when there was none. */
export function lostText(lost: ReadonlySet<number>): string | null {
  if (lost.size === 0) return null
  const codes = [...lost]
    .sort((a, b) => a - b)
    .map((code) => `U+${code.toString(16).toUpperCase().padStart(4, '0')}`)
  const more = codes.length - mostListed
  const listed = codes.slice(0, mostListed).join(' ')
  return `${lostMark} stands for characters that this file cannot print: ${listed}${more > 0 ? ` and ${more} more` : ''}. The record keeps them.`
}
