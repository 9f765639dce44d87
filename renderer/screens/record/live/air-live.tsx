import { dewPointC, type evaporationRate, whyDewPointMargin, whyEvaporation } from '#model/air/index.ts'
import { type EffectiveRules, keepsLimit, limitText, rulesOfProject } from '#model/rules/index.ts'
import { useJob } from '../../../app/job.tsx'
import { words } from '../../../app/words.ts'
import { LiveNumber, LivePanel } from '../../../parts/live-panel.tsx'
import { quantityText } from '../../../parts/number-text.ts'
import { WhyButton } from '../../../parts/why.tsx'
import type { LiveProps } from './index.ts'
import { numberIn, whenUsable } from './read-now.ts'

const say = words.live.air
const kmhOfOneMs = 3.6

/** Dew point, margin above it and evaporation, while the air is typed. */
export function AirLive({ form }: LiveProps) {
  const { outline } = useJob()
  const rules = rulesOfProject(outline.project.body)
  const { body } = form.reading
  const airC = numberIn(body, 'airC')
  const rhPercent = numberIn(body, 'rhPercent')
  const surfaceC = numberIn(body, 'surfaceC')
  const airSpeedMs = numberIn(body, 'airSpeedMs')
  const dewC = airC === null || rhPercent === null ? null : whenUsable(() => dewPointC(airC, rhPercent))
  return (
    <LivePanel title={say.title}>
      <LiveNumber
        what={say.dewPoint}
        value={dewC === null ? words.notKnown : quantityText(dewC, '°C', 1)}
        meaning={dewC === null ? say.dewNeeds : say.dewMeans}
      />
      {airC === null || rhPercent === null || surfaceC === null ? (
        <LiveNumber what={say.margin} value={words.notKnown} meaning={say.marginNeeds} />
      ) : (
        <Margin airC={airC} rhPercent={rhPercent} surfaceC={surfaceC} rules={rules} />
      )}
      {airC === null || rhPercent === null || surfaceC === null || airSpeedMs === null ? (
        <LiveNumber what={say.evaporation} value={words.notKnown} meaning={say.evaporationNeeds} />
      ) : (
        <Evaporation
          conditions={{ airC, rhPercent, surfaceC, windKmh: airSpeedMs * kmhOfOneMs }}
          rules={rules}
        />
      )}
    </LivePanel>
  )
}

interface MarginProps {
  airC: number
  rhPercent: number
  surfaceC: number
  rules: EffectiveRules
}

function Margin({ rules, ...air }: MarginProps) {
  const why = whenUsable(() => whyDewPointMargin(air))
  const limit = rules.limits['climate.dewMarginK']
  if (why === null || typeof why.value !== 'number') {
    return <LiveNumber what={say.margin} value={words.notKnown} meaning={say.marginNeeds} />
  }
  const kept = keepsLimit(why.value, limit)
  return (
    <LiveNumber
      what={say.margin}
      value={<WhyButton why={why}>{quantityText(why.value, 'K', 1)}</WhyButton>}
      tone={kept ? 'good' : why.value <= 0 ? 'stop' : 'act'}
      meaning={`${why.value <= 0 ? say.condenses : kept ? say.marginKept : say.marginNotKept} ${words.live.limit(limitText(limit), limit.source)}`}
    />
  )
}

interface EvaporationProps {
  conditions: Parameters<typeof evaporationRate>[0]
  rules: EffectiveRules
}

function Evaporation({ conditions, rules: { limits } }: EvaporationProps) {
  const why = whenUsable(() => whyEvaporation(conditions))
  if (why === null || typeof why.value !== 'number') {
    return <LiveNumber what={say.evaporation} value={words.notKnown} meaning={say.evaporationNeeds} />
  }
  const rate = why.value
  const steps = [
    { limit: limits['evaporation.stop'], tone: 'stop', meaning: say.evaporationStop },
    { limit: limits['evaporation.act'], tone: 'act', meaning: say.evaporationAct },
    { limit: limits['evaporation.watch'], tone: 'act', meaning: say.evaporationWatch },
  ] as const
  const over = steps.find(({ limit }) => !keepsLimit(rate, limit))
  const shown = over?.limit ?? limits['evaporation.watch']
  return (
    <LiveNumber
      what={say.evaporation}
      value={<WhyButton why={why}>{quantityText(rate, why.unit)}</WhyButton>}
      tone={over?.tone ?? 'good'}
      meaning={`${over?.meaning ?? say.evaporationFine} ${words.live.limit(limitText(shown), shown.source)}`}
    />
  )
}
