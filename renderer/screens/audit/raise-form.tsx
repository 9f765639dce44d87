import { Button } from '@mantine/core'
import { words } from '../../app/words.ts'
import { EntryForm } from '../../parts/entry-form/entry-form.tsx'
import classes from './audit.module.css'

const say = words.audit.holds

interface RaiseFormProps {
  bay: string
  /** What it is about, such as "C7: Edge strip". */
  rule: string
  what: string
  onDone: () => void
}

/** A non-conformance, begun with what the audit found; owner and day are for the person to set. */
export function RaiseForm({ bay, rule, what, onDone }: RaiseFormProps) {
  return (
    <div className={classes.form}>
      <EntryForm
        kind="nonconformance-raised"
        subject={bay}
        draftKey={`nonconformance-raised ${bay} ${rule}`}
        start={{ rule, what }}
        saveLabel={say.saveRaise}
        onSaved={onDone}
      />
      <Button variant="subtle" onClick={onDone}>
        {say.cancel}
      </Button>
    </div>
  )
}
