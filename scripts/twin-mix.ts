import { fileURLToPath } from 'node:url'
import { lessonOf } from '#model/drying/forecast/lesson.ts'
import { type BayLesson, poolLessons } from '#model/drying/forecast/pool.ts'
import { materials } from '#model/drying/index.ts'
import { growBay, questionOf, scoreGrown, summarise, type TwinScore } from './twin.ts'

/**
 * Scores what other bays of a mix teach, on made-up bays whose truth comes from a model with other physics; see
 * `twin.ts`. Run with `node scripts/twin-mix.ts [mixes] [first]`. Each mix has twelve bays read five times and two more
 * whose dates are foretold with none, three and twelve of the others; once as one mix whose bays differ by 15 %, and
 * once as bays of any make that the record takes for one mix.
 */

const BETWEEN_BAYS = 0.15
const MOST_TEACHERS = 12
const ASKED = 2
export const TEACHER_COUNTS = [0, 3, 12]
export const MIX_READING_COUNTS = [0, 1]
const materialSd = materials.cementSandScreed.constants.lnKappaSd.value

export interface MixScore {
  teachers: number
  score: TwinScore
}

/** Scores bays of one made-up mix by how many others taught; not `alike`, every bay is of a make of its own. */
export function scoreMix(
  seed: number,
  alike: boolean,
  teacherCounts: readonly number[] = TEACHER_COUNTS,
): MixScore[] {
  const grow = (i: number) =>
    growBay(1000 * seed + i, alike ? { seed: 500_000 + seed, spread: BETWEEN_BAYS } : null)
  const lessons = Array.from({ length: Math.max(...teacherCounts) }, (_, i): BayLesson => {
    const lesson = lessonOf(questionOf(grow(i), 5))
    if (lesson === null) throw new Error(`Bay ${i} of mix ${seed} taught nothing.`)
    return { bay: `bay ${i}`, name: `${i}`, ...lesson }
  })
  return Array.from({ length: ASKED }, (_, i) => grow(MOST_TEACHERS + i)).flatMap((bay) =>
    teacherCounts.map((teachers) => ({
      teachers,
      score: scoreGrown(
        bay,
        MIX_READING_COUNTS,
        poolLessons(lessons.slice(0, teachers), materialSd) ?? undefined,
      ),
    })),
  )
}

export function printMixes(scores: readonly MixScore[]): string {
  const lines = TEACHER_COUNTS.flatMap((teachers) => {
    const { rows } = summarise(
      scores.filter((one) => one.teachers === teachers).map(({ score }) => score),
      MIX_READING_COUNTS,
    )
    return rows.map(({ readings, coverage, early, late, width, mae, crps }) => {
      const percent = (share: number) => `${(100 * share).toFixed(0)} %`
      return `| ${teachers} | ${readings} | ${percent(coverage)} | ${percent(early)} / ${percent(late)} | ${width.toFixed(0)} d | ${mae.toFixed(1)} d | ${crps.toFixed(1)} d |`
    })
  })
  return [
    '| teachers | readings | 80 % range holds | earlier / later | mean width | mean miss of P50 | CRPS |',
    '|---|---|---|---|---|---|---|',
    ...lines,
  ].join('\n')
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const mixes = Number(process.argv[2] ?? 60)
  const first = Number(process.argv[3] ?? 1)
  for (const alike of [true, false]) {
    const scores = Array.from({ length: mixes }, (_, i) => scoreMix(first + i, alike)).flat()
    console.log(
      `${mixes} mixes from ${first}, ${alike ? 'each of one make' : 'taken for one mix, of any make'}\n`,
    )
    console.log(`${printMixes(scores)}\n`)
  }
}
