import { InputError, requireNumber } from '../../errors.ts'
import { type SymptomCode, symptoms as symptomWords } from '../../record/words.ts'
import type { RepairExtent, RepairQuestion } from './shapes.ts'

/** Symptoms of a weak body or surface, of cracks, of hollowness, of damp: each asks for other repairs. */
export const weakSymptoms: readonly SymptomCode[] = ['S01', 'S02', 'S03', 'S12', 'S13', 'S17']
/** Not crazing: S04 is a matter of the surface. */
export const lineCracks: readonly SymptomCode[] = ['S05', 'S06', 'S07', 'S08', 'S09', 'S16']
const hollowSymptoms: readonly SymptomCode[] = ['S11']
const curlSymptoms: readonly SymptomCode[] = ['S10']
const dampSymptoms: readonly SymptomCode[] = ['S14']
const sinkingSymptoms: readonly SymptomCode[] = ['S15']

/** Depths at which the way of mending weak screed changes. Our judgement [mm]. */
export const depths = { skin: 3, consolidant: 10, repeatedFlooding: 15, fullWithin: 5 } as const
/** Shares of the bay. Our judgement [%]. */
export const shares = { patchMost: 30 } as const

/** A programme is not planned further ahead [days]. */
export const mostDaysLeft = 3650

/** The question with its numbers checked and the kinds of fault told apart. */
export interface Asked {
  question: RepairQuestion
  weak: boolean
  crack: boolean
  crazing: boolean
  hollow: boolean
  curl: boolean
  damp: boolean
  sinking: boolean
  /** Weak through to the bottom. */
  fullDepth: boolean
  percentOfBay: number | null
}

const extentRanges: Record<
  Exclude<keyof RepairExtent, 'rocks' | 'boundaryProven'>,
  readonly [number, number, string]
> = {
  bayAreaM2: [0.01, 100_000, 'm²'],
  areaM2: [0, 100_000, 'm²'],
  lengthM: [0, 10_000, 'm'],
  widthMm: [0, 30, 'mm'],
  weakToMm: [0, 250, 'mm'],
  stepMm: [0, 50, 'mm'],
  hollowM2: [0, 100_000, 'm²'],
  pullOffMPa: [0, 6, 'N/mm²'],
  patches: [0, 1000, ''],
}

/** Throws InputError naming the field; returns the question told apart. */
export function askedOf(question: RepairQuestion): Asked {
  const { symptoms, extent, thicknessMm } = question
  if (symptoms.length === 0)
    throw new InputError('symptoms', 'symptoms is empty; name at least one, S01 to S17.')
  for (const code of symptoms) {
    if (!Object.hasOwn(symptomWords, code))
      throw new InputError('symptoms', `${code} is not a symptom; codes go from S01 to S17.`)
  }
  requireNumber('thicknessMm', thicknessMm, 10, 300, 'mm')
  for (const [name, [min, max, unit]] of Object.entries(extentRanges)) {
    const value = extent[name as keyof typeof extentRanges]
    if (value !== undefined && value !== null) requireNumber(`extent.${name}`, value, min, max, unit)
  }
  const daysLeft = question.programme?.daysLeft ?? null
  if (daysLeft !== null) requireNumber('programme.daysLeft', daysLeft, 0, mostDaysLeft, 'days')
  if (extent.bayAreaM2 === undefined) requireNumber('extent.bayAreaM2', extent.bayAreaM2, 0.01, 100_000, 'm²')
  if (question.recordStrengthPercent !== null)
    requireNumber('recordStrengthPercent', question.recordStrengthPercent, 0, 100, '%')
  const has = (codes: readonly SymptomCode[]) => symptoms.some((code) => codes.includes(code))
  const areaM2 = extent.areaM2 ?? null
  return {
    question,
    weak: has(weakSymptoms),
    crack: has(lineCracks),
    crazing: has(['S04']),
    hollow: has(hollowSymptoms),
    curl: has(curlSymptoms),
    damp: has(dampSymptoms),
    sinking: has(sinkingSymptoms),
    fullDepth: (extent.weakToMm ?? 0) >= thicknessMm - depths.fullWithin,
    percentOfBay: areaM2 === null ? null : Math.min(100, (100 * areaM2) / extent.bayAreaM2),
  }
}
