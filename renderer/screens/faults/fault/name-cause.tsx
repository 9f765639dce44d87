import { Button, MultiSelect, Select, Textarea, TextInput } from '@mantine/core'
import { type FormEvent, useState } from 'react'
import { Link } from 'wouter'
import type { FaultFact, FaultPage } from '#model/contract/faults.ts'
import { causes } from '#model/faults/causes.ts'
import { useNow } from '../../../app/clock.ts'
import { newId } from '../../../app/ids.ts'
import { useJob } from '../../../app/job.tsx'
import { paths } from '../../../app/paths.ts'
import { useRecorder } from '../../../app/recorder.ts'
import { troubleOf } from '../../../app/trouble.ts'
import { faultsWords } from '../../../app/words/faults.ts'
import { useWriter } from '../../../app/writer.ts'
import { Banner, Note } from '../../../parts/banner.tsx'
import { Section } from '../../../parts/page.tsx'
import { Segmented } from '../../../parts/segmented.tsx'
import { momentText } from '../../../parts/site-time.ts'
import classes from './fault.module.css'
import { emptyName, type NameDraft, readName } from './name-draft.ts'
import { thisMinute } from './this-minute.ts'

const words = faultsWords.name

/** A person names the cause and signs; the ranking that was shown is kept with it. */
export function NameCause({ page }: { page: FaultPage }) {
  const [again, setAgain] = useState(false)
  const { named, fault } = page
  const asks = fault.state !== 'closed' && (named === null || again)
  return (
    <Section title={words.title}>
      {named !== null && <Named named={named} />}
      {asks && <NameForm page={page} onSaved={() => setAgain(false)} />}
      {!asks && fault.state !== 'closed' && (
        <div className={classes.acts}>
          <Button variant="default" onClick={() => setAgain(true)}>
            {words.again}
          </Button>
        </div>
      )}
    </Section>
  )
}

export function Named({ named }: { named: FaultFact<'cause-named'> }) {
  const { nameOf, zone } = useJob()
  const now = useNow()
  const { cause, furtherCauses = [], treatedAs, reason, causeRemoved } = named.body
  return (
    <div className={classes.named}>
      <p className={classes.namedCause}>
        {words.stands(cause === 'unknown' ? words.unknown : causes[cause])}
        {furtherCauses.length > 0 && (
          <span className={classes.soft}>
            {' '}
            {words.withIt(furtherCauses.map((one) => causes[one.cause].toLowerCase()).join(', '))}
          </span>
        )}
      </p>
      {treatedAs !== undefined && (
        <p>
          {words.treatedAs}: {treatedAs}
        </p>
      )}
      <p>{reason}</p>
      {causeRemoved !== undefined && <p>{words.gone[causeRemoved]}</p>}
      <p className={classes.soft}>
        {words.by(nameOf(named.person), momentText(named.happenedAt, zone, now))},{' '}
        {words.weights(named.body.weightsVersion)}.{' '}
        <Link href={paths.entry(named.id)} className={classes.noPrint}>
          {faultsWords.page.entry}
        </Link>
      </p>
    </div>
  )
}

function NameForm({ page, onSaved }: { page: FaultPage; onSaved: () => void }) {
  const { zone, nameOf } = useJob()
  const writer = useWriter()
  const recorder = useRecorder()
  const [draft, setDraft] = useState<NameDraft>(emptyName)
  const [id, setId] = useState(() => newId<'entry'>())
  const [tried, setTried] = useState(false)
  const reading = readName(draft, page)
  const missing = tried && reading.kind === 'missing' ? reading : null
  const set = (part: Partial<NameDraft>) => setDraft((before) => ({ ...before, ...part }))
  const wrong = (field: string) => (missing?.field === field ? missing.sentence : undefined)
  const ranked = page.diagnosis.causes.map(({ id: value, words: label }) => ({ value, label }))
  const save = (event: FormEvent) => {
    event.preventDefault()
    setTried(true)
    if (reading.kind === 'missing') return
    recorder.mutate(
      [
        {
          id,
          kind: 'cause-named',
          subject: page.fault.bay,
          happenedAt: thisMinute(zone),
          body: reading.body,
        },
      ],
      {
        onSuccess: () => {
          setId(newId<'entry'>())
          setDraft(emptyName)
          setTried(false)
          onSaved()
        },
      },
    )
  }
  return (
    <form className={classes.nameForm} onSubmit={save} noValidate>
      <p className={classes.soft}>{words.lead}</p>
      {page.diagnosis.tooThin && <Note tone="act">{words.tooThin}</Note>}
      <div className={classes.pair}>
        <Select
          label={words.cause}
          searchable
          data={[...ranked, { value: 'unknown', label: words.unknown }]}
          value={draft.cause === '' ? null : draft.cause}
          error={wrong('cause')}
          onChange={(next) => set({ cause: (next ?? '') as NameDraft['cause'] })}
        />
        <MultiSelect
          label={words.further}
          size="md"
          searchable
          data={ranked.filter(({ value }) => value !== draft.cause)}
          value={[...draft.further]}
          onChange={(further) => set({ further })}
        />
      </div>
      {draft.cause === 'unknown' && (
        <TextInput
          label={words.treatedAs}
          description={words.treatedAsHelp}
          value={draft.treatedAs}
          error={wrong('treatedAs')}
          onChange={(event) => set({ treatedAs: event.currentTarget.value })}
        />
      )}
      <Textarea
        label={words.reason}
        autosize
        minRows={2}
        value={draft.reason}
        error={wrong('reason')}
        onChange={(event) => set({ reason: event.currentTarget.value })}
      />
      <Segmented
        label={words.removed}
        help={words.removedHelp}
        required={false}
        options={words.removedOptions}
        value={draft.removed === '' ? null : draft.removed}
        onChange={(next) => set({ removed: next as NameDraft['removed'] })}
      />
      {missing !== null && (
        <p role="alert" className={classes.wrong}>
          {missing.sentence}
        </p>
      )}
      {recorder.error !== null && <Banner trouble={troubleOf(recorder.error)} />}
      <div className={classes.acts}>
        <Button type="submit" size="lg" disabled={writer === null} loading={recorder.isPending}>
          {writer === null ? words.saveNobody : words.save(nameOf(writer))}
        </Button>
        {writer === null && <span className={classes.soft}>{words.nobody}</span>}
      </div>
    </form>
  )
}
