import { Link } from 'wouter'
import { coverings } from '#model/record/words.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { ActionLink } from '../../app/shell.tsx'
import { readyWords as words } from '../../app/words/ready.ts'
import { Empty, Page } from '../../parts/page.tsx'
import { StateMark } from '../../parts/state-mark.tsx'
import classes from './ready.module.css'

/** Every bay with its state, floor by floor: choose the one to cover. */
export function BayList() {
  const { outline, nameOf } = useJob()
  const floors = outline.floors.toSorted((a, b) => a.body.level - b.body.level)
  return (
    <Page title={words.title} lead={words.lead}>
      {outline.bays.length === 0 && (
        <Empty title={words.noBays} action={<ActionLink href={paths.floors}>{words.toFloors}</ActionLink>}>
          {words.noBaysLead}
        </Empty>
      )}
      <div className={classes.floors}>
        {floors.map((floor) => (
          <section key={floor.id}>
            <h2 className={classes.floorName}>{floor.body.name}</h2>
            <ul className={classes.bays}>
              {outline.bays
                .filter((bay) => bay.floor === floor.id)
                .map((bay) => {
                  const zone = outline.zones.find(({ id }) => id === bay.body.zone)
                  return (
                    <li key={bay.id}>
                      <Link href={paths.ready(bay.id)} className={classes.bayLine}>
                        <strong>{nameOf(bay.id)}</strong>
                        <StateMark state={bay.state.word} />
                        <span className={classes.soft}>
                          {zone !== undefined && coverings[zone.body.covering]}
                        </span>
                      </Link>
                    </li>
                  )
                })}
            </ul>
          </section>
        ))}
      </div>
    </Page>
  )
}
