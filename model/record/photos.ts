import { type BodyProblem, entryKind } from './entry-kind.ts'
import { choice, instant, listOf, number, optional, reference, text, yesNo } from './fields.ts'

/** What a photo is kept for: stored value → words on screen. */
export const photoTags = {
  'edge strip': 'Edge strip',
  sheets: 'Sheets',
  base: 'Base',
  pipes: 'Pipes',
  'circuit plan': 'Circuit plan of the heating',
  defect: 'Defect',
  test: 'Test',
  lift: 'Lift',
  protection: 'Protection',
  other: 'Other',
} as const
export type PhotoTag = keyof typeof photoTags

/** The formats that are kept: stored value → words on screen. */
export const photoFormats = {
  'image/jpeg': 'JPEG',
  'image/png': 'PNG',
  'image/webp': 'WebP',
} as const
export type PhotoFormat = keyof typeof photoFormats

/** [px] of a side, and [bytes] and [px] of a whole photo. A larger one is refused before it is unpacked. */
export const photoLimits = { sidePx: 30_000, pixels: 100_000_000, bytes: 60_000_000 } as const

const pixel = (label: string) => number(label, 'px', { hard: [0, photoLimits.sidePx] })

/** Two points of a photo, in pixels of the photo as its camera meant it upright, before any turn by hand. */
const twoPoints = {
  fromX: pixel('From x'),
  fromY: pixel('From y'),
  toX: pixel('To x'),
  toY: pixel('To y'),
}

/**
 * A photo, kept once by the hash of its bytes beside the record. What it shows may be said again (caption, tag, turn,
 * scale) by a correction; the photo itself is never another one.
 */
export const photoAdded = entryKind({
  kind: 'photo-added',
  title: 'Photo added',
  about: 'bay',
  mayBeAbout: ['project', 'floor', 'zone', 'bay', 'instrument'],
  fields: {
    tag: choice('What it is kept for', photoTags),
    caption: optional(text('Caption', { max: 400 })),
    of: optional(reference('Shows', 'entry', 'The fact or the defect that it shows')),
    takenAt: optional(instant('Taken at', 'As the camera says')),
    quarterTurns: number('Turned to the right', 'quarter turns', { hard: [0, 3], whole: true }),
    scale: optional(
      listOf(
        'Known lengths',
        {
          ...twoPoints,
          lengthMm: number('Length between the points', 'mm', { hard: [0.1, 100_000], soft: [1, 5000] }),
        },
        { most: 4, help: 'A rule or a coin laid beside it; more than one is averaged' },
      ),
    ),
    fileName: optional(text('File')),
    format: choice('Format', photoFormats),
    widthPx: number('Width', 'px', { hard: [1, photoLimits.sidePx], whole: true }),
    heightPx: number('Height', 'px', { hard: [1, photoLimits.sidePx], whole: true }),
    bytes: number('Size', 'bytes', { hard: [1, photoLimits.bytes], whole: true }),
    sha256: text('SHA-256 of the photo as kept', { max: 64 }),
    originalSha256: text('SHA-256 of the file as it came', { max: 64 }),
    gpsKept: yesNo('Position kept', 'Whether the camera’s position and other notes were left in the file'),
  },
  problems: (body) => [
    ...notAHash('sha256', body.sha256),
    ...notAHash('originalSha256', body.originalSha256),
    ...(body.scale ?? []).flatMap((line, i) => samePoint(`scale.${i}.toX`, line)),
  ],
})

/** A width read off a photo by its scale: of a crack, a gap, a strip. */
export const photoMarked = entryKind({
  kind: 'photo-marked',
  title: 'Width read off a photo',
  about: 'bay',
  mayBeAbout: ['project', 'floor', 'zone', 'bay', 'instrument'],
  fields: {
    photo: reference('Photo', 'entry'),
    what: text('What was measured', { max: 200 }),
    lengthMm: number('Length', 'mm', { hard: [0.01, 100_000], soft: [0.1, 5000] }),
    ...twoPoints,
  },
  problems: (body) => samePoint('toX', body),
})

function notAHash(field: string, value: string): BodyProblem[] {
  return /^[0-9a-f]{64}$/.test(value)
    ? []
    : [{ field, message: 'must be a SHA-256 hash: 64 digits and letters a to f' }]
}

interface Line {
  fromX: number
  fromY: number
  toX: number
  toY: number
}

function samePoint(field: string, line: Line | undefined): BodyProblem[] {
  if (line === undefined || line.fromX !== line.toX || line.fromY !== line.toY) return []
  return [{ field, message: 'must be another point than the first' }]
}
