import { Button, Checkbox, Textarea, TextInput } from '@mantine/core'
import { type FormEvent, useState } from 'react'
import type { Readiness } from '#model/readiness/verdict.ts'
import type { BayStory } from '#model/record/story.ts'
import { type Covering, coverings } from '#model/record/words.ts'
import { nowMs } from '../../app/clock.ts'
import { newId } from '../../app/ids.ts'
import { useJob } from '../../app/job.tsx'
import { useRecorder } from '../../app/recorder.ts'
import { troubleOf } from '../../app/trouble.ts'
import { readyWords } from '../../app/words/ready.ts'
import { words as allWords } from '../../app/words.ts'
import { useWriter } from '../../app/writer.ts'
import { Banner, Note } from '../../parts/banner.tsx'
import { Segmented } from '../../parts/segmented.tsx'
import { calendarDayText, siteIso } from '../../parts/site-time.ts'
import { type DecisionDraft, type DecisionKind, openConditions, readDecision } from './decision.ts'
import classes from './ready.module.css'

const words = readyWords.sign

interface DecideProps {
  story: BayStory
  readiness: Readiness
  covering: Covering
}

/** The floor layer decides: accept with a check of one's own, or refuse with reasons; a waiver stands by name. */
export function Decide({ story, readiness, covering }: DecideProps) {
  const { zone, nameOf } = useJob()
  const writer = useWriter()
  const recorder = useRecorder()
  const [draft, setDraft] = useState(() => emptyDraft(readiness))
  const [id, setId] = useState(() => newId<'entry'>())
  const [tried, setTried] = useState(false)
  const { verdict } = readiness
  const ready = verdict === 'ready'
  const reading = readDecision(draft, readiness, covering)
  const set = (part: Partial<DecisionDraft>) => setDraft((before) => ({ ...before, ...part }))
  const missing = tried && reading.kind === 'missing' ? reading : null

  const save = (event: FormEvent) => {
    event.preventDefault()
    setTried(true)
    if (reading.kind === 'missing') return
    recorder.mutate(
      [
        {
          id,
          kind: 'bay-decided',
          subject: story.bay.id,
          happenedAt: siteIso(nowMs(), zone),
          body: reading.body,
        },
      ],
      {
        onSuccess: () => {
          setId(newId<'entry'>())
          setDraft(emptyDraft(readiness))
          setTried(false)
        },
      },
    )
  }
  const options: Partial<Record<DecisionKind, string>> = ready
    ? { accepted: words.accept, refused: words.refuse }
    : { refused: words.refuse, waived: words.waive }
  return (
    <section className={classes.part}>
      <h2 className={classes.title}>{words.title}</h2>
      <form className={classes.decide} onSubmit={save} noValidate>
        {!ready && <Note>{words.cannotAccept(allWords.verdicts[verdict])}</Note>}
        <Segmented
          label={words.choice}
          options={options as Record<string, string>}
          value={draft.decision}
          onChange={(decision) => set({ decision: decision as DecisionKind })}
        />
        <DecisionBoxes draft={draft} set={set} readiness={readiness} covering={covering} missing={missing} />
        {missing !== null && (
          <p role="alert" className={classes.missing}>
            {missing.sentence}
          </p>
        )}
        {recorder.error !== null && <Banner trouble={troubleOf(recorder.error)} />}
        <p className={classes.soft}>{writer === null ? words.nobody : words.who(nameOf(writer))}</p>
        <div>
          <Button type="submit" size="lg" disabled={writer === null} loading={recorder.isPending}>
            {{ accepted: words.acceptDo, refused: words.refuseDo, waived: words.waiveDo }[draft.decision]}
          </Button>
        </div>
      </form>
      <div className={classes.byHand}>
        <p>{words.printOwn}</p>
        <p>{words.signature}</p>
      </div>
    </section>
  )
}

interface DecisionBoxesProps {
  draft: DecisionDraft
  set: (part: Partial<DecisionDraft>) => void
  readiness: Readiness
  covering: Covering
  missing: { field: string; sentence: string } | null
}

function DecisionBoxes({ draft, set, readiness, covering, missing }: DecisionBoxesProps) {
  const wrong = (field: string) => missing?.field === field
  if (draft.decision === 'accepted') {
    return (
      <>
        <TextInput
          label={words.own}
          description={words.ownHelp}
          value={draft.own}
          error={wrong('own')}
          onChange={(event) => set({ own: event.currentTarget.value })}
        />
        <blockquote className={classes.quote}>
          {words.acceptText(
            draft.own.trim() === '' ? '…' : draft.own.trim(),
            coverings[covering].toLowerCase(),
          )}
        </blockquote>
      </>
    )
  }
  if (draft.decision === 'refused') {
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
        <Textarea
          label={open.length > 0 ? words.moreReasons : words.reasons}
          autosize
          minRows={2}
          value={draft.reason}
          error={wrong('reason')}
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
  return (
    <>
      <TextInput
        label={words.orderedBy}
        value={draft.orderedBy}
        error={wrong('orderedBy')}
        onChange={(event) => set({ orderedBy: event.currentTarget.value })}
      />
      <Textarea
        label={words.explained}
        autosize
        minRows={2}
        value={draft.explained}
        error={wrong('orderedBy')}
        onChange={(event) => set({ explained: event.currentTarget.value })}
      />
      <blockquote className={classes.quote}>{words.waiveText}</blockquote>
    </>
  )
}

/** A bay that is READY starts with accepting; any other starts with refusing, every open condition ticked as a reason. */
function emptyDraft({ verdict, conditions }: Readiness): DecisionDraft {
  return {
    decision: verdict === 'ready' ? 'accepted' : 'refused',
    own: '',
    ticked: openConditions(conditions).map(({ name }) => name),
    reason: '',
    nextLookOn: '',
    orderedBy: '',
    explained: '',
  }
}
