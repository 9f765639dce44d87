import { bayStory, type ReadHandle } from '#db/index.ts'
import { planAndBatches, type TestedBay, testedBays } from '#db/queries/tested-bays.ts'
import { hashAt, lastSeq, touchedSince } from '#db/queries/touched-since.ts'
import { type BayLesson, lessonOfStory, mixOfStory } from '#model/drying/index.ts'
import { isMixKnown, isSameMix, type Mix, mixOf } from '#model/mix/index.ts'
import { type BayStory, storyAsOf } from '#model/record/story.ts'

/** Bays that teach one forecast, at most: a dozen say nearly all there is to say, and each costs a calculation. */
export const mostTeachers = 12
/** Lessons kept by a thread over all records; each is a few numbers. */
const mostKept = 5000

interface Kept {
  bay: string
  project: string
  mix: Mix
  /** Worked out when first asked for; null when the bay teaches nothing. */
  lesson: BayLesson | null | undefined
}

/** What the bays of a record teach, kept by this thread; a lesson stands on the bay's last test, not on the clock. */
interface Book {
  /** The last entry that it knows, and its hash: a record that was put back from a copy is another one. */
  seen: number
  hash: string | null
  kept: Map<string, Kept>
}
const books = new Map<string, Book>()

/**
 * Returns what other bays of the same mix taught by `asOf`: those of the bay's own project first, then those of other
 * projects of the record, each the last tested first, twelve at most. Only what had happened by `asOf` counts; what
 * stands withdrawn does not. A bay is worked out once a thread until an entry touches it or it is tested again.
 * @throws InputError when a project's rules do not exist in this version
 */
export function lessonsFor(read: ReadHandle, story: BayStory, asOf: number): BayLesson[] {
  const mix = mixOfStory(storyAsOf(story, asOf))
  if (!isMixKnown(mix)) return []
  const book = bookOf(read)
  const own = story.project.id
  const others = testedBays(read, asOf).filter(({ id }) => id !== story.bay.id)
  const nearFirst = [
    ...others.filter(({ project }) => project === own),
    ...others.filter(({ project }) => project !== own),
  ]
  const lessons: BayLesson[] = []
  for (const other of nearFirst) {
    const kept = keptOf(read, book, other)
    if (!isSameMix(mix, kept.mix, other.project === own)) continue
    if (kept.lesson === undefined) {
      kept.lesson = lessonOfStory(bayStory(read, other.id), other.lastTestAt, other.name)
    }
    if (kept.lesson === null) continue
    lessons.push({ ...kept.lesson, name: nameOf(other, own) })
    if (lessons.length === mostTeachers) break
  }
  return lessons
}

function nameOf({ name, project, projectName }: TestedBay, own: string): string {
  return project === own ? name : `${name} (${projectName})`
}

function keptOf(read: ReadHandle, { kept }: Book, { id, project, lastTestAt }: TestedBay): Kept {
  const key = `${id} ${lastTestAt}`
  const known = kept.get(key)
  if (known !== undefined) return known
  const { plan, batches } = planAndBatches(read, id, lastTestAt)
  const fresh: Kept = { bay: id, project, mix: mixOf(plan, batches), lesson: undefined }
  kept.set(key, fresh)
  const oldest = kept.keys().next().value
  if (kept.size > mostKept && oldest !== undefined) kept.delete(oldest)
  return fresh
}

/** The book of a record without what entries have touched since it was last opened: the ledger is asked, not told. */
function bookOf(read: ReadHandle): Book {
  const known = books.get(read.file)
  const goesOn = known !== undefined && known.hash === hashAt(read, known.seen)
  const book: Book = goesOn ? known : { seen: lastSeq(read), hash: null, kept: new Map() }
  books.set(read.file, book)
  for (const { seq, project, subject, ofBay } of touchedSince(read, book.seen)) {
    for (const [key, kept] of book.kept) {
      if (ofBay ? kept.bay === subject : kept.project === project) book.kept.delete(key)
    }
    book.seen = seq
  }
  book.hash = hashAt(read, book.seen)
  return book
}
