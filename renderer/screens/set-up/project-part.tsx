import { Button } from '@mantine/core'
import { Link } from 'wouter'
import { kinds } from '#model/record/kinds.ts'
import { ruleSets } from '#model/rules/index.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { words } from '../../app/words.ts'
import { BodyList } from '../../parts/body-list.tsx'
import { HoldPointChoice } from './hold-point-choice.tsx'
import classes from './set-up.module.css'

const { choices: _, overrides: __, holdPoints: ___, ...shown } = kinds['project-opened'].fields

export function ProjectPart() {
  const { outline } = useJob()
  const { id, body } = outline.project
  const set = ruleSets[body.ruleSet]
  return (
    <>
      <div className={classes.facts}>
        <BodyList fields={shown} body={body} />
        <p className={classes.cautionLine}>{words.setUp.project.version(set.name, set.version)}</p>
        <Button component={Link} href={paths.correct(id)} variant="default" mt="md">
          {words.setUp.change}
        </Button>
      </div>
      <HoldPointChoice />
    </>
  )
}
