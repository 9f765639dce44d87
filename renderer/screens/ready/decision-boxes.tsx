import { Checkbox, Select, Textarea, TextInput } from '@mantine/core'
import type { Readiness } from '#model/readiness/verdict.ts'
import { checkUnitOf, checkUnits } from '#model/record/people.ts'
import { type Covering, coverings, type MoistureMethod, moistureMethods } from '#model/record/words.ts'
import { readyWords } from '../../app/words/ready.ts'
import { calendarDayText } from '../../parts/site-time.ts'
import { type DecisionDraft, type DecisionField, openConditions, ownText, waiverOf } from './decision.ts'
import classes from './ready.module.css'

const words = readyWords.sign

interface DecisionBoxesProps {
  draft: DecisionDraft
  set: (part: Partial<DecisionDraft>) => void
  readiness: Readiness
  covering: Covering
  /** The box that still lacks something, once somebody has tried to sign. */
  wrong: DecisionField | null
}

/** The boxes of the chosen decision, and the sentence that the signature will stand under. */
export function DecisionBoxes(props: DecisionBoxesProps) {
  const { decision } = props.draft
  if (decision === 'accepted') return <AcceptBoxes {...props} />
  return decision === 'refused' ? <RefuseBoxes {...props} /> : <WaiveBoxes {...props} />
}

/** What somebody read themselves: it stands beside an acceptance, and beside a refusal as one of its reasons. */
function OwnCheckBoxes({ draft, set, wrong }: Pick<DecisionBoxesProps, 'draft' | 'set' | 'wrong'>) {
  const unit = draft.ownMethod === null ? '' : `, ${checkUnits[checkUnitOf[draft.ownMethod]]}`
  return (
    <fieldset className={classes.ownCheck}>
      <legend>{words.ownTitle}</legend>
      <TextInput
        label={`${words.ownValue}${unit}`}
        inputMode="decimal"
        value={draft.ownValue}
        error={wrong === 'ownValue'}
        onChange={(event) => set({ ownValue: event.currentTarget.value })}
      />
      <Select
        label={words.ownMethod}
        data={Object.entries(moistureMethods).map(([value, label]) => ({ value, label }))}
        value={draft.ownMethod}
        error={wrong === 'ownMethod'}
        onChange={(method) => set({ ownMethod: method as MoistureMethod | null })}
      />
      <TextInput
        label={words.ownPlace}
        value={draft.ownPlace}
        error={wrong === 'ownPlace'}
        onChange={(event) => set({ ownPlace: event.currentTarget.value })}
      />
    </fieldset>
  )
}

function AcceptBoxes({ draft, set, covering, wrong }: DecisionBoxesProps) {
  return (
    <>
      <OwnCheckBoxes draft={draft} set={set} wrong={wrong} />
      <TextInput
        label={words.own}
        description={words.ownHelp}
        value={draft.own}
        error={wrong === 'own'}
        onChange={(event) => set({ own: event.currentTarget.value })}
      />
      <blockquote className={classes.quote}>
        {words.acceptText(ownText(draft), coverings[covering].toLowerCase())}
      </blockquote>
    </>
  )
}

function RefuseBoxes({ draft, set, readiness, wrong }: DecisionBoxesProps) {
  const open = openConditions(readiness.conditions)
  return (
    <>
      {open.length > 0 && (
        <Checkbox.Group
          label={words.reasons}
          value={[...draft.ticked]}
          onChange={(ticked) => set({ ticked })}
        >
          <div className={classes.ticks}>
            {open.map(({ name, because }) => (
              <Checkbox key={name} size="md" value={name} label={`${name}: ${because}`} />
            ))}
          </div>
        </Checkbox.Group>
      )}
      <OwnCheckBoxes draft={draft} set={set} wrong={wrong} />
      <Textarea
        label={open.length > 0 ? words.moreReasons : words.reasons}
        autosize
        minRows={2}
        value={draft.reason}
        error={wrong === 'reason'}
        onChange={(event) => set({ reason: event.currentTarget.value })}
      />
      <TextInput
        type="date"
        label={words.nextLook}
        className={classes.day}
        value={draft.nextLookOn}
        onChange={(event) => set({ nextLookOn: event.currentTarget.value })}
      />
      <blockquote className={classes.quote}>
        {words.refuseText(draft.nextLookOn === '' ? words.noDay : calendarDayText(draft.nextLookOn))}
      </blockquote>
    </>
  )
}

function WaiveBoxes({ draft, set, readiness, wrong }: DecisionBoxesProps) {
  const waiver = waiverOf(draft, readiness)
  return (
    <>
      <div className={classes.ordered}>
        <TextInput
          label={words.orderedBy}
          value={draft.orderedBy}
          error={wrong === 'orderedBy'}
          onChange={(event) => set({ orderedBy: event.currentTarget.value })}
        />
        <TextInput
          label={words.orderedAs}
          description={words.orderedAsHelp}
          value={draft.orderedAs}
          error={wrong === 'orderedAs'}
          onChange={(event) => set({ orderedAs: event.currentTarget.value })}
        />
      </div>
      <Textarea
        label={words.explained}
        autosize
        minRows={2}
        value={draft.explained}
        error={wrong === 'explained'}
        onChange={(event) => set({ explained: event.currentTarget.value })}
      />
      <blockquote className={classes.quote}>
        {words.waiveText({
          who: waiver.orderedBy === '' ? '…' : waiver.orderedBy,
          role: waiver.orderedAs === '' ? '…' : waiver.orderedAs,
          reading: waiver.knownReading,
          limit: waiver.knownLimit,
          explained: waiver.explained === '' ? '…' : waiver.explained,
        })}
      </blockquote>
    </>
  )
}
