import { useLocation, useParams } from 'wouter'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { ActionLink } from '../../app/shell.tsx'
import { floorsWords as words } from '../../app/words/floors.ts'
import { Empty, Page } from '../../parts/page.tsx'
import { Segmented } from '../../parts/segmented.tsx'
import { FloorSheet } from './floor-sheet.tsx'

/** The plan of each floor: see every bay, pick one, draw one. */
export default function FloorsScreen() {
  const { outline } = useJob()
  const { floor: wanted } = useParams<{ floor?: string }>()
  const [, go] = useLocation()
  const floors = outline.floors.toSorted((a, b) => a.body.level - b.body.level)
  const floor = floors.find(({ id }) => id === wanted) ?? floors[0]
  if (floor === undefined) {
    return (
      <Page title={words.title}>
        <Empty
          title={words.none.title}
          action={<ActionLink href={paths.setUpPart('places')}>{words.none.act}</ActionLink>}
        >
          {words.none.lead}
        </Empty>
      </Page>
    )
  }
  return (
    <Page
      title={words.title}
      lead={words.lead}
      actions={
        floors.length > 1 && (
          <Segmented
            label={words.pick}
            hideLabel
            options={Object.fromEntries(floors.map(({ id, body }) => [id, body.name]))}
            value={floor.id}
            onChange={(id) => go(paths.floor(id))}
          />
        )
      }
    >
      <FloorSheet key={floor.id} floor={floor} />
    </Page>
  )
}
