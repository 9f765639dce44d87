import type { BayState } from '#model/contract/index.ts'
import classes from './plan.module.css'

type State = BayState['word']

/** One hatch a state, so that bays are told apart without colour and in a black and white print. */
const hatches: Record<State, { size: number; lines: string }> = {
  planned: { size: 12, lines: '' },
  curing: { size: 12, lines: 'M0 4h7M6 10h6' },
  drying: { size: 14, lines: 'M3 14c-3-4 3-7 0-14M10 14c-3-4 3-7 0-14' },
  ready: { size: 12, lines: '' },
  'not proven': { size: 12, lines: 'M0 12 12 0M0 0l12 12' },
  covered: { size: 16, lines: 'M0 4h16M0 12h16M4 4v8M12 12v8M12 0v4' },
  stopped: { size: 7, lines: 'M-2 2 2-2M0 7 7 0M5 9l4-4' },
}

export const hatchOf = (state: State) => `url(#hatch-${state.replace(' ', '-')})`
export const heatHatch = 'url(#hatch-heated)'
export const batchHatch = 'url(#hatch-batch)'

export function Hatches() {
  return (
    <defs>
      {Object.entries(hatches).map(([state, { size, lines }]) => (
        <pattern
          key={state}
          id={`hatch-${state.replace(' ', '-')}`}
          width={size}
          height={size}
          patternUnits="userSpaceOnUse"
        >
          <rect width={size} height={size} className={classes[fillOf(state as State)]} />
          {lines !== '' && <path d={lines} className={classes[`line-${fillOf(state as State)}`]} />}
        </pattern>
      ))}
      <pattern id="hatch-heated" width={8} height={8} patternUnits="userSpaceOnUse">
        <path d="M0 8 8 0" className={classes.heatLine} />
      </pattern>
      <pattern id="hatch-batch" width={6} height={6} patternUnits="userSpaceOnUse">
        <circle cx={1.5} cy={1.5} r={0.8} className={classes.batchDot} />
      </pattern>
    </defs>
  )
}

export function fillOf(state: State): string {
  return `fill-${state.replace(' ', '-')}`
}
