import type { StoryEntry } from '#model/record/entry.ts'
import { words } from '../../app/words.ts'
import { Mark, type Tone } from '../../parts/mark.tsx'
import type { Shape } from '../../parts/mark-shapes.tsx'
import { type Mark as EntryMark, marksOf } from './filters.ts'

const looks: Record<EntryMark, { shape: Shape; tone: Tone }> = {
  withdrawn: { shape: 'squareCross', tone: 'plain' },
  corrected: { shape: 'layers', tone: 'watch' },
  late: { shape: 'ringDot', tone: 'act' },
  conflict: { shape: 'trianglePoint', tone: 'stop' },
}

/** Late, corrected, withdrawn, in conflict: kept and shown, never hidden. */
export function EntryMarks({ entry }: { entry: StoryEntry }) {
  return marksOf(entry).map((mark) => (
    <Mark key={mark} {...looks[mark]} word={words.entries.marks[mark]} size={17} />
  ))
}
