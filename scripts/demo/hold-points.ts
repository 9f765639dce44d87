import type { BayId } from '#model/record/ids.ts'
import type { BodyOf } from '#model/record/kinds.ts'
import type { Book } from './book.ts'
import type { Cast } from './cast.ts'
import type { BayPlan } from './scenario.ts'
import { dayMs, hourMs } from './site-clock.ts'

/** A bay with the moments that its hold points hang on. */
export interface FollowedBay {
  bay: BayId
  plan: BayPlan
  surveyedAt: number
  /** Null while it is not laid. */
  finishAt: number | null
  /** The last reading of a moisture test by the agreed method; null when there was none. */
  testedAt: number | null
}

type Point = BodyOf<'hold-point-released'>['point']

/** The quality manager looks at each point in its time. Where a bay went wrong, a point is held or was never looked at. */
export function letGoHoldPoints(book: Book, cast: Cast, followed: FollowedBay): void {
  const { plan, surveyedAt, finishAt, testedAt } = followed
  const decide = (point: Point, at: number, saw: string, decision: 'released' | 'held' = 'released') =>
    book.note('hold-point-released', {
      subject: followed.bay,
      at,
      person: cast.qualityManager,
      body: { point, decision, saw },
    })

  decide('base survey', surveyedAt + hourMs, 'Walked it; membrane whole, laps taped, dry and clean')
  decide('thickness', surveyedAt + 1.2 * hourMs, 'Level grid read; room for the least thickness everywhere')
  decide('edge strip', surveyedAt + 5 * hourMs, 'Up every wall and column, above finished level')
  if (plan.zone.startsWith('ground')) {
    decide('pipe pressure', surveyedAt + 5.2 * hourMs, 'Test sheet and gauge seen; pressure stands')
  }
  if (finishAt === null) return

  if (plan.screed !== 'calcium sulfate' && plan.fate !== 'curing skipped') {
    decide('curing day 4', finishAt + 4 * dayMs + 2 * hourMs, 'Sheet whole, laps held, damp below')
    decide('curing day 7', finishAt + 7 * dayMs + 2 * hourMs, 'Seven days under the sheet; edges damp')
  }
  if (plan.fate === 'frozen on night 2') {
    const saw = 'Soft along the north wall; waits for cores and a decision on the part that froze'
    decide('soundness', finishAt + 16.5 * dayMs, saw, 'held')
  } else if (plan.fate !== 'curing skipped') {
    decide('soundness', finishAt + 16.5 * dayMs, 'Every point within the category')
  }
  decide('regularity', finishAt + 38.4 * dayMs, 'Lines read after four weeks of drying; within the class')
  if (testedAt === null) return
  if (plan.fate === 'tested badly') {
    const saw = 'Box stood 20 h and the instrument had failed its check: repeat with a checked one'
    decide('moisture test', testedAt + 20 * hourMs, saw, 'held')
  } else decide('moisture test', testedAt + 3 * hourMs, 'Two equal readings at each point; checks seen')
}
