import type { z } from 'zod'
import { type BodyOfFields, bodySchema, type FieldSet } from './fields.ts'

/** What an entry is about. Its `subject` is the id of that thing. */
export type SubjectType = 'project' | 'floor' | 'zone' | 'bay' | 'instrument' | 'person' | 'defect'

/** A fault of a body that one field alone cannot show, such as an end before its start. */
export interface BodyProblem {
  field: string
  message: string
}

export interface EntryKind<K extends string = string, F extends FieldSet = FieldSet> {
  kind: K
  version: number
  /** What the list and the history call it. */
  title: string
  about: SubjectType
  /** What else it can be about; left out when it is about one sort of thing only. */
  mayBeAbout?: readonly SubjectType[]
  /** True when this entry brings its subject into being: the subject's id is this entry's id. */
  begins?: boolean
  fields: F
  body: z.ZodType<BodyOfFields<F>>
  problems: (body: BodyOfFields<F>) => BodyProblem[]
}

interface KindParts<K extends string, F extends FieldSet> {
  kind: K
  version?: number
  title: string
  about: SubjectType
  mayBeAbout?: readonly SubjectType[]
  begins?: boolean
  fields: F
  problems?: (body: BodyOfFields<F>) => BodyProblem[]
}

/** Declares one kind of entry that can be recorded. */
export function entryKind<const K extends string, F extends FieldSet>(
  parts: KindParts<K, F>,
): EntryKind<K, F> {
  let body: z.ZodType<BodyOfFields<F>> | undefined
  return {
    version: 1,
    ...parts,
    problems: parts.problems ?? (() => []),
    get body() {
      body ??= bodySchema(parts.fields) as unknown as z.ZodType<BodyOfFields<F>>
      return body
    },
  }
}

/** "end must not be before start" as a problem, or nothing when either is unknown. */
export function notBefore(
  field: string,
  later: string | undefined,
  earlier: string | undefined,
  words: string,
): BodyProblem[] {
  if (later === undefined || earlier === undefined) return []
  return Date.parse(later) >= Date.parse(earlier) ? [] : [{ field, message: words }]
}
