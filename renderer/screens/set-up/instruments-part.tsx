import { Button } from '@mantine/core'
import { Link } from 'wouter'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { words } from '../../app/words.ts'
import { Mark } from '../../parts/mark.tsx'
import { Empty } from '../../parts/page.tsx'
import { calendarDayText, momentText, siteDay } from '../../parts/site-time.ts'
import { ThingCard, ThingList } from './thing-list.tsx'

export function InstrumentsPart({ thing }: { thing?: string }) {
  const { outline, nameOf, zone } = useJob()
  const now = useNow()
  const checkedLine = (at: string | null, passed: boolean | null) =>
    at === null
      ? words.setUp.instruments.never
      : words.setUp.instruments.checked(momentText(Date.parse(at), zone, now), passed)
  return (
    <ThingList
      part="instruments"
      kind="instrument-added"
      adding={thing === 'new'}
      addWord={words.setUp.instruments.add}
      saveWord={words.setUp.instruments.save}
    >
      {outline.instruments.length === 0 && (
        <Empty title={words.setUp.instruments.emptyTitle}>{words.setUp.instruments.empty}</Empty>
      )}
      {outline.instruments.map(({ id, body, lastCheckedAt, lastCheckPassed }) => (
        <ThingCard
          key={id}
          id={id}
          title={nameOf(id)}
          line={[
            checkedLine(lastCheckedAt, lastCheckPassed),
            ...(body.dueOn === undefined ? [] : [words.setUp.instruments.due(calendarDayText(body.dueOn))]),
          ].join('; ')}
        >
          {lastCheckPassed === false && (
            <Mark shape="squareCross" tone="stop" word={words.setUp.instruments.failed} />
          )}
          {body.dueOn !== undefined && body.dueOn < siteDay(now, zone) && (
            <Mark shape="trianglePoint" tone="act" word={words.setUp.instruments.ranOut} />
          )}
          <Button component={Link} href={paths.recordKind('instrument-checked', id)} variant="light">
            {words.setUp.instruments.check}
          </Button>
        </ThingCard>
      ))}
    </ThingList>
  )
}
