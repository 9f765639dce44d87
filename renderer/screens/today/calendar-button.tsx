import { Button } from '@mantine/core'
import { useMutation } from '@tanstack/react-query'
import { client } from '../../app/client.ts'
import { useJob } from '../../app/job.tsx'
import { troubleOf } from '../../app/trouble.ts'
import { words } from '../../app/words.ts'
import { handOut } from '../../charts/save.ts'
import { fileNameFrom } from '../../charts/table.ts'
import { Banner } from '../../parts/banner.tsx'

const say = words.today.ahead

/** Saves what falls due, and when bays may be dry, as a file that calendars open. Estimates take a while to work out. */
export function CalendarButton() {
  const { id, outline } = useJob()
  const make = useMutation({
    mutationFn: () => client.reports.calendar({ project: id }),
    onSuccess: ({ text }) => {
      const name = fileNameFrom(say.fileTitle(outline.project.body.name), 'ics')
      handOut(new Blob([text], { type: 'text/calendar;charset=utf-8' }), name)
    },
  })
  return (
    <>
      <Button variant="default" onClick={() => make.mutate()} loading={make.isPending}>
        {say.calendar}
      </Button>
      {make.error !== null && <Banner trouble={troubleOf(make.error)} onRetry={() => make.mutate()} />}
    </>
  )
}
