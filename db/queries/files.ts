import { inflateSync } from 'node:zlib'
import { type Handle, prepared } from '../handles.ts'

export interface FileReadBefore {
  entry: string
  bay: string
  /** When it was read [ISO 8601]. */
  at: string
}

/** The standing import of the file with this SHA-256, in one project or in any; null when there is none. */
export function findFileBySha256(handle: Handle, sha256: string, project?: string): FileReadBefore | null {
  const found = prepared<{ entry: string; bay: string; recordedAt: number }>(
    handle.sqlite,
    `select i.entry, i.subject as bay, l.recordedAt from imports i join ledger l on l.id = i.entry
     where i.sha256 = @sha256 and i.withdrawn = 0 and (@project is null or i.project = @project) order by l.seq limit 1`,
  ).get({ sha256, project: project ?? null })
  if (found === undefined) return null
  return { entry: found.entry, bay: found.bay, at: new Date(found.recordedAt).toISOString() }
}

/** The original bytes of a file that was read; null when the record does not hold it. */
export function originalFile(handle: Handle, sha256: string): Buffer | null {
  const row = prepared<{ packed: Buffer }>(handle.sqlite, 'select packed from files where sha256 = ?').get(
    sha256,
  )
  return row === undefined ? null : inflateSync(row.packed)
}
