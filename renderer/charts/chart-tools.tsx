import { Button } from '@mantine/core'
import { type RefObject, useState } from 'react'
import { chartsWords as words } from '../app/words/charts.ts'
import { Banner } from '../parts/banner.tsx'
import classes from './charts.module.css'
import { saveCsv, savePng } from './save.ts'
import type { ChartTable } from './table.ts'

interface ChartToolsProps {
  title: string
  /** What is drawn; all its pictures are saved as one. */
  stage: RefObject<HTMLElement | null>
  /** What is saved as CSV: every reading, not the thinned ones. Asked for when it is needed. */
  tables: () => ChartTable[]
  asTable: boolean
  onAsTable: (asTable: boolean) => void
}

/** Every chart can be read as a table and saved as a picture and as a table. */
export function ChartTools({ title, stage, tables, asTable, onAsTable }: ChartToolsProps) {
  const [failed, setFailed] = useState(false)
  const picture = async () => {
    setFailed(false)
    try {
      if (stage.current !== null) await savePng(stage.current, title)
    } catch (cause) {
      console.error('The picture of the chart could not be made:', cause)
      setFailed(true)
    }
  }
  return (
    <>
      <div className={classes.tools}>
        <Button variant="default" size="sm" aria-pressed={asTable} onClick={() => onAsTable(!asTable)}>
          {asTable ? words.asChart : words.asTable}
        </Button>
        {!asTable && (
          <Button variant="default" size="sm" onClick={() => void picture()}>
            {words.savePng}
          </Button>
        )}
        <Button variant="default" size="sm" onClick={() => tables().forEach(saveCsv)}>
          {words.saveCsv}
        </Button>
      </div>
      {failed && <Banner trouble={{ banner: words.pictureFailed, fields: {} }} />}
    </>
  )
}
