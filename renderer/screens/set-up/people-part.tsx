import { roles } from '#model/record/people.ts'
import { useJob } from '../../app/job.tsx'
import { words } from '../../app/words.ts'
import { ThingCard, ThingList } from './thing-list.tsx'

export function PeoplePart({ thing }: { thing?: string }) {
  const { people } = useJob().outline
  return (
    <ThingList
      part="people"
      kind="person-added"
      adding={thing === 'new'}
      addWord={words.setUp.people.add}
      saveWord={words.setUp.people.save}
    >
      {people.map(({ id, body }) => (
        <ThingCard
          key={id}
          id={id}
          title={body.name}
          line={[roles[body.role], body.firm].filter(Boolean).join(', ')}
        />
      ))}
    </ThingList>
  )
}
