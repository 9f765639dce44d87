import { TextInput } from '@mantine/core'
import { useState } from 'react'
import { type ListedRule, limitText, listRules, rulesOfProject } from '#model/rules/index.ts'
import { useJob } from '../../app/job.tsx'
import { words } from '../../app/words.ts'
import { Banner } from '../../parts/banner.tsx'
import { Waiting } from '../../parts/waiting.tsx'
import { OwnValueButton, TakeBackButton } from './own-value.tsx'
import { RuleChoices } from './rule-choices.tsx'
import classes from './set-up.module.css'
import { TuningList } from './tuning-list.tsx'
import { type ProjectChange, useProjectChange } from './use-project-change.ts'

const say = words.setUp.rules

/** Every rule in force with its value, source and provenance; choices and own values are changed here, with a reason. */
export function RulesPart() {
  const { outline } = useJob()
  const change = useProjectChange()
  const [wanted, setWanted] = useState('')
  const rules = listRules(rulesOfProject(outline.project.body)).filter((rule) => holds(rule, wanted))
  const groups = [...new Set(rules.map(({ group }) => group))]
  if (change.isPending) return <Waiting />
  return (
    <>
      {change.trouble !== null && <Banner trouble={change.trouble} />}
      <TuningList />
      <RuleChoices change={change} />
      <TextInput
        label={say.filter}
        maw="28rem"
        value={wanted}
        onChange={(event) => setWanted(event.currentTarget.value)}
      />
      {groups.length === 0 && <p className={classes.cautionLine}>{say.none}</p>}
      {groups.map((group) => (
        <table key={group} className={classes.rules}>
          <caption>{group}</caption>
          <thead>
            <tr>
              <th scope="col">{say.question}</th>
              <th scope="col">{say.value}</th>
              <th scope="col">{say.source}</th>
              <th scope="col">
                <span className={classes.unseen}>{words.setUp.change}</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {rules
              .filter((rule) => rule.group === group)
              .map((rule) => (
                <RuleLine key={rule.id} rule={rule} change={change} />
              ))}
          </tbody>
        </table>
      ))}
    </>
  )
}

function RuleLine({ rule, change }: { rule: ListedRule; change: ProjectChange }) {
  const { limit, overridden } = rule
  return (
    <tr data-own={overridden || undefined}>
      <td>{rule.question}</td>
      <td className={classes.value}>{limitText(limit)}</td>
      <td className={classes.source}>
        {[limit.source, limit.edition, limit.clause].filter(Boolean).join(', ')} · {limit.provenance}
        {limit.reason !== undefined && (
          <>
            <br />
            {say.because(limit.reason)}
          </>
        )}
      </td>
      <td className={classes.cardActions}>
        <OwnValueButton rule={rule} change={change} />
        {overridden && <TakeBackButton rule={rule} change={change} />}
      </td>
    </tr>
  )
}

function holds({ question, group, limit }: ListedRule, wanted: string): boolean {
  const text = `${question} ${group} ${limit.source} ${limit.unit}`.toLowerCase()
  return wanted
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word))
}
