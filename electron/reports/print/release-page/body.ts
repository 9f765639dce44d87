import type { Content } from 'pdfmake/interfaces.js'
import { soundnessLimit } from '#model/checks/index.ts'
import { kinds } from '#model/record/kinds.ts'
import { entriesOf } from '#model/record/story.ts'
import { limitText } from '#model/rules/index.ts'
import { airTrace, nearestReading } from '#model/watch/facts/air.ts'
import { hourMs } from '#model/watch/facts/time.ts'
import { symptomText } from '../../entry-text.ts'
import type { BayFile } from '../../handover/bay-file.ts'
import { dayText, momentText, numberText, shortened } from '../../site-text.ts'
import { factsTable } from '../parts.ts'

/** Screed, age, thickness, climate, soundness, flatness and surface, each as last found. */
export function body({ facts, story }: BayFile): Content {
  const { life, thickness, air, asOf, rules } = facts
  const { screed, construction, designation } = story.bay.body
  const mm = thickness.map((point) => point.mm)
  const mean = mm.reduce((sum, one) => sum + one, 0) / Math.max(1, mm.length)
  const surface = nearestReading(airTrace(air, 'surfaceC'), asOf, 24 * hourMs)
  const rh = nearestReading(airTrace(air, 'rhPercent'), asOf, 24 * hourMs)
  const drops = entriesOf(story, 'soundness-tested').at(-1)
  const soundness = soundnessLimit(story.zone.body.soundness, construction, rules)
  const flat = entriesOf(story, 'regularity-checked').at(-1)
  const base = entriesOf(story, 'surface-tested').at(-1)
  return factsTable(
    [
      [
        'Screed',
        `${kinds['bay-planned'].fields.screed.options[screed]}, ${kinds['bay-planned'].fields.construction.options[construction].toLowerCase()}${designation === undefined ? '' : `, ${designation}`}`,
      ],
      [
        'Age',
        life.ageDays === null
          ? 'not laid'
          : `${Math.floor(life.ageDays)} days; finished ${dayText(life.t0!, story.timeZone, asOf)}`,
      ],
      [
        'Thickness',
        mm.length === 0
          ? null
          : `${numberText(mean, 0)} mm on average, ${numberText(Math.min(...mm))} to ${numberText(Math.max(...mm))} at ${mm.length} points`,
      ],
      [
        'Floor now',
        surface === null || rh === null
          ? null
          : `${numberText(surface.value, 1)} °C on the surface, ${numberText(rh.value, 0)} % RH in the air, read ${momentText(rh.at, story.timeZone, asOf)}`,
      ],
      [
        'Soundness',
        drops === undefined
          ? null
          : `deepest ${numberText(Math.max(...drops.body.points.map(({ indentationMm }) => indentationMm)), 1)} mm (${limitText(soundness)}), ${drops.body.points.length} points, category ${story.zone.body.soundness}`,
      ],
      [
        'Flatness',
        flat === undefined
          ? null
          : `greatest gap ${numberText(Math.max(...flat.body.gapsMm.map(({ mm: one }) => one)), 1)} mm (${limitText(rules.limits[`regularity.${story.zone.body.regularity}`])}), ${flat.body.gapsMm.length} lines of ${numberText(flat.body.straightedgeM)} m, class ${story.zone.body.regularity}`,
      ],
      [
        'Surface',
        base === undefined
          ? 'not tested'
          : `${kinds['surface-tested'].fields.method.options[base.body.method].toLowerCase()}${base.body.grade === undefined ? '' : `, grade ${base.body.grade}`}${base.body.pullOffMPa === undefined ? '' : `, ${base.body.pullOffMPa} N/mm²`}`,
      ],
    ],
    62,
  )
}

/** Heat log, defects and how they were closed, joints to carry through, and what the surface needs. */
export function surroundings({ facts, story }: BayFile): Content {
  const { heating, asOf } = facts
  const { timeZone } = story
  const running = heating.filter(({ state }) => state === 'running')
  const flows = running.flatMap(({ flowC }) => flowC ?? [])
  const lastRun = heating.findLastIndex(({ state }) => state === 'running')
  const off = heating[lastRun + 1]
  const log = !story.zone.body.heated
    ? 'This floor has no heating.'
    : heating.length === 0
      ? null
      : `First ${running[0] === undefined ? 'run not known' : dayText(running[0].at, timeZone, asOf)}, at most ${flows.length === 0 ? '?' : numberText(Math.max(...flows), 0)} °C, ended ${running.length === 0 ? 'not known' : dayText(running.at(-1)!.at, timeZone, asOf)}; ${off === undefined ? 'still running' : `off since ${momentText(off.at, timeZone, asOf)}`}`
  const closed = new Map(entriesOf(story, 'defect-closed').map((entry) => [String(entry.body.defect), entry]))
  const found = entriesOf(story, 'defect-found')
  const defects = found.map(({ id, body }) => {
    const end = closed.get(id)
    const how =
      end === undefined ? 'open' : kinds['defect-closed'].fields.how.options[end.body.how].toLowerCase()
    return `${symptomText(body.symptom)} (${how})`
  })
  const joints = entriesOf(story, 'joint-formed')
  const base = story.floor.body.baseJoints?.length ?? 0
  const flat = (options: Readonly<Record<string, string>>) =>
    [...new Set(joints.map(({ body }) => options[body.joint]!.toLowerCase()))].join(', ')
  return factsTable(
    [
      ['Heat log', log],
      ['Defects', defects.length === 0 ? 'None is on record.' : shortened(`${defects.join('; ')}.`, 190)],
      [
        'Joints',
        `${joints.length === 0 ? 'None recorded' : `${joints.length}: ${flat(kinds['joint-formed'].fields.joint.options)}`}${base === 0 ? '.' : `; ${base} of the base below. Movement joints are carried through the covering.`}`,
      ],
      ['Before laying', preparation(story.bay.body.screed)],
    ],
    62,
  )
}

/** What the trade does to a surface before it is covered. @provenance common practice */
function preparation(screed: BayFile['story']['bay']['body']['screed']): string {
  const sanding =
    screed === 'calcium sulfate' ? 'Sand off the skin, vacuum' : 'Remove laitance and dust, vacuum'
  return `${sanding}; primer and levelling compound as the maker of the covering says.`
}
