import { Button, Textarea, TextInput } from '@mantine/core'
import { type FormEvent, useState } from 'react'
import type { FaultPage } from '#model/contract/faults.ts'
import { rateItemIds, rateItems } from '#model/faults/words.ts'
import { newId } from '../../../../app/ids.ts'
import { useJob } from '../../../../app/job.tsx'
import { useRecorder } from '../../../../app/recorder.ts'
import { troubleOf } from '../../../../app/trouble.ts'
import { faultsWords } from '../../../../app/words/faults.ts'
import { words as allWords } from '../../../../app/words.ts'
import { useWriter } from '../../../../app/writer.ts'
import { Banner } from '../../../../parts/banner.tsx'
import classes from '../fault.module.css'
import { thisMinute } from '../this-minute.ts'
import { draftOfRates, type RatesDraft, readRates } from './rates-draft.ts'

const words = faultsWords.rates

/** A firm's own rates: from and to for every line, written once for the whole project. */
export function RatesForm({ page, onDone }: { page: FaultPage; onDone: () => void }) {
  const { id: project, zone } = useJob()
  const writer = useWriter()
  const recorder = useRecorder()
  const [draft, setDraft] = useState<RatesDraft>(() => draftOfRates(page.rates))
  const [id] = useState(() => newId<'entry'>())
  const [tried, setTried] = useState(false)
  const reading = readRates(draft)
  const wrong = (field: string) => (tried && reading.kind === 'wrong' ? reading.fields[field] : undefined)
  const save = (event: FormEvent) => {
    event.preventDefault()
    setTried(true)
    if (reading.kind === 'wrong') return
    recorder.mutate(
      [
        {
          id,
          kind: 'repair-rates-set',
          subject: project,
          happenedAt: thisMinute(zone),
          body: reading.body,
        },
      ],
      { onSuccess: onDone },
    )
  }
  const box = (field: string, label: string, value: string, put: (text: string) => RatesDraft) => (
    <TextInput
      aria-label={label}
      inputMode="decimal"
      autoComplete="off"
      value={value}
      error={wrong(field)}
      onChange={(event) => setDraft(put(event.currentTarget.value))}
    />
  )
  return (
    <form className={classes.inlineForm} onSubmit={save} noValidate>
      <h3 className={classes.formTitle}>{words.title}</h3>
      <p className={classes.soft}>{words.lead}</p>
      <table className={classes.rates}>
        <thead>
          <tr>
            <th scope="col">{words.item}</th>
            <th scope="col">{words.low}</th>
            <th scope="col">{words.high}</th>
          </tr>
        </thead>
        <tbody>
          {rateItemIds.map((item) => {
            const { low, high } = draft.rates[item]
            const put = (part: Partial<typeof draft.rates.setUp>) => ({
              ...draft,
              rates: { ...draft.rates, [item]: { low, high, ...part } },
            })
            return (
              <tr key={item}>
                <th scope="row">{rateItems[item]}</th>
                <td>{box(item, `${rateItems[item]}: ${words.low}`, low, (text) => put({ low: text }))}</td>
                <td>{box(item, `${rateItems[item]}: ${words.high}`, high, (text) => put({ high: text }))}</td>
              </tr>
            )
          })}
          <tr>
            <th scope="row">{words.delay}</th>
            <td colSpan={2}>
              {box('delayPerDay', words.delay, draft.delayPerDay, (delayPerDay) => ({
                ...draft,
                delayPerDay,
              }))}
            </td>
          </tr>
          <tr>
            <th scope="row">{words.recurrence}</th>
            <td colSpan={2}>
              {box('recurrenceCost', words.recurrence, draft.recurrenceCost, (recurrenceCost) => ({
                ...draft,
                recurrenceCost,
              }))}
            </td>
          </tr>
        </tbody>
      </table>
      <Textarea
        label={words.reason}
        autosize
        minRows={1}
        value={draft.reason}
        onChange={(event) => setDraft({ ...draft, reason: event.currentTarget.value })}
      />
      {tried && reading.kind === 'wrong' && (
        <p role="alert" className={classes.wrong}>
          {Object.values(reading.fields)[0]}
        </p>
      )}
      {recorder.error !== null && <Banner trouble={troubleOf(recorder.error)} />}
      <div className={classes.acts}>
        <Button type="submit" disabled={writer === null} loading={recorder.isPending}>
          {words.save}
        </Button>
        <Button variant="subtle" onClick={onDone}>
          {words.cancel}
        </Button>
        {writer === null && <span className={classes.soft}>{allWords.trouble.nobodyWrites}</span>}
      </div>
    </form>
  )
}
