import { Button, Select } from '@mantine/core'
import { useState } from 'react'
import { useLocation, useParams } from 'wouter'
import { areaOf } from '#model/movement/polygon.ts'
import { type Covering, coverings } from '#model/record/words.ts'
import { useJob } from '../../app/job.tsx'
import { recall, remember } from '../../app/memory.ts'
import { paths } from '../../app/paths.ts'
import { ActionLink } from '../../app/shell.tsx'
import { waysWords as words } from '../../app/words/ways.ts'
import { numberText } from '../../parts/number-text.ts'
import { Empty, Page } from '../../parts/page.tsx'
import { draftFromKept, type PlanDraft, readPlan } from './plan-draft.ts'
import classes from './ways.module.css'
import { WaysSheet } from './ways-sheet.tsx'
import { firstPlace, type Place, placeOf, placesOf } from './where.ts'

/** What would airing, heating or drying this room change? The ways of one room beside each other. */
export default function WaysScreen() {
  const { about } = useParams<{ about?: string }>()
  const { outline } = useJob()
  const places = placesOf(outline)
  const place = placeOf(outline, about) ?? firstPlace(outline, places)
  if (place === null) {
    return (
      <Page title={words.title} lead={words.lead}>
        <Empty
          title={words.where.none}
          action={<ActionLink href={paths.floors}>{words.where.toFloors}</ActionLink>}
        >
          {words.where.noneLead}
        </Empty>
      </Page>
    )
  }
  return (
    <div className={classes.paper}>
      <OnePlace key={place.id} place={place} places={places} />
    </div>
  )
}

function OnePlace({ place, places }: { place: Place; places: readonly Place[] }) {
  const { id: project, outline } = useJob()
  const [, go] = useLocation()
  const nameOf = usePlaceName()
  const [covering, setCovering] = useState<Covering | null>(null)
  const key = `ways ${project}`
  const [draft, setDraft] = useState<PlanDraft>(() => draftFromKept(recall(key)))
  const keep = (next: PlanDraft) => {
    remember(key, JSON.stringify(next))
    setDraft(next)
  }
  const groups = (['floor', 'zone', 'bay'] as const).map((kind) => ({
    group: { floor: words.where.floors, zone: words.where.zones, bay: words.where.bays }[kind],
    items: places
      .concat(places.some(({ id }) => id === place.id) ? [] : [place])
      .filter((one) => one.kind === kind)
      .map((one) => ({ value: one.id, label: nameOf(one) })),
  }))
  const areaM2 = outline.bays
    .filter(({ id }) => place.bays.includes(id))
    .reduce((sum, { body }) => sum + areaOf(body.outline), 0)
  const area = numberText(areaM2, 0)
  return (
    <Page title={words.title} lead={<Lead />}>
      <div className={classes.choose}>
        <Select
          label={words.where.label}
          searchable
          data={groups.filter(({ items }) => items.length > 0)}
          value={place.id}
          onChange={(next) => next !== null && go(paths.ways(next))}
        />
        <Select
          label={words.where.covering}
          data={[
            { value: '', label: words.where.asPlanned },
            ...Object.entries(coverings).map(([value, label]) => ({ value, label })),
          ]}
          value={covering ?? ''}
          onChange={(next) => setCovering(next === null || next === '' ? null : (next as Covering))}
        />
        <Button variant="default" className={classes.printButton} onClick={() => window.print()}>
          {words.print}
        </Button>
      </div>
      <p className={classes.printed}>
        <strong>{nameOf(place)}</strong>, {covering === null ? words.where.asPlanned : coverings[covering]}
      </p>
      <p className={classes.soft}>
        {place.bays.length === 1 ? words.where.oneBay(area) : words.where.oneRoom(place.bays.length, area)}
        {place.leftOut > 0 && ` ${words.where.leftOut(place.leftOut)}`}
      </p>
      <WaysSheet
        place={place}
        name={nameOf(place)}
        covering={covering}
        draft={draft}
        reading={readPlan(draft)}
        onDraft={keep}
      />
    </Page>
  )
}

function Lead() {
  return (
    <>
      {words.lead} <strong className={classes.estimate}>{words.estimate}</strong>
    </>
  )
}

function usePlaceName(): (place: Place) => string {
  const { outline, nameOf } = useJob()
  return ({ id, kind, bays }) => {
    if (kind === 'bay') return nameOf(id)
    if (kind === 'floor') return words.where.wholeFloor(nameOf(id), bays.length)
    const floor = outline.zones.find((one) => one.id === id)?.body.floor
    return words.where.zone(floor === undefined ? '' : nameOf(floor), nameOf(id), bays.length)
  }
}
