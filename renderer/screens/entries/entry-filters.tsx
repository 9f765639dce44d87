import { Button, Select, TextInput } from '@mantine/core'
import { type KindName, kinds } from '#model/record/kinds.ts'
import { useJob } from '../../app/job.tsx'
import { words } from '../../app/words.ts'
import classes from './entries.module.css'
import { allKinds, type Filters, type Mark, noFilters } from './filters.ts'

const say = words.entries

interface EntryFiltersProps {
  filters: Filters
  onChange: (filters: Filters) => void
}

/** What of the record is shown: about whom, which kind, which days, which marks. */
export function EntryFilters({ filters, onChange }: EntryFiltersProps) {
  const { outline, nameOf } = useJob()
  const set = (part: Partial<Filters>) => onChange({ ...filters, ...part })
  const things = [
    ...outline.bays,
    ...outline.zones,
    ...outline.floors,
    ...outline.instruments,
    outline.project,
  ]
  const dirty = JSON.stringify(filters) !== JSON.stringify(noFilters)
  return (
    <search className={classes.filters}>
      <Select
        label={say.about}
        placeholder={say.everything}
        data={things.map(({ id }) => ({ value: id as string, label: nameOf(id) }))}
        value={filters.subject}
        onChange={(subject) => set({ subject })}
        clearable
        searchable
      />
      <Select
        label={say.kind}
        placeholder={say.everyKind}
        data={allKinds.map((kind) => ({ value: kind, label: kinds[kind].title }))}
        value={filters.kind}
        onChange={(kind) => set({ kind: kind as KindName | null })}
        clearable
        searchable
      />
      <Select
        label={say.mark}
        placeholder={say.everyMark}
        data={Object.entries(say.marks).map(([value, label]) => ({ value, label }))}
        value={filters.mark}
        onChange={(mark) => set({ mark: mark as Mark | null })}
        clearable
      />
      <TextInput
        type="date"
        label={say.from}
        value={filters.fromDay}
        onChange={(event) => set({ fromDay: event.currentTarget.value })}
      />
      <TextInput
        type="date"
        label={say.to}
        value={filters.toDay}
        onChange={(event) => set({ toDay: event.currentTarget.value })}
      />
      {dirty && (
        <Button variant="subtle" onClick={() => onChange(noFilters)}>
          {say.clear}
        </Button>
      )}
    </search>
  )
}
