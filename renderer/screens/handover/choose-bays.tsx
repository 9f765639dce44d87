import { Button, Checkbox } from '@mantine/core'
import type { BayGaps } from '#model/contract/reports.ts'
import { useJob } from '../../app/job.tsx'
import { handoverWords } from '../../app/words/handover.ts'
import { VerdictMark } from '../../parts/state-mark.tsx'
import classes from './handover.module.css'
import { openGaps } from './open-gaps.ts'

const words = handoverWords.bays

interface ChooseBaysProps {
  /** Bays that are left out: what is planned later is chosen without anybody asking for it. */
  left: ReadonlySet<string>
  onLeft: (left: ReadonlySet<string>) => void
  known: readonly BayGaps[] | null
}

/** Every bay, floor by floor, with its verdict and how much is missing. */
export function ChooseBays({ left, onLeft, known }: ChooseBaysProps) {
  const { outline, nameOf } = useJob()
  const { bays } = outline
  const toggle = (bay: string) => {
    const next = new Set(left)
    if (!next.delete(bay)) next.add(bay)
    onLeft(next)
  }
  const ready = (bay: string) => known?.find((one) => one.bay === bay)?.verdict === 'ready'
  return (
    <>
      <div className={classes.buttons}>
        <Button variant="default" onClick={() => onLeft(new Set())}>
          {words.all}
        </Button>
        <Button variant="default" onClick={() => onLeft(new Set(bays.map(({ id }) => id)))}>
          {words.none}
        </Button>
        <Button
          variant="default"
          disabled={known === null}
          onClick={() => onLeft(new Set(bays.filter(({ id }) => !ready(id)).map(({ id }) => id)))}
        >
          {words.ready}
        </Button>
        <p role="status" className={classes.soft}>
          {words.chosen(bays.filter(({ id }) => !left.has(id)).length, bays.length)}
        </p>
      </div>
      {outline.floors
        .toSorted((a, b) => a.body.level - b.body.level)
        .map((floor) => (
          <fieldset key={floor.id} className={classes.floor}>
            <legend className={classes.floorName}>{floor.body.name}</legend>
            {bays
              .filter((bay) => bay.floor === floor.id)
              .map(({ id }) => {
                const found = known?.find((one) => one.bay === id)
                return (
                  <div key={id} className={classes.bay}>
                    <Checkbox
                      size="md"
                      label={nameOf(id)}
                      checked={!left.has(id)}
                      onChange={() => toggle(id)}
                    />
                    {found !== undefined && <VerdictMark verdict={found.verdict} size={18} />}
                    {found !== undefined && (
                      <span className={classes.soft}>{words.gaps(openGaps(found.gaps).length)}</span>
                    )}
                  </div>
                )
              })}
          </fieldset>
        ))}
    </>
  )
}
