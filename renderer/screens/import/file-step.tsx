import { Button, FileButton, Progress } from '@mantine/core'
import { useMutation } from '@tanstack/react-query'
import { type DragEvent, useState } from 'react'
import type { LoggerPreview } from '#model/contract/index.ts'
import type { BayId } from '#model/record/ids.ts'
import { client, uploadFile } from '../../app/client.ts'
import { troubleOf } from '../../app/trouble.ts'
import { words } from '../../app/words.ts'
import { sizeText } from '../../parts/backup-list.tsx'
import { Banner } from '../../parts/banner.tsx'
import { Section } from '../../parts/page.tsx'
import classes from './import.module.css'

const say = words.imports

interface FileStepProps {
  bay: BayId
  onRead: (chosen: { file: File; preview: LoggerPreview }) => void
}

/** Chooses the file, sends it to the host, and has it looked at. Nothing is written by this. */
export function FileStep({ bay, onRead }: FileStepProps) {
  const [sent, setSent] = useState(0)
  const look = useMutation({
    mutationFn: async (file: File) => {
      setSent(0)
      const upload = await uploadFile(file, setSent)
      return { file, preview: await client.imports.preview({ upload, bay }) }
    },
    onSuccess: onRead,
  })
  const drop = (event: DragEvent) => {
    event.preventDefault()
    const file = event.dataTransfer.files[0]
    if (file !== undefined) look.mutate(file)
  }
  return (
    <Section title={say.file}>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: dropping is an extra way; the button beside it does the same */}
      <div className={classes.drop} onDragOver={(event) => event.preventDefault()} onDrop={drop}>
        <FileButton
          accept=".csv,.txt,.tsv,.dat,.log,text/*"
          onChange={(file) => file !== null && look.mutate(file)}
        >
          {(props) => (
            <Button {...props} size="lg" loading={look.isPending}>
              {say.choose}
            </Button>
          )}
        </FileButton>
        <p>
          {look.data === undefined
            ? say.drop
            : say.chosen(look.data.file.name, sizeText(look.data.file.size))}
        </p>
      </div>
      {look.isPending && <Progress value={100 * sent} aria-label={say.sending} mt="sm" />}
      {look.error !== null && <Banner trouble={troubleOf(look.error)} />}
    </Section>
  )
}
