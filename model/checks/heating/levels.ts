import { type HeatingPlan, holdDaysByThickness, type PlanTemperature } from './plans.ts'

/** One temperature of a plan and how long it is to be held. */
export interface HeatingLevel {
  name: string
  flowC: number
  days: number
  /** True when anything below `flowC`, or heating off, meets it. */
  cooling: boolean
}

/**
 * Returns a plan as a row of temperatures, each with its days; a rise or fall becomes a day at each of its temperatures.
 *
 * @param designMaxC highest flow temperature that the heating is designed for [°C].
 * @param thicknessMm thickness of the screed; for plans that hold longer in thicker screed [mm].
 */
export function levelsOf(plan: HeatingPlan, designMaxC: number, thicknessMm: number): HeatingLevel[] {
  const highestC = Math.min(designMaxC, plan.mostC)
  const celsius = (temperature: PlanTemperature) =>
    temperature === 'design' ? highestC : Math.min(temperature, highestC)
  const levels: HeatingLevel[] = []
  const add = (flowC: number, days: number) => {
    const last = levels.at(-1)
    if (last !== undefined && last.flowC === flowC && !last.cooling) last.days = Math.max(last.days, days)
    else levels.push({ name: `${flowC} °C`, flowC, days, cooling: false })
  }
  for (const step of plan.steps) {
    if (step.kind === 'hold')
      add(celsius(step.flowC), step.days === 'by thickness' ? holdDaysByThickness(thicknessMm) : step.days)
    else if (step.kind === 'cool')
      levels.push({ name: `below ${step.belowC} °C`, flowC: step.belowC, days: 0, cooling: true })
    else {
      const direction = step.kind === 'rise' ? 1 : -1
      const goal = celsius(step.toC)
      let flowC = step.fromC ?? levels.at(-1)?.flowC ?? goal
      while (direction * (goal - flowC) > 1e-9) {
        flowC = direction > 0 ? Math.min(goal, flowC + step.byK) : Math.max(goal, flowC - step.byK)
        add(flowC, 1)
      }
    }
  }
  return levels
}
