import { Button, RangeSlider } from '@mantine/core'
import { bayWords } from '../../../app/words/bay.ts'
import type { StripPlace } from '../../../charts/time-strip.tsx'
import { momentText } from '../../../parts/site-time.ts'
import classes from './life-axis.module.css'
import type { Spans } from './span.ts'
import { type Preset, presets, type useLifeView } from './use-life-view.ts'

const words = bayWords.axis

interface ViewControlsProps {
  spans: Spans
  life: ReturnType<typeof useLifeView>
}

const presetWords: Record<Preset, string> = {
  firstWeek: words.firstWeek,
  toCovering: words.toCovering,
  all: words.all,
}

const steps = [
  ['earlier', 'M15 4 7 12l8 8'],
  ['later', 'M9 4l8 8-8 8'],
  ['closer', 'M4 12h16M12 4v16'],
  ['wider', 'M4 12h16'],
] as const

/** Buttons for the stretches one looks at most, and to look closer. */
export function ViewButtons({ spans, life }: ViewControlsProps) {
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset is for boxes of a form
    <div className={classes.buttons} role="group" aria-label={words.show}>
      {presets.map((preset) => (
        <Button
          key={preset}
          size="sm"
          variant={life.preset === preset ? 'filled' : 'default'}
          aria-pressed={life.preset === preset}
          disabled={spans[preset] === null}
          onClick={() => life.setPreset(preset)}
        >
          {presetWords[preset]}
        </Button>
      ))}
      <span className={classes.gap} />
      {steps.map(([act, path]) => (
        <Button
          key={act}
          size="sm"
          variant="default"
          px={10}
          aria-label={words[act]}
          title={words[act]}
          onClick={life[act]}
        >
          <svg width={18} height={18} viewBox="0 0 24 24" className={classes.sign} aria-hidden>
            <path d={path} />
          </svg>
        </Button>
      ))}
    </div>
  )
}

const brushSteps = 1000

/** The whole life as a bar, with the stretch that is shown between two handles. */
export function ViewBrush({
  spans,
  life,
  place,
  zone,
}: ViewControlsProps & { place: StripPlace; zone: string }) {
  const { all } = spans
  const toStep = (at: number) => Math.round(((at - all.from) / (all.until - all.from)) * brushSteps)
  const toInstant = (step: number) => all.from + (step / brushSteps) * (all.until - all.from)
  const value: [number, number] = [
    toStep(life.view.from),
    Math.max(toStep(life.view.from) + 1, toStep(life.view.until)),
  ]
  return (
    <div style={{ paddingLeft: place.gutter, paddingRight: place.right }} className={classes.brush}>
      <RangeSlider
        aria-label={words.view}
        thumbFromLabel={words.viewFrom}
        thumbToLabel={words.viewUntil}
        min={0}
        max={brushSteps}
        minRange={4}
        size="lg"
        value={value}
        label={(step) => momentText(toInstant(step), zone)}
        onChange={([from, until]) => life.show({ from: toInstant(from), until: toInstant(until) })}
      />
    </div>
  )
}
