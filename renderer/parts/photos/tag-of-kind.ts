import type { KindName } from '#model/record/kinds.ts'
import type { PhotoTag } from '#model/record/photos.ts'

const tags: Partial<Record<KindName, PhotoTag>> = {
  'base-surveyed': 'base',
  'edge-strip-fitted': 'edge strip',
  'pipes-pressure-tested': 'pipes',
  'lift-laid': 'lift',
  'batch-mixed': 'lift',
  'sheet-on': 'sheets',
  'sheet-off': 'sheets',
  'protection-on': 'protection',
  'protection-off': 'protection',
  'defect-found': 'defect',
  'moisture-read': 'test',
  'soundness-tested': 'test',
  'surface-tested': 'test',
  'regularity-checked': 'test',
  'level-checked': 'test',
}

/** What a photo of such a fact is kept for, until somebody says otherwise. */
export function tagOfKind(kind: KindName): PhotoTag {
  return tags[kind] ?? 'other'
}
