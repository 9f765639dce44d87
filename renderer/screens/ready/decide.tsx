import { Button } from '@mantine/core'
import { type FormEvent, useState } from 'react'
import { madeFrom, makerProblem, roleProblem, rolesInForce } from '#model/people/index.ts'
import { ownCheckProblem } from '#model/readiness/index.ts'
import type { Readiness } from '#model/readiness/verdict.ts'
import type { BayStory } from '#model/record/story.ts'
import type { Covering } from '#model/record/words.ts'
import type { BayFacts } from '#model/watch/facts/index.ts'
import { nowMs } from '../../app/clock.ts'
import { newId } from '../../app/ids.ts'
import { useJob } from '../../app/job.tsx'
import { useRecorder } from '../../app/recorder.ts'
import { troubleOf } from '../../app/trouble.ts'
import { useCompany } from '../../app/use-company.ts'
import { readyWords } from '../../app/words/ready.ts'
import { words as allWords } from '../../app/words.ts'
import { useWriter } from '../../app/writer.ts'
import { Banner, Note } from '../../parts/banner.tsx'
import { Segmented } from '../../parts/segmented.tsx'
import { siteIso } from '../../parts/site-time.ts'
import { type DecisionDraft, type DecisionKind, openConditions, readDecision } from './decision.ts'
import { DecisionBoxes } from './decision-boxes.tsx'
import classes from './ready.module.css'

const words = readyWords.sign

interface DecideProps {
  story: BayStory
  facts: BayFacts
  readiness: Readiness
  covering: Covering
  /** Until when the tests count [epoch ms]; null when none does. */
  holdsUntil: number | null
}

/** The floor layer decides: accept with a check of one's own, or refuse with reasons; a waiver stands by name. */
export function Decide({ story, facts, readiness, covering, holdsUntil }: DecideProps) {
  const { zone, nameOf } = useJob()
  const writer = useWriter()
  const recorder = useRecorder()
  const [draft, setDraft] = useState(() => emptyDraft(readiness, story))
  const [id, setId] = useState(() => newId<'entry'>())
  const [tried, setTried] = useState(false)
  const { verdict } = readiness
  const ready = verdict === 'ready'
  const reading = readDecision(draft, readiness, covering, holdsUntil)
  const set = (part: Partial<DecisionDraft>) => setDraft((before) => ({ ...before, ...part }))
  const missing = tried && reading.kind === 'missing' ? reading : null
  const checks = reading.kind === 'body' ? (reading.body.ownChecks ?? []) : []
  const tooWet = draft.decision === 'accepted' ? ownCheckProblem(facts, covering, checks) : null
  const mayNot = useMayNot(story, draft.decision)

  const save = (event: FormEvent) => {
    event.preventDefault()
    setTried(true)
    if (reading.kind === 'missing' || tooWet !== null) return
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
          setDraft(emptyDraft(readiness, story))
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
        <DecisionBoxes
          draft={draft}
          set={set}
          readiness={readiness}
          covering={covering}
          wrong={missing?.field ?? null}
        />
        {missing !== null && (
          <p role="alert" className={classes.missing}>
            {missing.sentence}
          </p>
        )}
        {tooWet !== null && (
          <p role="alert" className={classes.missing}>
            {tooWet}
          </p>
        )}
        {recorder.error !== null && <Banner trouble={troubleOf(recorder.error)} />}
        {mayNot !== null && <Note tone="act">{mayNot}</Note>}
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

/** Why the one who writes may not sign this, told before they fill it in; the host says the same when they try. */
function useMayNot(story: BayStory, decision: DecisionKind): string | null {
  const writer = useWriter()
  const company = useCompany()
  if (writer === null || company === null) return null
  const body = { decision }
  const wanted = { kind: 'bay-decided', act: 'write first', body } as const
  return (
    roleProblem(wanted, rolesInForce(writer, company)) ??
    makerProblem({ kind: 'bay-decided', person: writer, body }, madeFrom(story.entries))
  )
}

/** A bay that is READY starts with accepting; any other starts with refusing, every open condition ticked as a reason. */
function emptyDraft({ verdict, conditions }: Readiness, story: BayStory): DecisionDraft {
  return {
    decision: verdict === 'ready' ? 'accepted' : 'refused',
    ownValue: '',
    ownMethod: story.zone.body.moistureMethod,
    ownPlace: '',
    own: '',
    ticked: openConditions(conditions).map(({ name }) => name),
    reason: '',
    nextLookOn: '',
    orderedBy: '',
    orderedAs: '',
    explained: '',
  }
}
