import type { Field } from '#model/record/fields.ts'
import { words } from '../../app/words.ts'
import classes from './entry-form.module.css'

/** The field's name; what may stay open says so. */
export function BoxLabel({ field }: { field: Field }) {
  return (
    <>
      {field.label}
      {!field.required && <span className={classes.optional}> {words.form.optional}</span>}
    </>
  )
}
