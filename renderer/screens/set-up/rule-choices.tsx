import { Button, TextInput } from '@mantine/core'
import { useState } from 'react'
import { type Choice, type Limit, limitText, ruleSets, rulesOfProject } from '#model/rules/index.ts'
import { words } from '../../app/words.ts'
import { Section } from '../../parts/page.tsx'
import { Segmented } from '../../parts/segmented.tsx'
import classes from './set-up.module.css'
import type { ProjectChange } from './use-project-change.ts'

const say = words.setUp.rules

/** Where two sources disagree both stand in print, and the project says which one it works to. */
export function RuleChoices({ change }: { change: ProjectChange }) {
  const { choices } = ruleSets[change.body.ruleSet]
  const inForce = rulesOfProject(change.body).choices
  if (choices.length === 0) return null
  return (
    <Section title={say.choices}>
      <p className={classes.cardLine}>{say.choicesLead}</p>
      {choices.map((choice) => (
        <OneChoice
          key={choice.id}
          choice={choice}
          inForce={inForce[choice.id] ?? choice.default}
          change={change}
        />
      ))}
    </Section>
  )
}

interface OneChoiceProps {
  choice: Choice
  inForce: string
  change: ProjectChange
}

function OneChoice({ choice, inForce, change }: OneChoiceProps) {
  const [picked, setPicked] = useState<string | null>(null)
  const [reason, setReason] = useState('')
  const pending = picked !== null && picked !== inForce
  const save = () => {
    if (picked === null) return
    const others = (change.body.choices ?? []).filter(({ question }) => question !== choice.id)
    const choices = [...others, { question: choice.id, option: picked }]
    void change
      .save({ choices }, say.choiceChanged(choice.question, reason.trim()))
      .then(() => setPicked(null))
      .catch(() => undefined)
  }
  const option = choice.options.find(({ id }) => id === (picked ?? inForce))
  return (
    <div className={classes.choice}>
      <Segmented
        label={choice.question}
        options={Object.fromEntries(choice.options.map(({ id, label }) => [id, label]))}
        value={picked ?? inForce}
        onChange={setPicked}
      />
      <ul className={classes.optionLimits}>
        {limitsOf(option).map(([id, limit]) => (
          <li key={id}>
            {limitText(limit)} · {[limit.source, limit.edition].filter(Boolean).join(', ')} ·{' '}
            {limit.provenance}
          </li>
        ))}
      </ul>
      {pending && (
        <div className={classes.form}>
          <TextInput
            label={say.choiceReason}
            value={reason}
            onChange={(event) => setReason(event.currentTarget.value)}
          />
          <Button onClick={save} disabled={reason.trim() === ''} loading={change.isSaving}>
            {say.saveChoice}
          </Button>
        </div>
      )}
    </div>
  )
}

function limitsOf(option: Choice['options'][number] | undefined): [string, Limit][] {
  return Object.entries(option?.limits ?? {}).filter((pair): pair is [string, Limit] => pair[1] !== undefined)
}
