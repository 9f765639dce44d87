import { Button, Modal, Textarea, TextInput } from '@mantine/core'
import { useState } from 'react'
import { type ListedRule, limitText } from '#model/rules/index.ts'
import { words } from '../../app/words.ts'
import { Banner } from '../../parts/banner.tsx'
import { numberFromTyped, numberText } from '../../parts/number-text.ts'
import classes from './set-up.module.css'
import type { ProjectChange } from './use-project-change.ts'

const say = words.setUp.rules

interface OwnValueProps {
  rule: ListedRule
  change: ProjectChange
}

/** Sets a project's own value for a rule. It needs a reason: a limit without one cannot be defended. */
export function OwnValueButton(props: OwnValueProps) {
  const [opened, setOpened] = useState(false)
  const { rule } = props
  return (
    <>
      <Button variant="default" aria-label={say.changeOf(rule.question)} onClick={() => setOpened(true)}>
        {say.change}
      </Button>
      <Modal opened={opened} onClose={() => setOpened(false)} title={say.change} size="lg">
        {opened && <OwnValueForm {...props} onDone={() => setOpened(false)} />}
      </Modal>
    </>
  )
}

function OwnValueForm({ rule, change, onDone }: OwnValueProps & { onDone: () => void }) {
  const [typed, setTyped] = useState('')
  const [reason, setReason] = useState('')
  const [tried, setTried] = useState(false)
  const [least, most] = [numberText(rule.range[0], 4), numberText(rule.range[1], 4)]
  const read = numberFromTyped(typed)
  const value =
    read.kind === 'number' && read.value >= rule.range[0] && read.value <= rule.range[1] ? read.value : null
  const save = async () => {
    setTried(true)
    if (value === null || reason.trim() === '') return
    const others = (change.body.overrides ?? []).filter((one) => one.rule !== rule.id)
    const overrides = [...others, { rule: rule.id, value, reason: reason.trim() }]
    await change
      .save({ overrides }, say.overrideReason(rule.question, reason.trim()))
      .then(onDone, () => undefined)
  }
  return (
    <div className={classes.form}>
      <p>
        {rule.question} <strong>{limitText(rule.limit)}</strong>
      </p>
      <TextInput
        label={`${say.value}${rule.limit.unit === '' ? '' : `, ${rule.limit.unit}`}`}
        description={say.range(least, most, rule.limit.unit)}
        error={tried && value === null ? say.outside(least, most, rule.limit.unit) : undefined}
        inputMode="decimal"
        data-autofocus
        value={typed}
        onChange={(event) => setTyped(event.currentTarget.value)}
      />
      <Textarea
        label={say.reason}
        description={say.reasonHelp}
        error={tried && reason.trim() === '' ? say.needReason : undefined}
        autosize
        minRows={2}
        value={reason}
        onChange={(event) => setReason(event.currentTarget.value)}
      />
      {change.trouble !== null && <Banner trouble={change.trouble} />}
      <Button onClick={save} loading={change.isSaving}>
        {say.save}
      </Button>
    </div>
  )
}

/** Goes back to the rule set's value. The own value stays in the history of the project. */
export function TakeBackButton({ rule, change }: OwnValueProps) {
  const takeBack = () => {
    const overrides = (change.body.overrides ?? []).filter((one) => one.rule !== rule.id)
    void change.save({ overrides }, say.overrideReason(rule.question, say.takenBack)).catch(() => undefined)
  }
  return (
    <Button variant="subtle" onClick={takeBack} loading={change.isSaving}>
      {say.back}
    </Button>
  )
}
