import type { SubjectType } from '#model/record/entry-kind.ts'
import { type KindName, kindNames, kinds } from '#model/record/kinds.ts'

/** Kinds that come about in another way than by a form: a file, a drawing, a signature, a correction. */
const elsewhere: ReadonlySet<KindName> = new Set<KindName>([
  'logger-imported',
  'entry-withdrawn',
  'device-key-published',
  'alert-answered',
  'bay-decided',
  'cause-named',
  'evidence-frozen',
  'repair-rates-set',
  'cause-weights-set',
  'pin-set',
  'photo-added',
  'photo-marked',
])

export interface Recordable {
  kind: KindName
  title: string
}

/** The kinds that a person can write down about a thing of this type. */
export function recordable(about: SubjectType): Recordable[] {
  return kindNames
    .filter((kind) => kinds[kind].about === about && kinds[kind].begins !== true && !elsewhere.has(kind))
    .map((kind) => ({ kind, title: kinds[kind].title }))
}
