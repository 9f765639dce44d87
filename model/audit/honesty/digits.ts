import { type KindName, kinds } from '#model/record/kinds.ts'
import type { BayStory } from '#model/record/story.ts'
import { shows } from '#model/watch/rule.ts'
import { gather } from './gather.ts'
import type { Comparison, Question } from './question.ts'

/** Fewer values say nothing about the digits that somebody likes. */
const leastValues = 40
/** A fifth of honest last digits are 0 or 5; from this share on it is asked. For 40 values chance gives it once in 10 000. */
const askedFrom = 0.45
/** Nearly all: then it is the scale of the instrument and not the person. */
const scaleFrom = 0.95
/** The values must range over this many last places, or their digits are not spread evenly in the first place. */
const leastSpread = 20

interface Written {
  value: number
  entry: string
  bay: string
}

/**
 * Asks about people whose values end in 0 or 5 far more often than a reading does.
 * @source final digits of measured data, D. A. Preece 1981, The Statistician 30
 * @provenance from memory; the shares are our judgement
 */
export function comparedDigits(): Comparison {
  const written = new Map<string, Written[]>()
  return {
    add: (story) => {
      for (const { key, ...one } of writtenValues(story)) gather(written, key, one)
    },
    questions: () => [...written].flatMap(([key, values]) => questionOf(key, values)),
  }
}

const fields: Partial<Record<KindName, readonly string[]>> = {
  'air-read': ['airC', 'rhPercent', 'surfaceC'],
  'screed-temperature-read': ['screedC'],
  'batch-mixed': ['sandMoisturePercent', 'addedWaterKg'],
  'soundness-tested': ['points.indentationMm'],
  'thickness-measured': ['points.mm'],
  'regularity-checked': ['gapsMm.mm'],
}

function writtenValues(story: BayStory): (Written & { key: string })[] {
  return story.entries.flatMap(({ id, kind, source, withdrawn, person, body }) =>
    source !== 'typed' || withdrawn
      ? []
      : (fields[kind] ?? []).flatMap((field) =>
          valuesAt(body as Record<string, unknown>, field).map((value) => ({
            key: `${person} ${kind} ${field}`,
            value,
            entry: id as string,
            bay: story.bay.id as string,
          })),
        ),
  )
}

function valuesAt(body: Record<string, unknown>, field: string): number[] {
  const [first = '', inner] = field.split('.')
  const value = body[first]
  if (inner === undefined) return typeof value === 'number' ? [value] : []
  return Array.isArray(value) ? value.flatMap((item: Record<string, unknown>) => valuesAt(item, inner)) : []
}

function questionOf(key: string, written: readonly Written[]): Question[] {
  if (written.length < leastValues) return []
  const decimals = Math.max(...written.map(({ value }) => decimalsOf(value)))
  const places = written
    .map(({ value }) => Math.round(Math.abs(value) * 10 ** decimals))
    .sort((a, b) => a - b)
  const spread = places[Math.floor(0.9 * places.length)]! - places[Math.floor(0.1 * places.length)]!
  const round = places.filter((place) => place % 5 === 0).length
  const share = round / places.length
  if (spread < leastSpread || share < askedFrom || share > scaleFrom) return []
  const [person = '', kind = '', field = ''] = key.split(' ')
  const { title } = kinds[kind as KindName]
  return [
    {
      id: `digit preference:${key}`,
      rule: 'digit preference',
      asks: `${Math.round(100 * share)} % of these values end in 0 or 5, where a fifth would. Were they read, or estimated? (${title.toLowerCase()})`,
      innocent: 'The scale of the instrument is coarse, and whoever read it rounded to its marks.',
      bays: [...new Set(written.map(({ bay }) => bay))],
      evidence: [
        shows(written[0]!.entry, `Values (${field.replace('points.', '')})`, written.length),
        shows(null, 'Ending in 0 or 5', round),
        shows(null, 'Expected', written.length / 5),
        shows(person, 'Written by', person),
      ],
      source: 'Final digits of measured data, Preece 1981',
      provenance: 'from memory',
    },
  ]
}

function decimalsOf(value: number): number {
  const [, fraction = ''] = String(value).split('.')
  return Math.min(3, fraction.length)
}
