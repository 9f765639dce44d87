import type { BackupInfo } from '#model/contract/index.ts'
import { words } from '../app/words.ts'
import classes from './backup-list.module.css'
import { Mark } from './mark.tsx'
import { numberText } from './number-text.ts'
import { agoText, momentText } from './site-time.ts'

interface BackupListProps {
  backups: readonly BackupInfo[]
  zone: string
  now: number
}

/** Backups with their age, newest first, and whether each was opened again and checked. */
export function BackupList({ backups, zone, now }: BackupListProps) {
  if (backups.length === 0) return <p>{words.setUp.record.noBackup}</p>
  const newestFirst = backups.toSorted((a, b) => Date.parse(b.at) - Date.parse(a.at))
  return (
    <ul className={classes.list}>
      {newestFirst.map(({ file, at, bytes, verified, ...saved }) => (
        <li key={file} className={classes.line}>
          <span>
            {words.setUp.record.backup(
              momentText(Date.parse(at), zone, now),
              agoText(Date.parse(at), now),
              sizeText(bytes),
              savedText(saved),
            )}
          </span>
          {verified ? (
            <Mark shape="discTick" tone="good" word={words.setUp.record.verified} />
          ) : (
            <Mark shape="diamondAsk" tone="unproven" word={words.setUp.record.notVerified} />
          )}
          <span className={classes.file}>{file}</span>
        </li>
      ))}
    </ul>
  )
}

/** What a backup has saved beside the record, in words. */
export function savedText({ photos, frozen }: Pick<BackupInfo, 'photos' | 'frozen'>): string {
  return frozen === null
    ? photosText(photos)
    : words.setUp.record.andFrozen(photosText(photos), frozen.saved, frozen.named)
}

/** True when everything that the record names beside itself was saved. */
export function savedWhole({ photos, frozen }: Pick<BackupInfo, 'photos' | 'frozen'>): boolean {
  return [photos, frozen].every((counts) => counts === null || counts.saved === counts.named)
}

function photosText(photos: BackupInfo['photos']): string {
  const { recordOnly, withPhotos, lacksPhotos } = words.setUp.record
  if (photos === null) return recordOnly
  const size = sizeText(photos.bytes)
  return photos.saved === photos.named
    ? withPhotos(photos.saved, size)
    : lacksPhotos(photos.saved, photos.named, size)
}

export function sizeText(bytes: number): string {
  if (bytes < 1000) return `${bytes} bytes`
  return bytes < 1_000_000 ? `${numberText(bytes / 1000, 0)} kB` : `${numberText(bytes / 1_000_000, 1)} MB`
}
