import { Button } from '@mantine/core'
import { useState } from 'react'
import type { FieldSet } from '#model/record/fields.ts'
import { words } from '../../app/words.ts'
import classes from './entry-form.module.css'
import { FieldBox } from './field-box.tsx'
import { FormProvider } from './form-context.tsx'
import { InstantBox } from './instant-box.tsx'
import { ownBoxes } from './own-boxes.ts'
import { type EntryForm, whenField } from './use-entry-form.ts'

/** All boxes of a form: what is needed first, what is good to know behind "More". */
export function EntryFields({ form }: { form: EntryForm }) {
  const { asking, draft } = form
  const [opened, setOpened] = useState(() =>
    Object.keys(form.more).some((name) => draft.values[name] !== undefined),
  )
  const asksWhen = asking.when === 'ask' && (asking.asksWhen?.(draft.values) ?? true)
  return (
    <FormProvider value={form.setting}>
      <div className={classes.fields}>
        {asksWhen && (
          <div className={classes.wide}>
            <InstantBox
              path="happenedAt"
              field={whenField(asking)}
              value={draft.happened}
              onChange={(happened) => form.change({ happened })}
            />
          </div>
        )}
        <Boxes fields={form.first} form={form} />
        {Object.keys(form.more).length > 0 && (
          <div className={classes.wide}>
            <Button variant="subtle" aria-expanded={opened} onClick={() => setOpened(!opened)}>
              {opened ? words.form.fewer : words.form.more}
            </Button>
          </div>
        )}
        {opened && <Boxes fields={form.more} form={form} />}
      </div>
    </FormProvider>
  )
}

interface BoxesProps {
  fields: FieldSet
  form: EntryForm
}

function Boxes({ fields, form }: BoxesProps) {
  const own = ownBoxes[form.kind] ?? {}
  return Object.entries(fields).map(([name, field]) => {
    const Box = own[name] ?? FieldBox
    const width = widthOf(field)
    return (
      <div key={name} className={classes[width]}>
        <Box
          path={name}
          field={field}
          value={form.draft.values[name]}
          quick={form.asking.quick?.[name]}
          onChange={(value) => form.setValue(name, value)}
        />
      </div>
    )
  })
}

/** Longest words that a list of one column, and of two, shows whole [characters]. */
const mostShown = { narrow: 22, broad: 48 } as const

function widthOf({ input, options }: FieldSet[string]): 'narrow' | 'broad' | 'wide' {
  if (['number', 'text', 'day', 'reference'].includes(input)) return 'narrow'
  const texts = Object.values(options ?? {})
  if (input !== 'choice' || texts.length <= 5) return 'wide'
  const longest = Math.max(...texts.map((text) => text.length))
  if (longest <= mostShown.narrow) return 'narrow'
  return longest <= mostShown.broad ? 'broad' : 'wide'
}
