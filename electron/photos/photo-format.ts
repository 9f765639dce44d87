import type { PhotoFormat } from '#model/record/photos.ts'

/** What a file is by its first bytes, whatever its name says. */
export type SeenFormat = PhotoFormat | 'heic' | 'avif' | 'other'

const heicBrands: ReadonlySet<string> = new Set([
  'heic',
  'heix',
  'heim',
  'heis',
  'hevc',
  'hevx',
  'mif1',
  'msf1',
])

/** @source first bytes as in ITU-T T.81, W3C PNG, RFC 9649, ISO/IEC 23008-12 @provenance from memory */
export function formatOf(head: Buffer): SeenFormat {
  const text = head.toString('latin1', 0, 16)
  if (text.startsWith('\xff\xd8\xff')) return 'image/jpeg'
  if (text.startsWith('\x89PNG\r\n\x1a\n')) return 'image/png'
  if (text.startsWith('RIFF') && text.slice(8, 12) === 'WEBP') return 'image/webp'
  if (text.slice(4, 8) !== 'ftyp') return 'other'
  const brand = text.slice(8, 12)
  if (heicBrands.has(brand)) return 'heic'
  return brand === 'avif' || brand === 'avis' ? 'avif' : 'other'
}
