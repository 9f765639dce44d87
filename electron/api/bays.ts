import { readinessOf } from '#model/readiness/index.ts'
import { calls } from './base.ts'

export const life = calls.bays.life.handler(({ context, input }) => {
  const { story, alerts, state } = context.watch.asOf(input.bay, input.asOf)
  return { story, alerts: alerts(), state: state() }
})

export const ready = calls.bays.ready.handler(({ context, input }) => {
  const { story, alerts, rules, asOf } = context.watch.asOf(input.bay, input.asOf)
  return { story, alerts: alerts(), readiness: readinessOf(story, input.covering, asOf, rules) }
})
