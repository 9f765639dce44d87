import { Button, Modal } from '@mantine/core'
import { useMutation, useQueryClient } from '@tanstack/react-query'
import { type FormEvent, type ReactNode, useState } from 'react'
import type { PersonId } from '#model/record/ids.ts'
import { Banner } from '../parts/banner.tsx'
import { client, orpc } from './client.ts'
import { useJob } from './job.tsx'
import type { PinAsk } from './pin-ask.ts'
import { PinBox, useFreshPin } from './pin-box.tsx'
import classes from './pin-dialog.module.css'
import { type Trouble, troubleOf } from './trouble.ts'
import { peopleWords } from './words/people.ts'

const words = peopleWords.dialog

/** Asks for the PIN that a signature needs. It stands over every page, since every page can sign. */
export default function PinDialog({ ask }: { ask: PinAsk }) {
  const { nameOf } = useJob()
  const name = nameOf(ask.person)
  const title = ask.what === 'prove' ? words.title(name) : words.setTitle(name)
  return (
    <Modal opened onClose={() => ask.answer(false)} title={title} size="md">
      {ask.what === 'prove' ? (
        <ProveForm key={ask.person} ask={ask} />
      ) : (
        <FirstForm key={ask.person} ask={ask} />
      )}
    </Modal>
  )
}

function ProveForm({ ask }: { ask: PinAsk }) {
  const queries = useQueryClient()
  const [pin, setPin] = useState('')
  const prove = useMutation({
    mutationFn: () => client.people.prove({ person: ask.person as PersonId, pin }),
    onSuccess: () => ask.answer(true),
    onSettled: () => {
      setPin('')
      return queries.invalidateQueries({ queryKey: orpc.people.key() })
    },
  })
  return (
    <PinForm
      lead={words.lead}
      onSubmit={() => prove.mutate()}
      trouble={prove.error === null ? null : troubleOf(prove.error)}
      action={words.prove}
      busy={prove.isPending}
      ready={pin !== ''}
      onClose={() => ask.answer(false)}
    >
      <PinBox label={words.pin} value={pin} onChange={setPin} focused />
    </PinForm>
  )
}

function FirstForm({ ask }: { ask: PinAsk }) {
  const queries = useQueryClient()
  const fresh = useFreshPin()
  const set = useMutation({
    mutationFn: () => client.people.setPin({ person: ask.person as PersonId, pin: fresh.pin }),
    onSuccess: () => ask.answer(true),
    onSettled: () => queries.invalidateQueries({ queryKey: orpc.people.key() }),
  })
  return (
    <PinForm
      lead={words.setLead}
      onSubmit={() => fresh.check() && set.mutate()}
      trouble={set.error === null ? null : troubleOf(set.error)}
      action={words.setAndSign}
      busy={set.isPending}
      ready
      onClose={() => ask.answer(false)}
    >
      {fresh.boxes(true)}
    </PinForm>
  )
}

interface PinFormProps {
  lead: string
  onSubmit: () => void
  trouble: Trouble | null
  action: string
  busy: boolean
  ready: boolean
  onClose: () => void
  children: ReactNode
}

/** The frame of every form that asks for a PIN. */
export function PinForm({ lead, onSubmit, trouble, action, busy, ready, onClose, children }: PinFormProps) {
  const submit = (event: FormEvent) => {
    event.preventDefault()
    // The dialog stands in the page of another form by React's tree: its submit is not that form's.
    event.stopPropagation()
    if (ready && !busy) onSubmit()
  }
  return (
    <form className={classes.form} onSubmit={submit} noValidate>
      <p>{lead}</p>
      {children}
      {trouble !== null && <Banner trouble={trouble} />}
      <div className={classes.actions}>
        <Button type="submit" size="lg" loading={busy} disabled={!ready}>
          {action}
        </Button>
        <Button variant="subtle" size="lg" onClick={onClose}>
          {words.notNow}
        </Button>
      </div>
    </form>
  )
}
