import { Button, Modal } from '@mantine/core'
import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { type Company, rolesInForce } from '#model/people/index.ts'
import type { PersonId } from '#model/record/ids.ts'
import { client } from '../../app/client.ts'
import { useJob } from '../../app/job.tsx'
import { withPin } from '../../app/pin-ask.ts'
import { PinBox, useFreshPin } from '../../app/pin-box.tsx'
import { PinForm } from '../../app/pin-dialog.tsx'
import { troubleOf } from '../../app/trouble.ts'
import { peopleWords } from '../../app/words/people.ts'
import { useWriter } from '../../app/writer.ts'

const words = peopleWords.dialog

interface SetPinDialogProps {
  person: PersonId
  isSet: boolean
  company: Company
  onClose: () => void
}

/** Sets a first PIN or changes one: by the person with the old one, or by a quality manager who signs for it. */
export function SetPinDialog({ person, isSet, company, onClose }: SetPinDialogProps) {
  const { nameOf } = useJob()
  const queries = useQueryClient()
  const writer = useWriter()
  const fresh = useFreshPin()
  const [old, setOld] = useState('')
  const mayVouch =
    writer !== null && writer !== person && rolesInForce(writer, company).includes('quality manager')
  const [vouching, setVouching] = useState(false)
  const set = useMutation({
    mutationFn: () => {
      const by = vouching && writer !== null ? { by: writer } : {}
      const knowing = isSet && !vouching ? { old } : {}
      return withPin(() => client.people.setPin({ person, pin: fresh.pin, ...by, ...knowing }))
    },
    onSuccess: onClose,
    onSettled: () => queries.invalidateQueries(),
  })
  return (
    <Modal opened onClose={onClose} title={words.setTitle(nameOf(person))} size="md">
      <PinForm
        lead={words.ownLead}
        onSubmit={() => fresh.check() && set.mutate()}
        trouble={set.error === null ? null : troubleOf(set.error)}
        action={isSet ? words.change : words.set}
        busy={set.isPending}
        ready={!isSet || vouching || old !== ''}
        onClose={onClose}
      >
        {isSet && !vouching && <PinBox label={words.old} value={old} onChange={setOld} focused />}
        {fresh.boxes(!isSet || vouching)}
        {mayVouch && (
          <Button variant="subtle" onClick={() => setVouching(!vouching)}>
            {vouching ? words.themselves : words.vouch(nameOf(writer))}
          </Button>
        )}
      </PinForm>
    </Modal>
  )
}
