import { Button } from '@mantine/core'
import { useMutation } from '@tanstack/react-query'
import { words } from '../../app/words.ts'
import { handOut } from '../../charts/save.ts'
import { Banner } from '../../parts/banner.tsx'
import { Section } from '../../parts/page.tsx'
import classes from './bundle.module.css'

const say = words.bundle.verifier
const types = { 'verify.mjs': 'text/javascript', 'verify.html': 'text/html' } as const
type Part = keyof typeof types

/** Hands out the verifier of this build. */
export function Verifier() {
  const save = useMutation({
    mutationFn: verifierPart,
    onSuccess: (text, name) => handOut(new Blob([text], { type: types[name] }), name),
  })
  return (
    <Section title={say.title}>
      <div className={classes.form}>
        <p>{say.lead}</p>
        <div className={classes.actions}>
          <Button variant="default" onClick={() => save.mutate('verify.html')}>
            {say.page}
          </Button>
          <Button variant="default" onClick={() => save.mutate('verify.mjs')}>
            {say.program}
          </Button>
        </div>
        {save.error !== null && <Banner trouble={{ banner: say.none, fields: {} }} />}
      </div>
    </Section>
  )
}

/** It is built beside the pages, and served by either host like them. */
async function verifierPart(name: Part): Promise<string> {
  const answer = await fetch('/verifier.json')
  const parts: unknown = answer.ok ? await answer.json() : null
  const text =
    typeof parts === 'object' && parts !== null ? (parts as Partial<Record<Part, string>>)[name] : undefined
  if (text === undefined) throw new Error(say.none)
  return text
}
