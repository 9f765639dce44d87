import { Button } from '@mantine/core'
import { useState } from 'react'
import { type Company, rolesInForce } from '#model/people/index.ts'
import type { PersonId } from '#model/record/ids.ts'
import { roles } from '#model/record/people.ts'
import { useJob } from '../../app/job.tsx'
import { troubleOf } from '../../app/trouble.ts'
import { useCompany } from '../../app/use-company.ts'
import { standingOf, usePins } from '../../app/use-pins.ts'
import { peopleWords } from '../../app/words/people.ts'
import { words as allWords } from '../../app/words.ts'
import { Banner, Note } from '../../parts/banner.tsx'
import classes from './people.module.css'
import { PinState } from './pin-state.tsx'
import { RoleMay } from './role-may.tsx'
import { SetPinDialog } from './set-pin-dialog.tsx'
import { ThingCard, ThingList } from './thing-list.tsx'

const words = peopleWords.part

/** Everybody of the project: their role, what it lets them do, and how it stands with their PIN. */
export function PeoplePart({ thing }: { thing?: string }) {
  const { outline } = useJob()
  const { sheet, error } = usePins()
  const [setting, setSetting] = useState<PersonId | null>(null)
  const company = useCompany()
  return (
    <ThingList
      part="people"
      kind="person-added"
      adding={thing === 'new'}
      addWord={allWords.setUp.people.add}
      saveWord={allWords.setUp.people.save}
      lead={
        <div className={classes.lead}>
          {error !== null && <Banner trouble={troubleOf(error)} />}
          {sheet !== undefined && (
            <Note tone={sheet.binds ? 'plain' : 'act'}>{sheet.binds ? words.bound : words.unbound}</Note>
          )}
          <Note>{words.limits}</Note>
        </div>
      }
    >
      {outline.people.map(({ id, body }) => {
        const standing = standingOf(sheet, id)
        return (
          <ThingCard
            key={id}
            id={id}
            title={body.name}
            line={[roles[body.role], body.firm].filter(Boolean).join(', ')}
            below={
              <>
                {company !== null && <StandsIn person={id} company={company} />}
                <RoleMay role={body.role} />
              </>
            }
          >
            {standing !== null && <PinState standing={standing} />}
            {standing !== null && (
              <Button variant={standing.isSet ? 'default' : 'light'} onClick={() => setSetting(id)}>
                {standing.isSet ? words.change : words.setFirst}
              </Button>
            )}
          </ThingCard>
        )
      })}
      {setting !== null && company !== null && (
        <SetPinDialog
          person={setting}
          isSet={standingOf(sheet, setting)?.isSet === true}
          company={company}
          onClose={() => setSetting(null)}
        />
      )}
    </ThingList>
  )
}

/** Why somebody may do more than their role says: only while a project is being opened. */
function StandsIn({ person, company }: { person: string; company: Company }) {
  const found = company.people.find(({ id }) => id === person)
  if (company.people.length === 1) return <Note>{words.alone}</Note>
  if (found === undefined || rolesInForce(person, company).length < 2) return null
  return <Note>{words.standsIn}</Note>
}
