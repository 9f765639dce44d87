import { problemAt } from '#model/record/check-body.ts'
import type { CheckedEntry } from '#model/record/entry.ts'
import type { BodyOf } from '#model/record/kinds.ts'
import { canonicalJson } from './canonical.ts'
import { EntryRefused } from './errors.ts'
import { prepared, type WriteHandle } from './handles.ts'
import { photoSize } from './photos.ts'

/** What a photo is, whatever people say about it. */
const fixed = [
  'fileName',
  'format',
  'widthPx',
  'heightPx',
  'bytes',
  'sha256',
  'originalSha256',
  'gpsKept',
] as const

/** The photo of a new entry is kept already; a correction is about the same photo. @throws EntryRefused */
export function requirePhoto(
  { sqlite, file }: WriteHandle,
  entry: CheckedEntry,
  body: BodyOf<'photo-added'>,
): void {
  const refuse = (field: string, message: string) => {
    throw new EntryRefused(entry.id, [problemAt(entry.kind, body, field, message)])
  }
  if (entry.corrects === undefined) {
    const size = photoSize(file, body.sha256, body.format)
    if (size === null)
      refuse('sha256', 'names a photo that is not kept beside this record: choose the photo again')
    if (size !== body.bytes) refuse('bytes', `must be the size of the kept photo, ${size} bytes`)
    return
  }
  const before = prepared<{ body: string }>(
    sqlite,
    `select holds.body from ledger l join factVersions v on v.seq = l.seq join facts f on f.seq = v.fact
     join ledger holds on holds.seq = f.standing where l.id = ?`,
  ).get(entry.corrects)
  const was = before === undefined ? {} : (JSON.parse(before.body) as Partial<typeof body>)
  const field = fixed.find((name) => canonicalJson(was[name] ?? null) !== canonicalJson(body[name] ?? null))
  if (field !== undefined)
    refuse(field, 'must stay that of the photo. Withdraw the entry and add the other photo')
}
