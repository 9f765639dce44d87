import { Button, Textarea } from '@mantine/core'
import { type FormEvent, useState } from 'react'
import type { WayId } from '#model/drying/what-if/shapes.ts'
import { roleProblem, rolesInForce } from '#model/people/index.ts'
import type { BayId } from '#model/record/ids.ts'
import { type Protection, protections } from '#model/record/words.ts'
import { nowMs } from '../../app/clock.ts'
import { newId } from '../../app/ids.ts'
import { useJob } from '../../app/job.tsx'
import { useRecorder } from '../../app/recorder.ts'
import { troubleOf } from '../../app/trouble.ts'
import { useCompany } from '../../app/use-company.ts'
import { waysWords } from '../../app/words/ways.ts'
import { useWriter } from '../../app/writer.ts'
import { Banner, Note } from '../../parts/banner.tsx'
import { Section } from '../../parts/page.tsx'
import { Segmented } from '../../parts/segmented.tsx'
import { siteIso } from '../../parts/site-time.ts'
import classes from './ways.module.css'

const words = waysWords.note

/** What is put into the room on each way. Waiting needs nothing, and a heated floor is written down as it runs. */
const putThere: Record<WayId, readonly Protection[]> = {
  wait: [],
  ventilate: ['fan'],
  heat: ['electric heater'],
  'heat and ventilate': ['electric heater', 'fan'],
  dehumidify: ['dehumidifier'],
  'heat and dehumidify': ['dehumidifier', 'electric heater'],
  'floor heating': [],
}

export const plannableWays = (Object.keys(putThere) as WayId[]).filter((way) => putThere[way].length > 0)

interface NoteWayProps {
  way: WayId
  bays: readonly BayId[]
  /** The numbers of the way in a sentence; can be changed before it is written. */
  text: string
  onDone: () => void
}

/** Writes down that a way was chosen: what is to be put there, planned, with the numbers it was chosen for. */
export function NoteWay({ way, bays, text, onDone }: NoteWayProps) {
  const { zone, nameOf } = useJob()
  const writer = useWriter()
  const recorder = useRecorder()
  const [note, setNote] = useState(text)
  const [heater, setHeater] = useState<'electric heater' | 'flued heater'>('electric heater')
  const mayNot = useMayNot()
  const put = putThere[way].map((what) => (what === 'electric heater' ? heater : what))
  // Kept until the answer came, so that pressing twice writes once.
  const [ids] = useState(() => new Map<string, ReturnType<typeof newId<'entry'>>>())
  const idFor = (key: string) => {
    const id = ids.get(key) ?? newId<'entry'>()
    ids.set(key, id)
    return id
  }
  const save = (event: FormEvent) => {
    event.preventDefault()
    const happenedAt = siteIso(nowMs(), zone)
    recorder.mutate(
      bays.flatMap((bay) =>
        put.map((what) => ({
          id: idFor(`${bay} ${what}`),
          kind: 'protection-on' as const,
          subject: bay,
          happenedAt,
          body: { what, planned: true, ...(note.trim() !== '' && { note: note.trim() }) },
        })),
      ),
      { onSuccess: onDone },
    )
  }
  return (
    <Section title={words.title(waysWords.names[way])}>
      <form className={classes.noteForm} onSubmit={save} noValidate>
        <p>{words.lead(put.map((what) => protections[what]).join(', '), bays.map(nameOf).join(', '))}</p>
        {put.includes(heater) && (
          <Segmented
            label={words.what}
            options={{
              'electric heater': protections['electric heater'],
              'flued heater': protections['flued heater'],
            }}
            value={heater}
            onChange={(next) => setHeater(next === 'flued heater' ? 'flued heater' : 'electric heater')}
          />
        )}
        <Textarea
          label={words.text}
          autosize
          minRows={2}
          data-autofocus
          value={note}
          onChange={(event) => setNote(event.currentTarget.value)}
        />
        {mayNot !== null && <Note tone="act">{mayNot}</Note>}
        {recorder.error !== null && <Banner trouble={troubleOf(recorder.error)} />}
        <div className={classes.buttons}>
          <Button type="submit" disabled={writer === null} loading={recorder.isPending}>
            {words.save}
          </Button>
          <Button variant="default" onClick={onDone}>
            {words.cancel}
          </Button>
          {writer === null && <p className={classes.soft}>{words.nobody}</p>}
        </div>
      </form>
    </Section>
  )
}

/** Why the one who writes may not plan it, told before they try; the host says the same. */
function useMayNot(): string | null {
  const writer = useWriter()
  const company = useCompany()
  if (writer === null || company === null) return null
  return roleProblem({ kind: 'protection-on', act: 'write first', body: {} }, rolesInForce(writer, company))
}
