import type { StoryEntryOf } from '../../record/entry.ts'
import { entriesOf } from '../../record/story.ts'
import { minutesBetween } from '../../watch/facts/batches.ts'
import type { EvidenceId } from '../evidence.ts'
import { type BatchesUnder, batchesUnder, ratiosOf, readyMixed } from './batches.ts'
import { type Answer, no, type Scene, twoDigits, unseen, yes } from './scene.ts'

/** Where the evidence on a mix begins. Our judgement; the range of 1 : 3 to 1 : 4.5 is that of BS 8204-1, quoted second-hand. */
const mixEvidence = {
  leanAbove: 5,
  ratioFrom: 3,
  ratioTo: 4.5,
  shortMixingMin: 2,
  wholeMixingMin: 3,
  wetAbove: 0.6,
  dryBelow: 0.35,
  waterFrom: 0.38,
  waterTo: 0.5,
  /** Fines below 0.063 mm in the sand [%]. */
  finesMost: 3,
} as const

type Ids = 'E01' | 'E02' | 'E03' | 'E04' | 'E05' | 'E06' | 'E07' | 'E08' | 'E09' | 'E10' | 'E11'

/** Answers what batches and deliveries tell: proportions, mixing, water, sand, working time. */
export function mixAnswers(scene: Scene): Record<Ids & EvidenceId, Answer> {
  const under = batchesUnder(scene)
  if (under.batches.length === 0) {
    const loads = readyMixed(scene)
    const none =
      loads.length > 0
        ? unseen('Ready-mixed: the proportions stand on the ticket and not in the record.', loads)
        : unseen('No batch was written down.')
    return {
      E01: none,
      E02: none,
      E03: none,
      E04: none,
      E05: none,
      E06: none,
      E07: none,
      ...sand(scene),
      ...loadAge(scene, none),
    }
  }
  return { ...ratio(under), ...mixing(under), ...water(under), ...sand(scene), ...age(under) }
}

interface Read {
  batch: StoryEntryOf<'batch-mixed'>
  ratios: ReturnType<typeof ratiosOf>
}

const readAll = ({ batches }: BatchesUnder): Read[] =>
  batches.map(({ entry }) => ({ batch: entry, ratios: ratiosOf(entry.body) }))

const ids = (reads: readonly Read[]) => reads.map(({ batch }) => batch.id)
const numbers = (reads: readonly Read[]) => reads.map(({ batch }) => batch.body.number).join(', ')
const span = (values: readonly number[]) => {
  const [low, high] = [twoDigits(Math.min(...values)), twoDigits(Math.max(...values))]
  return low === high ? `${low}` : `${low} to ${high}`
}

/** "All" needs every batch of the bay: with some not written down, what the others show is not all. */
function allOf({ which, entries, incomplete }: BatchesUnder, because: string): Answer {
  return incomplete === null
    ? yes(`${because} (${which}).`, entries)
    : unseen(`${because}, but ${incomplete}.`, entries)
}

function ratio(under: BatchesUnder): Record<'E01' | 'E02', Answer> {
  const reads = readAll(under)
  const known = reads.filter(({ ratios }) => ratios.sandPerCement !== null)
  const value = ({ ratios }: Read) => ratios.sandPerCement!
  const lean = known.filter((read) => value(read) > mixEvidence.leanAbove)
  const untested = `${reads.length - known.length} of ${reads.length} batches have no sand moisture`
  const shown = known.length === 0 ? '' : `1 : ${span(known.map(value))} by dry mass`
  const E01 = (() => {
    if (lean.length > 0)
      return yes(
        `Batch ${numbers(lean)} was 1 : ${span(lean.map(value))} by dry mass (${under.which}).`,
        ids(lean),
      )
    const surely = reads.every(({ ratios }) => ratios.sandPerCementAtMost <= mixEvidence.leanAbove)
    if (known.length === reads.length || surely) {
      if (under.incomplete !== null)
        return unseen(`None of the batches is leaner, but ${under.incomplete}.`, under.entries)
      const most =
        shown === ''
          ? `1 : ${span(reads.map(({ ratios }) => ratios.sandPerCementAtMost))} at most, by damp sand`
          : shown
      return no(`${most} (${under.which}).`, under.entries)
    }
    return unseen(`${untested}, so their proportions are not known (${under.which}).`, under.entries)
  })()
  const outside = known.filter(
    (read) => value(read) < mixEvidence.ratioFrom || value(read) > mixEvidence.ratioTo,
  )
  const E02 = (() => {
    if (outside.length > 0)
      return no(`Batch ${numbers(outside)} was 1 : ${span(outside.map(value))} by dry mass.`, ids(outside))
    if (known.length < reads.length) return unseen(`${untested} (${under.which}).`, under.entries)
    return allOf(under, shown)
  })()
  return { E01, E02 }
}

function mixing(under: BatchesUnder): Record<'E03' | 'E04', Answer> {
  const reads = readAll(under)
  const byHand = reads.filter(({ batch: { body } }) => body.mixer === 'free fall' || body.mixer === 'hand')
  const minutes = ({ batch }: Read) => batch.body.mixingMinutes
  const short = reads.filter(
    (read) => (minutes(read) ?? Number.POSITIVE_INFINITY) < mixEvidence.shortMixingMin,
  )
  const untimed = reads.filter((read) => minutes(read) === undefined)
  const poor = [...new Set([...byHand, ...short])]
  const timed = reads.flatMap((read) => minutes(read) ?? [])
  const shown = timed.length === 0 ? '' : `, ${span(timed)} min`
  const E03 =
    poor.length > 0
      ? yes(
          `Batch ${numbers(poor)}: ${byHand.length > 0 ? 'free-fall drum or by hand' : 'forced action'}${shown} (${under.which}).`,
          ids(poor),
        )
      : untimed.length > 0
        ? unseen(
            `Forced action, but ${untimed.length} of ${reads.length} batches have no mixing time.`,
            under.entries,
          )
        : under.incomplete !== null
          ? unseen(`Forced action${shown}, but ${under.incomplete}.`, under.entries)
          : no(`Forced action${shown} (${under.which}).`, under.entries)
  const E04 = (() => {
    const less = reads.filter(
      (read) => (minutes(read) ?? Number.POSITIVE_INFINITY) < mixEvidence.wholeMixingMin,
    )
    if (byHand.length + less.length > 0)
      return no(`Batch ${numbers([...new Set([...byHand, ...less])])} was not.`, ids([...byHand, ...less]))
    if (untimed.length > 0)
      return unseen(`${untimed.length} of ${reads.length} batches have no mixing time.`, under.entries)
    return allOf(under, `Forced action${shown}`)
  })()
  return { E03, E04 }
}

function water(under: BatchesUnder): Record<'E05' | 'E06' | 'E07', Answer> {
  const reads = readAll(under)
  const squeeze = ({ batch }: Read) => batch.body.squeeze
  const wc = ({ ratios }: Read) => ratios.waterCement
  const told = reads.filter((read) => wc(read) !== null || squeeze(read) !== undefined)
  const untold = reads.length - told.length
  const shownOf = (list: readonly Read[]) => {
    const known = list.flatMap((read) => wc(read) ?? [])
    const felt = [...new Set(list.flatMap((read) => squeeze(read) ?? []))].join(', ')
    return [known.length > 0 ? `w/c ${span(known)}` : '', felt === '' ? '' : `squeeze test: ${felt}`]
      .filter((part) => part !== '')
      .join(', ')
  }
  const any = (breaks: (read: Read) => boolean): Answer => {
    const found = reads.filter(breaks)
    if (found.length > 0)
      return yes(`Batch ${numbers(found)}: ${shownOf(found)} (${under.which}).`, ids(found))
    if (untold > 0)
      return unseen(
        `${untold} of ${reads.length} batches have neither sand moisture nor a squeeze test.`,
        under.entries,
      )
    if (under.incomplete !== null) return unseen(`${shownOf(reads)}, but ${under.incomplete}.`, under.entries)
    return no(`${shownOf(reads)} (${under.which}).`, under.entries)
  }
  const E07 = (() => {
    const off = reads.filter(
      (read) =>
        (squeeze(read) ?? 'holds') !== 'holds' ||
        (wc(read) !== null && (wc(read)! < mixEvidence.waterFrom || wc(read)! > mixEvidence.waterTo)),
    )
    if (off.length > 0) return no(`Batch ${numbers(off)}: ${shownOf(off)}.`, ids(off))
    if (reads.some((read) => wc(read) === null || squeeze(read) === undefined))
      return unseen('Not every batch has both a sand moisture and a squeeze test.', under.entries)
    return allOf(under, shownOf(reads))
  })()
  return {
    E05: any((read) => (wc(read) ?? 0) > mixEvidence.wetAbove || squeeze(read) === 'wet'),
    E06: any(
      (read) => (wc(read) ?? Number.POSITIVE_INFINITY) < mixEvidence.dryBelow || squeeze(read) === 'crumbles',
    ),
    E07,
  }
}

function sand({ story }: Scene): Record<'E08' | 'E09', Answer> {
  const sands = entriesOf(story, 'material-delivered').filter(({ body }) => body.material === 'sand')
  const tested = sands.filter(({ body }) => body.siltPercent !== undefined)
  const dirty = tested.filter(({ body }) => body.siltPercent! > mixEvidence.finesMost)
  const percent = (list: typeof tested) => span(list.map(({ body }) => body.siltPercent!))
  if (dirty.length > 0) {
    const because = `Sand with ${percent(dirty)} % fines below 0.063 mm; ${mixEvidence.finesMost} % is the usual most.`
    const entries = dirty.map(({ id }) => id)
    return { E08: yes(because, entries), E09: no(because, entries) }
  }
  const because =
    tested.length > 0
      ? `Fines ${percent(tested)} %, but no grading is in the record.`
      : sands.length > 0
        ? 'Sand was delivered without a result for fines or grading.'
        : 'No delivery of sand was written down.'
  const entries = sands.map(({ id }) => id)
  return { E08: unseen(because, entries), E09: unseen(because, entries) }
}

function age(under: BatchesUnder): Record<'E10' | 'E11', Answer> {
  const laid = under.batches.flatMap((batch) =>
    batch.laidAt === null ? [] : [{ batch, minutes: minutesBetween(batch.mixedAt, batch.laidAt) }],
  )
  const old = laid.filter(({ batch, minutes }) => minutes > batch.life.minutes)
  const untold = under.batches.length - laid.length
  if (old.length > 0) {
    const worst = old.toSorted((a, b) => b.minutes - a.minutes)[0]!
    const because = `Batch ${old.map(({ batch }) => batch.number).join(', ')}: laid up to ${Math.round(worst.minutes)} min after mixing; working life ${worst.batch.life.because} (${under.which}).`
    const entries = old.map(({ batch }) => batch.entry.id)
    return { E10: yes(because, entries), E11: no(because, entries) }
  }
  if (untold > 0) {
    const because = `${untold} of ${under.batches.length} batches do not say when they were laid.`
    return { E10: unseen(because, under.entries), E11: unseen(because, under.entries) }
  }
  const longest = Math.round(Math.max(...laid.map(({ minutes }) => minutes)))
  const E11 = allOf(under, `Laid ${longest} min after mixing at the latest`)
  return { E10: E11.state === 'true' ? no(E11.because, E11.entries) : E11, E11 }
}

function loadAge({ facts, t0 }: Scene, none: Answer): Record<'E10' | 'E11', Answer> {
  const timed = facts.loads.filter(({ life }) => life !== null)
  if (timed.length === 0 || t0 === null) return { E10: none, E11: none }
  const entries = timed.map(({ entry }) => entry.id)
  const because = 'Ready-mixed: when each load was laid is not in the record.'
  return { E10: unseen(because, entries), E11: unseen(because, entries) }
}
