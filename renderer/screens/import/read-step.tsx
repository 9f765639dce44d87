import { Button } from '@mantine/core'
import { useMutation } from '@tanstack/react-query'
import { useEffect, useState } from 'react'
import { Link } from 'wouter'
import type { LoggerPreview, LoggerReading } from '#model/contract/index.ts'
import type { BayId, PersonId } from '#model/record/ids.ts'
import { client } from '../../app/client.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { troubleOf } from '../../app/trouble.ts'
import { words } from '../../app/words.ts'
import { Banner, Note } from '../../parts/banner.tsx'
import { Section } from '../../parts/page.tsx'
import { momentText } from '../../parts/site-time.ts'
import { CheckReport } from './check-report.tsx'
import { ColumnsTable } from './columns-table.tsx'
import { CommitStep } from './commit-step.tsx'
import { cutLines } from './cut-lines.ts'
import classes from './import.module.css'
import { ReadingBoxes } from './reading-boxes.tsx'

const say = words.imports

interface ReadStepProps {
  bay: BayId
  writer: PersonId
  file: File
  preview: LoggerPreview
}

/** How the file is read: everything guessed is shown and can be changed; then every row is checked. */
export function ReadStep({ bay, writer, file, preview }: ReadStepProps) {
  const { zone, nameOf } = useJob()
  const [reading, setReading] = useState<LoggerReading>(preview.guess ?? plainReading(zone))
  const lines = useLines(file, preview, reading)
  const check = useMutation({
    mutationFn: (wanted: LoggerReading) =>
      client.imports.check({ upload: preview.upload, bay, reading: wanted }),
  })
  const change = (next: LoggerReading) => {
    setReading(next)
    check.reset()
  }
  const already = preview.alreadyRead
  return (
    <>
      {already !== null && (
        <Note tone="act">
          <p role="status">
            {say.already(nameOf(already.bay), momentText(Date.parse(already.at), zone))}{' '}
            <Link href={paths.entry(already.entry)}>{say.alreadyShow}</Link>
          </p>
        </Note>
      )}
      <Section title={say.reading}>
        <p className={classes.soft}>{preview.trouble ?? say.readingLead}</p>
        {preview.questions.map(({ sentence }) => (
          <Note key={sentence} tone="act">
            {sentence}
          </Note>
        ))}
        <ReadingBoxes reading={reading} columns={columnNames(lines, reading)} onChange={change} />
        <ColumnsTable reading={reading} lines={lines} onChange={change} />
        <Button size="lg" mt="lg" onClick={() => check.mutate(reading)} loading={check.isPending}>
          {say.check}
        </Button>
        {check.error !== null && <Banner trouble={troubleOf(check.error)} />}
      </Section>
      {check.data !== undefined && (
        <Section title={say.checked}>
          <CheckReport check={check.data} reading={reading} header={columnNames(lines, reading)} />
          <CommitStep
            bay={bay}
            writer={writer}
            upload={preview.upload}
            reading={reading}
            check={check.data}
          />
        </Section>
      )}
    </>
  )
}

/** The first lines as the host cut them; cut again here while encoding or separator differ from its guess. */
function useLines(file: File, preview: LoggerPreview, reading: LoggerReading): string[][] {
  const { guess } = preview
  const same = guess?.encoding === reading.encoding && guess.separator === reading.separator
  const [own, setOwn] = useState<string[][]>([])
  useEffect(() => {
    if (same) return
    let current = true
    void cutLines(file, reading.encoding, reading.separator).then((lines) => {
      if (current) setOwn(lines)
    })
    return () => {
      current = false
    }
  }, [file, same, reading.encoding, reading.separator])
  return same ? preview.firstLines : own
}

function columnNames(lines: string[][], { headerRows }: LoggerReading): string[] {
  const widest = Math.max(0, ...lines.map((line) => line.length))
  const header = headerRows === 0 ? [] : (lines[headerRows - 1] ?? [])
  return Array.from({ length: widest }, (_, i) => say.columnName(i + 1, header[i]?.trim() ?? ''))
}

/** Where nothing could be guessed the person begins with the plainest reading. */
function plainReading(zone: string): LoggerReading {
  return {
    encoding: 'utf-8',
    separator: ',',
    decimal: '.',
    headerRows: 1,
    dateColumn: 0,
    timeColumn: null,
    dateOrder: 'iso',
    timeZone: zone,
    columns: [{ index: 1, quantity: 'airC', unit: '°C' }],
  }
}
