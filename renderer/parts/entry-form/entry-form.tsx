import { Button, Textarea } from '@mantine/core'
import { type FormEvent, type ReactNode, useRef } from 'react'
import type { Act } from '#model/people/index.ts'
import type { LedgerEntry, RangeAnswer } from '#model/record/entry.ts'
import type { EntryId } from '#model/record/ids.ts'
import type { KindName } from '#model/record/kinds.ts'
import { useJob } from '../../app/job.tsx'
import { NobodyWrites, useRecorder } from '../../app/recorder.ts'
import { type Trouble, troubleOf } from '../../app/trouble.ts'
import { useMayNot } from '../../app/use-may-not.ts'
import { words } from '../../app/words.ts'
import { Banner, Note } from '../banner.tsx'
import type { DraftValues } from './draft.ts'
import { EntryFields } from './entry-fields.tsx'
import classes from './entry-form.module.css'
import { boxId } from './field-props.ts'
import { ProblemList } from './problem-list.tsx'
import { type EntryForm as Form, useEntryForm } from './use-entry-form.ts'

export interface EntryFormProps {
  kind: KindName
  /** What the entry is about; left out for what it brings into being. */
  subject?: string
  /** One draft a key: the same key finds what was typed before. */
  draftKey: string
  start?: DraftValues
  /** Fields that `start` settles: they are written and not asked. */
  given?: readonly string[]
  /** Stands above the boxes: where pre-filled values come from. */
  note?: ReactNode
  /** The version that is corrected, what that is to the one who writes, when it happened, and the answers already given for unusual values. */
  correcting?: { version: EntryId; act?: Act; happenedAt: number; answers: readonly RangeAnswer[] }
  saveLabel?: string
  onSaved: (entry: LedgerEntry) => void
  /** Stands beside the boxes and follows what is typed. */
  live?: (form: Form) => ReactNode
}

/** The form of any kind of entry, drawn from its field descriptions. */
export function EntryForm(props: EntryFormProps) {
  const { kind, subject, correcting, live } = props
  const { zone } = useJob()
  const recorder = useRecorder()
  const box = useRef<HTMLFormElement>(null)
  const form = useEntryForm({
    kind,
    zone,
    subject,
    draftKey: props.draftKey,
    start: props.start,
    given: props.given,
    happenedAt: correcting?.happenedAt,
    answers: correcting?.answers,
    needsReason: correcting !== undefined,
  })
  const save = async (event: FormEvent) => {
    event.preventDefault()
    const entry = form.submit()
    if (entry === null) {
      requestAnimationFrame(() => focusFirstWrong(box.current))
      return
    }
    const fact = {
      ...entry,
      kind,
      subject,
      ...(correcting === undefined ? {} : { corrects: correcting.version }),
    }
    try {
      const { entries } = await recorder.mutateAsync([fact])
      form.clear()
      const written = entries.at(-1)
      if (written !== undefined) props.onSaved(written)
    } catch (error) {
      // The mutation keeps the error for the banner; here its sentences go to their boxes.
      form.refuse(troubleOf(error).fields)
    }
  }
  const mayNot = useMayNot(kind, correcting === undefined ? 'write first' : (correcting.act ?? 'correct own'))
  const panel = live?.(form)
  return (
    <form
      ref={box}
      noValidate
      onSubmit={save}
      className={panel === undefined ? classes.form : classes.formWithLive}
    >
      <div className={classes.left}>
        {props.note}
        <EntryFields form={form} />
        {correcting !== undefined && <ReasonBox form={form} />}
        {form.tried && <ProblemList formId={kind} problems={form.problems} />}
        {mayNot !== null && recorder.error === null && <Note tone="act">{mayNot}</Note>}
        {recorder.error !== null && <Banner trouble={saveTrouble(recorder.error)} />}
        <div className={classes.submit}>
          <Button type="submit" size="lg" loading={recorder.isPending}>
            {props.saveLabel ?? (correcting === undefined ? words.form.save : words.form.saveCorrection)}
          </Button>
          {form.draft.changed && (
            <>
              <Button variant="subtle" onClick={form.clear}>
                {words.form.clearForm}
              </Button>
              <span className={classes.optional}>{words.form.kept}</span>
            </>
          )}
        </div>
      </div>
      {panel !== undefined && <div className={classes.right}>{panel}</div>}
    </form>
  )
}

function ReasonBox({ form }: { form: Form }) {
  return (
    <Textarea
      id={boxId(form.kind, 'reason')}
      label={words.form.reason}
      description={words.form.reasonHelp}
      error={form.setting.errors.reason}
      autosize
      minRows={2}
      value={form.draft.reason}
      onChange={(event) => form.change({ reason: event.currentTarget.value })}
      onBlur={() => form.setting.onTouched('reason')}
    />
  )
}

function saveTrouble(error: unknown): Trouble {
  return error instanceof NobodyWrites ? { banner: words.trouble.nobodyWrites, fields: {} } : troubleOf(error)
}

function focusFirstWrong(form: HTMLFormElement | null): void {
  form?.querySelector<HTMLElement>('[aria-invalid="true"], [data-wrong]')?.focus()
}
