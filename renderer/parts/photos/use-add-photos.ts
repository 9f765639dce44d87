import { useRef, useState } from 'react'
import type { PhotoTag } from '#model/record/photos.ts'
import { client, uploadFile } from '../../app/client.ts'
import { nowMs } from '../../app/clock.ts'
import { newId } from '../../app/ids.ts'
import { useJob } from '../../app/job.tsx'
import { type Fact, useRecorder } from '../../app/recorder.ts'
import { troubleOf } from '../../app/trouble.ts'
import { photosWords as words } from '../../app/words/photos.ts'
import { siteIso } from '../site-time.ts'

export interface Refused {
  file: File
  sentence: string
  /** The entry of the same photo, when it is here already. */
  entry: string | null
}

export type Adding =
  | { kind: 'idle' }
  | { kind: 'running'; done: number; of: number; fraction: number }
  | { kind: 'done'; added: number; refused: Refused[]; stopped: boolean }

interface Target {
  subject: string
  of?: string
  tag: PhotoTag
}

/** A fact of a photo that is kept, or why its file was refused. */
type Looked = { fact: Fact } | { refused: Refused }

const atOnce = 2
const written = 6

/**
 * Sends photos one after the other, two at a time, and writes what came through every few photos: a stop or a lost
 * connection loses at most those. A file that is refused does not stop the others.
 */
export function useAddPhotos(target: Target) {
  const { id: project, zone } = useJob()
  const recorder = useRecorder()
  const [state, setState] = useState<Adding>({ kind: 'idle' })
  const stopping = useRef(false)

  const look = async (file: File, onProgress: (fraction: number) => void): Promise<Looked> => {
    const { subject, of, tag } = target
    try {
      const upload = await uploadFile(file, onProgress)
      const { photo, already } = await client.photos.takeIn({ upload, project, subject })
      if (already !== null && already.of === (of ?? null)) {
        return { refused: { file, sentence: words.already(file.name), entry: already.entry } }
      }
      const { takenAt, ...kept } = photo
      const happenedAt = takenAt ?? siteIso(nowMs(), zone)
      const body = { ...kept, tag, quarterTurns: 0, ...optionally({ of, takenAt: takenAt ?? undefined }) }
      return { fact: { id: newId(), kind: 'photo-added', subject, happenedAt, source: 'photo', body } }
    } catch (error) {
      const { banner, fields } = troubleOf(error)
      return { refused: { file, sentence: fields.upload ?? banner, entry: null } }
    }
  }

  const add = async (files: readonly File[]) => {
    if (files.length === 0) return
    stopping.current = false
    const refused: Refused[] = []
    const fractions = files.map(() => 0)
    let added = 0
    const show = () => {
      const sum = fractions.reduce((total, one) => total + one, 0)
      setState({
        kind: 'running',
        done: added + refused.length,
        of: files.length,
        fraction: sum / files.length,
      })
    }
    show()
    let waiting: { file: File; fact: Fact }[] = []
    const write = async () => {
      const batch = waiting
      waiting = []
      if (batch.length === 0) return
      try {
        await recorder.mutateAsync(batch.map(({ fact }) => fact))
        added += batch.length
      } catch (error) {
        const sentence = troubleOf(error).banner
        refused.push(...batch.map(({ file }) => ({ file, sentence, entry: null })))
      }
    }
    for (let from = 0; from < files.length && !stopping.current; from += atOnce) {
      const batch = files.slice(from, from + atOnce)
      const looked = await Promise.all(
        batch.map((file, i) =>
          look(file, (fraction) => {
            fractions[from + i] = fraction * 0.9
            show()
          }),
        ),
      )
      for (const [i, one] of looked.entries()) {
        fractions[from + i] = 1
        if ('fact' in one) waiting.push({ file: batch[i]!, fact: one.fact })
        else refused.push(one.refused)
      }
      if (waiting.length >= written) await write()
      show()
    }
    await write()
    setState({ kind: 'done', added, refused, stopped: stopping.current })
  }

  return {
    state,
    add,
    stop: () => {
      stopping.current = true
    },
    dismiss: () => setState({ kind: 'idle' }),
  }
}

/** Only what is known is written. */
function optionally<T extends object>(facts: T): Partial<T> {
  return Object.fromEntries(Object.entries(facts).filter(([, value]) => value !== undefined)) as Partial<T>
}
