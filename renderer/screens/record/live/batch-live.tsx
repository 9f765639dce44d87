import { checkProportions } from '#model/mix/batch.ts'
import { type BatchMasses, proportionsOf, whyProportions } from '#model/mix/index.ts'
import { type EffectiveRules, limitText, rulesOfProject } from '#model/rules/index.ts'
import { useJob } from '../../../app/job.tsx'
import { words } from '../../../app/words.ts'
import { CheckLines } from '../../../parts/check-lines.tsx'
import { LiveNumber, LivePanel } from '../../../parts/live-panel.tsx'
import { numberText } from '../../../parts/number-text.ts'
import { WhyButton } from '../../../parts/why.tsx'
import type { LiveProps } from './index.ts'
import { type Judgement, judge } from './judge.ts'
import { numberIn, whenUsable } from './read-now.ts'

const say = words.live.batch

/** Sand and water for one part of cement, while the batch is typed, against the mix rules in force. */
export function BatchLive({ form }: LiveProps) {
  const { outline } = useJob()
  const rules = rulesOfProject(outline.project.body)
  const masses = massesOf(form.reading.body)
  const read =
    masses === null ? null : whenUsable(() => ({ why: whyProportions(masses), ...proportionsOf(masses) }))
  if (read === null) {
    return (
      <LivePanel title={say.title}>
        <p>{form.reading.body.sandMoisturePercent === undefined ? say.waitsMoisture : words.live.waits}</p>
      </LivePanel>
    )
  }
  const ratio = judge(read.sandPerCement, sandBand(rules), say.sand)
  const water = judge(read.waterCement, waterBand(rules), say.water)
  return (
    <LivePanel title={say.title}>
      <LiveNumber
        what={say.ratioName}
        value={<WhyButton why={read.why.sandPerCement}>1 : {numberText(read.sandPerCement)}</WhyButton>}
        {...shown(ratio)}
      />
      <LiveNumber
        what={say.waterName}
        value={<WhyButton why={read.why.waterCement}>{numberText(read.waterCement)}</WhyButton>}
        {...shown(water)}
      />
      <CheckLines findings={checkProportions(read, rules).findings} text={limitText} />
    </LivePanel>
  )
}

const shown = ({ tone, meaning }: Judgement) => ({ tone, meaning })

/** Null until the four masses are numbers: a batch whose sand moisture is unknown has no known water. */
function massesOf(body: Readonly<Record<string, unknown>>): BatchMasses | null {
  const [cementKg, dampSandKg, sandMoisturePercent, addedWaterKg] = [
    numberIn(body, 'cementKg'),
    numberIn(body, 'dampSandKg'),
    numberIn(body, 'sandMoisturePercent'),
    numberIn(body, 'addedWaterKg'),
  ]
  if (cementKg === null || dampSandKg === null || sandMoisturePercent === null || addedWaterKg === null)
    return null
  const admixtureWaterKg = numberIn(body, 'admixtureWaterKg') ?? 0
  return { cementKg, dampSandKg, sandMoisturePercent, addedWaterKg, admixtureWaterKg }
}

function sandBand({ limits }: EffectiveRules) {
  return {
    usual: [limits['mix.sandPerCementLeast'].value, limits['mix.sandPerCementMost'].value],
    act: [limits['mix.sandPerCementActLeast'].value, limits['mix.sandPerCementActMost'].value],
  } as const
}

function waterBand({ limits }: EffectiveRules) {
  return {
    usual: [limits['mix.waterCementLeast'].value, limits['mix.waterCementMost'].value],
    act: [limits['mix.waterCementActLeast'].value, limits['mix.waterCementActMost'].value],
  } as const
}
