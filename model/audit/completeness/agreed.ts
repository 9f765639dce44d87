import { leastThickness } from '#model/checks/index.ts'
import { coverings } from '#model/record/words.ts'
import { limitText } from '#model/rules/index.ts'
import { limitFor } from '#model/watch/facts/moisture.ts'
import { common, met, notMet, type Requirement } from './requirement.ts'

/** C1: what the bay was to be is written down, so that what it became can be compared with it. */
export const agreed: Requirement = {
  id: 'C1',
  title: 'Agreed',
  asks: 'Construction, design and least thickness, soundness category, covering and its moisture limit are named.',
  whatToDo: 'Ask the designer or the contract, and add what is missing to the bay or its zone.',
  record: null,
  mayBeAnswered: true,
  ...common,
  find: ({ facts }) => {
    const { story, rules } = facts
    const { body } = story.bay
    const zone = story.zone.body
    const limit = limitFor(facts, zone.covering, zone.moistureMethod)
    const least = leastThickness({ ...body, loading: zone.loading }, rules)
    const missing = [
      ...(body.minThicknessMm === undefined && least === null
        ? ['the least thickness, which only the maker of a fast-drying screed can give']
        : []),
      ...(limit === null
        ? [`a moisture limit for ${coverings[zone.covering].toLowerCase()} by the agreed test`]
        : []),
    ]
    const named = [
      `${body.construction}, ${body.designThicknessMm} mm`,
      body.minThicknessMm === undefined ? '' : `at least ${body.minThicknessMm} mm`,
      `soundness ${zone.soundness}`,
      coverings[zone.covering].toLowerCase(),
      limit === null ? '' : limitText(limit),
    ].filter((text) => text !== '')
    const entries = [story.bay.id, story.zone.id]
    return missing.length === 0
      ? met(`Named: ${named.join(', ')}.`, entries)
      : notMet(`Not named: ${missing.join('; ')}.`, entries)
  },
}
