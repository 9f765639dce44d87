import { Button, Checkbox, TextInput } from '@mantine/core'
import type { ReactNode } from 'react'
import { wayIds } from '#model/drying/what-if/shapes.ts'
import { useJob } from '../../app/job.tsx'
import { waysWords } from '../../app/words/ways.ts'
import { numberText } from '../../parts/number-text.ts'
import { Segmented } from '../../parts/segmented.tsx'
import {
  type FieldName,
  firstDraft,
  machineFields,
  type PlanDraft,
  type PlanReading,
  priceFields,
  roomFields,
  usualRated,
} from './plan-draft.ts'
import classes from './ways.module.css'

const words = waysWords.form
const units: Record<FieldName, string> = Object.fromEntries(
  Object.entries({ ...roomFields, ...machineFields, ...priceFields }).map(([name, { unit }]) => [name, unit]),
) as Record<FieldName, string>

interface PlanFormProps {
  draft: PlanDraft
  reading: PlanReading
  heated: boolean
  onDraft: (draft: PlanDraft) => void
  /** What the record says of room and outdoor air. */
  children: ReactNode
}

/** The room, what is to be done with it, and below it machines and prices; the table follows while one types. */
export function PlanForm({ draft, reading, heated, onDraft, children }: PlanFormProps) {
  const { outline } = useJob()
  const { typed, kind, ways } = draft
  const put = (name: FieldName, text: string) => onDraft({ ...draft, typed: { ...typed, [name]: text } })
  const blanks: Partial<Record<FieldName, string>> = {
    outdoorC: waysWords.blank.record,
    outdoorRh: waysWords.blank.record,
    shutAirChanges: waysWords.blank.workedOut,
    ratedC: numberText(usualRated[kind].airC),
    ratedRh: numberText(usualRated[kind].rhPercent),
    fanM3: waysWords.blank.windows,
  }
  const boxes = (names: readonly string[]) =>
    (names as FieldName[]).map((name) => (
      <TextInput
        key={name}
        label={waysWords.fields[name]}
        inputMode="decimal"
        autoComplete="off"
        value={typed[name]}
        placeholder={blanks[name] ?? waysWords.blank.notKnown}
        error={reading.wrong[name]}
        rightSection={<span className={classes.unit}>{units[name]}</span>}
        rightSectionWidth={72}
        rightSectionPointerEvents="none"
        onChange={(event) => put(name, event.currentTarget.value)}
      />
    ))
  const room = Object.keys(roomFields).filter((name) => heated || name !== 'heatedScreedC')
  return (
    <form className={classes.form} onSubmit={(event) => event.preventDefault()} noValidate>
      <div className={classes.boxes}>{boxes(room)}</div>
      {children}
      <details className={classes.details}>
        <summary>{words.machines}</summary>
        <div className={classes.more}>
          <fieldset className={classes.group}>
            <legend>{words.ways}</legend>
            <div className={classes.ticks}>
              {wayIds
                .filter((way) => way !== 'wait' && (heated || way !== 'floor heating'))
                .map((way) => (
                  <Checkbox
                    key={way}
                    size="md"
                    label={waysWords.names[way]}
                    checked={ways.includes(way)}
                    onChange={(event) => {
                      const on = event.currentTarget.checked
                      onDraft({
                        ...draft,
                        ways: wayIds.filter((one) =>
                          one === way ? on : ways.includes(one) || one === 'wait',
                        ),
                      })
                    }}
                  />
                ))}
            </div>
          </fieldset>
          <p className={classes.soft}>{words.machinesLead}</p>
          <fieldset className={classes.group}>
            <legend>{waysWords.groups.machines}</legend>
            <Segmented
              label={words.kind}
              options={words.kinds}
              value={kind}
              onChange={(next) =>
                onDraft({ ...draft, kind: next === 'desiccant' ? 'desiccant' : 'condensing' })
              }
            />
            <div className={classes.boxes}>{boxes(Object.keys(machineFields))}</div>
          </fieldset>
          <fieldset className={classes.group}>
            <legend>{waysWords.groups.prices(outline.project.body.currency)}</legend>
            <div className={classes.boxes}>{boxes(Object.keys(priceFields))}</div>
          </fieldset>
          <div>
            <Button variant="default" onClick={() => onDraft(firstDraft)}>
              {words.reset}
            </Button>
          </div>
        </div>
      </details>
    </form>
  )
}
