import { projectOutline, projectSummaries } from '#db/index.ts'
import type { BayId } from '#model/record/ids.ts'
import type { Services } from './services.ts'

/**
 * Works out the bays of the project written in last while nobody asks yet, so that the first page finds them ready.
 * One bay at a time: a call that comes in waits for one bay at most.
 */
export function warmWatch(services: Services): { stop: () => void } {
  let next: NodeJS.Immediate | null = null
  const go = (left: readonly BayId[]) => {
    const [bay, ...rest] = left
    next = bay === undefined ? null : setImmediate(() => guarded(() => warm(bay, rest)))
  }
  const warm = (bay: BayId, rest: readonly BayId[]) => {
    const watched = services.watch.now(bay)
    watched.state()
    watched.today()
    watched.ahead()
    go(rest)
  }
  const guarded = (work: () => void) => {
    try {
      work()
    } catch (cause) {
      // Whoever opens that bay is told what is wrong with it; here nobody is asking.
      services.log.keep('working out bays ahead', cause)
    }
  }
  next = setImmediate(() => guarded(() => go(baysOfNewestProject(services))))
  return {
    stop: () => {
      if (next !== null) clearImmediate(next)
      next = null
    },
  }
}

function baysOfNewestProject({ record }: Services): BayId[] {
  if (record.state().state !== 'open') return []
  const { read } = record.current()
  const [newest] = projectSummaries(read)
  return newest === undefined ? [] : projectOutline(read, newest.id).bays.map(({ id }) => id)
}
