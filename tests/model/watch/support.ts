import type { BayStory } from '#model/record/story.ts'
import { type EffectiveRules, effectiveRules } from '#model/rules/index.ts'
import { type Alert, watchBay } from '#model/watch/index.ts'
import { instant, type StoryBuilder } from '../../support/story.ts'

export const british = effectiveRules('british')

/** The alerts of one rule as of an instant. */
export function raised(
  rule: string,
  story: StoryBuilder | BayStory,
  asOf: string | number,
  { rules = british, knownAt }: { rules?: EffectiveRules; knownAt?: string | number } = {},
): Alert[] {
  const built = 'build' in story ? story.build() : story
  return watchBay(built, instant(asOf), rules, knownAt === undefined ? undefined : instant(knownAt)).filter(
    (alert) => alert.rule === rule,
  )
}

/** "act", "act (ended)", "none": what a table of a rule compares. */
export function outcome(
  rule: string,
  story: StoryBuilder | BayStory,
  asOf: string | number,
  options: { rules?: EffectiveRules; knownAt?: string | number } = {},
): string {
  const alerts = raised(rule, story, asOf, options)
  if (alerts.length === 0) return 'none'
  return alerts
    .map(({ severity, nonconformance, until }) =>
      [severity, nonconformance ? 'NC' : '', until === null ? '' : 'ended']
        .filter((word) => word !== '')
        .join(' '),
    )
    .join(', ')
}

/** n values, the same or by their place. */
export function hourly(hours: number, value: number | ((hour: number) => number)): number[] {
  return Array.from({ length: hours }, (_, i) => (typeof value === 'number' ? value : value(i)))
}
