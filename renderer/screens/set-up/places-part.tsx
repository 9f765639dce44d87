import { Button } from '@mantine/core'
import { Link, useLocation } from 'wouter'
import type { ProjectOutline } from '#model/contract/index.ts'
import { areaOf } from '#model/movement/polygon.ts'
import { kinds } from '#model/record/kinds.ts'
import { constructions, coverings, moistureMethods, screeds } from '#model/record/words.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { ActionLink } from '../../app/shell.tsx'
import { words } from '../../app/words.ts'
import { EntryForm } from '../../parts/entry-form/entry-form.tsx'
import { quantityText } from '../../parts/number-text.ts'
import { Empty, Section } from '../../parts/page.tsx'
import { StateMark } from '../../parts/state-mark.tsx'
import { BayShapePanel } from './bay-shape-panel.tsx'
import classes from './set-up.module.css'
import { ThingCard } from './thing-list.tsx'

const say = words.setUp.places
const adding = (what: string, where: string) => `${paths.setUpPart('places')}/${what}~${where}`

/** Floors hold zones, zones hold bays. `thing` is "floor~", "zone~<floor>" or "bay~<zone>" while one is added. */
export function PlacesPart({ thing }: { thing?: string }) {
  const { floors } = useJob().outline
  const [what = '', where = ''] = thing?.split('~') ?? []
  if (what !== '') return <AddPlace what={what} where={where} />
  if (floors.length === 0) {
    return (
      <Empty
        title={say.emptyTitle}
        action={<ActionLink href={adding('floor', '')}>{say.addFloor}</ActionLink>}
      >
        {say.empty}
      </Empty>
    )
  }
  return (
    <>
      <ActionLink href={adding('floor', '')} quiet>
        {say.addFloor}
      </ActionLink>
      {floors
        .toSorted((a, b) => a.body.level - b.body.level)
        .map((floor) => (
          <Floor key={floor.id} floor={floor} />
        ))}
      <p className={classes.cautionLine}>{say.drawn}</p>
    </>
  )
}

function AddPlace({ what, where }: { what: string; where: string }) {
  const [, go] = useLocation()
  const done = () => go(paths.setUpPart('places'))
  const form = {
    floor: { kind: 'floor-added', title: say.addFloor, save: say.saveFloor, start: undefined },
    zone: { kind: 'zone-added', title: say.addZone, save: say.saveZone, start: { floor: where } },
    bay: { kind: 'bay-planned', title: say.addBay, save: say.saveBay, start: { zone: where } },
  } as const
  const { kind, title, save, start } = form[what as keyof typeof form] ?? form.floor
  return (
    <Section title={title} aside={<Link href={paths.setUpPart('places')}>{words.setUp.backToList}</Link>}>
      <EntryForm
        kind={kind}
        draftKey={`new ${kind} in ${where}`}
        start={start}
        saveLabel={save}
        onSaved={done}
        live={kind === 'bay-planned' ? ({ reading }) => <BayShapePanel body={reading.body} /> : undefined}
      />
    </Section>
  )
}

function Floor({ floor }: { floor: ProjectOutline['floors'][number] }) {
  const { outline } = useJob()
  const zones = outline.zones.filter(({ body }) => body.floor === floor.id)
  const base = kinds['floor-added'].fields.base.options as Record<string, string>
  return (
    <section className={classes.floor}>
      <div className={classes.floorHead}>
        <div>
          <h2 className={classes.floorName}>{floor.body.name}</h2>
          <p className={classes.cardLine}>{base[floor.body.base]}</p>
        </div>
        <div className={classes.cardActions}>
          <ActionLink href={adding('zone', floor.id)} quiet={zones.length > 0}>
            {say.addZone}
          </ActionLink>
          <Button component={Link} href={paths.correct(floor.id)} variant="default">
            {words.setUp.change}
          </Button>
        </div>
      </div>
      {zones.length === 0 && <p>{say.noZones}</p>}
      {zones.map((zone) => (
        <Zone key={zone.id} zone={zone} />
      ))}
    </section>
  )
}

function Zone({ zone: { id, body } }: { zone: ProjectOutline['zones'][number] }) {
  const { outline, nameOf } = useJob()
  const bays = outline.bays.filter((bay) => bay.body.zone === id)
  return (
    <section className={classes.zone}>
      <div className={classes.zoneHead}>
        <div>
          <h3>{body.name}</h3>
          <p className={classes.cardLine}>
            {say.zoneLine(coverings[body.covering], body.heated, moistureMethods[body.moistureMethod])}
          </p>
        </div>
        <div className={classes.cardActions}>
          <ActionLink href={adding('bay', id)} quiet={bays.length > 0}>
            {say.addBay}
          </ActionLink>
          <Button component={Link} href={paths.correct(id)} variant="default">
            {words.setUp.change}
          </Button>
        </div>
      </div>
      {bays.length === 0 && <p>{say.noBays}</p>}
      <ul className={classes.cards}>
        {bays.map((bay) => (
          <ThingCard
            key={bay.id}
            id={bay.id}
            title={nameOf(bay.id)}
            line={say.bayLine(
              quantityText(areaOf(bay.body.outline), 'm²'),
              quantityText(bay.body.designThicknessMm, 'mm'),
              screeds[bay.body.screed],
              constructions[bay.body.construction],
            )}
          >
            <StateMark state={bay.state.word} />
            <Button component={Link} href={paths.bay(bay.id)} variant="light">
              {say.openBay}
            </Button>
          </ThingCard>
        ))}
      </ul>
    </section>
  )
}
