import { Button } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import type { RequirementId } from '#model/audit/index.ts'
import type { BayId } from '#model/record/ids.ts'
import { orpc } from '../../../app/client.ts'
import { troubleOf } from '../../../app/trouble.ts'
import { words } from '../../../app/words.ts'
import { Banner } from '../../../parts/banner.tsx'
import { Waiting } from '../../../parts/waiting.tsx'
import { AnswerSheet } from '../answer-sheet.tsx'
import classes from './matrix.module.css'

interface CellSheetProps {
  bay: string
  id: RequirementId
  onClose: () => void
}

/** The reason of one cell, fetched with its bay. */
export function CellSheet({ bay, id, onClose }: CellSheetProps) {
  const { data, error, isPending } = useQuery(orpc.audit.bay.queryOptions({ input: { bay: bay as BayId } }))
  const answer = data?.answers.find((one) => one.id === id)
  return (
    <div className={classes.sheet}>
      {isPending && <Waiting />}
      {error !== null && <Banner trouble={troubleOf(error)} />}
      {data !== undefined && answer !== undefined && (
        <AnswerSheet bay={bay} answer={answer} entries={data.entries} />
      )}
      <div>
        <Button variant="subtle" onClick={onClose}>
          {words.audit.detail.close}
        </Button>
      </div>
    </div>
  )
}
