import { describe, expect, test } from 'vitest'
import { acceptMoisture, type MoistureTest, moistureLimit } from '#model/checks/index.ts'
import { type MoistureMethod, moistureMethods } from '#model/record/words.ts'
import { effectiveRules, type RuleSetId } from '#model/rules/index.ts'
import { askingOf } from '#renderer/parts/entry-form/asking.ts'

const asking = askingOf('moisture-read')
const methods = Object.keys(moistureMethods) as MoistureMethod[]
const sets: RuleSetId[] = ['british', 'german', 'swiss', 'american']
/** Asked for elsewhere: the moment has its own box, the place is touched on the plan. */
const elsewhere = ['at', 'x', 'y']
const setAt = '2026-11-20T08:00:00Z'

/** The facts that judging a test by this method looks at, under these rules. */
function lookedAt(method: MoistureMethod, ruleSet: RuleSetId): string[] {
  const seen = new Set<string>()
  const test: MoistureTest = {
    method,
    at: '2026-11-23T08:00:00Z',
    setAt,
    readings: [{ at: '2026-11-23T08:00:00Z', rhPercent: 70 }],
  }
  const watched = new Proxy(test, {
    get: (facts, name) => {
      seen.add(String(name))
      return Reflect.get(facts, name)
    },
  })
  const rules = effectiveRules(ruleSet)
  const place = { covering: 'vinyl', screed: 'cement-sand', heated: true } as const
  const limit = moistureLimit({ ...place, method, ruleSet: rules })
  acceptMoisture(watched, limit, { ...place, rules, construction: 'floating', thicknessMm: 65 })
  return [...seen]
}

/** Every instant is looked at to see that it is one; that alone is no demand of the method. FORM-M2 has them. */
const instants = ['setAt', 'heatingOffSince', 'driersOffSince', 'conditionedSince', 'groundAt']
const isShown = (name: string, method: MoistureMethod) => asking.shown?.(name, { method }) === true

describe('FORM: a moisture test can be recorded so that it proves something', () => {
  test.each(methods.flatMap((method) => sets.map((set) => [method, set] as const)))(
    'FORM-M1: every fact that %s is judged by under the %s rules has its box',
    (method, set) => {
      const asked = lookedAt(method, set).filter((name) => ![...elsewhere, ...instants].includes(name))
      expect(asked.filter((name) => !isShown(name, method))).toEqual([])
    },
  )
  test.each(methods.flatMap((method) => sets.map((set) => [method, set] as const)))(
    'FORM-M2: nothing that %s lacks under the %s rules is without a box',
    (method, set) => {
      const rules = effectiveRules(set)
      const place = { covering: 'vinyl', screed: 'cement-sand', heated: true } as const
      const limit = moistureLimit({ ...place, method, ruleSet: rules })
      const bare: MoistureTest = { method, at: '2026-11-23T08:00:00Z' }
      const { findings } = acceptMoisture(bare, limit, { ...place, rules, construction: 'floating' })
      const lacking = findings.filter(({ value }) => value === null).map(({ what }) => what)
      const boxes: Record<string, string> = {
        'Room at service conditions before the test': 'conditionedSince',
        'Hours from grinding the spot to the dish': 'groundAt',
        'Heating off before the test': 'heatingOffSince',
        'Driers off before the test': 'driersOffSince',
        'Exposure of the dish': 'setAt',
        'Hours from drilling to the last reading': 'setAt',
        'Hours from setting the box to the last reading': 'setAt',
      }
      const without = lacking.filter((what) => what in boxes && !isShown(boxes[what]!, method))
      expect(without).toEqual([])
    },
  )
  test('FORM-M3: an American probe test with every box filled in passes, and is not known without the room', () => {
    const rules = effectiveRules('american')
    const place = { covering: 'vinyl', screed: 'cement-sand', heated: false } as const
    const limit = moistureLimit({ ...place, method: 'probe', ruleSet: rules })
    const instrument = {
      certificateDueOn: '2027-03-01',
      lastCheck: { at: setAt, foundPercent: 75, passed: true },
    }
    const context = { ...place, rules, construction: 'floating', thicknessMm: 65, instrument } as const
    const full: MoistureTest = {
      method: 'probe',
      at: '2026-11-23T08:00:00Z',
      setAt,
      readings: [{ at: '2026-11-23T08:00:00Z', rhPercent: 70 }],
      sealOk: true,
      probeSoakMin: 45,
      holeDepthMm: 26,
      conditionedSince: '2026-11-20T08:00:00Z',
      roomC: 21,
      floorC: 20,
    }
    const filledIn = Object.keys(full).filter((name) => !['method', 'at'].includes(name))
    expect(filledIn.filter((name) => !isShown(name, 'probe'))).toEqual([])
    expect(acceptMoisture(full, limit, context).verdict).toBe('pass')
    const { conditionedSince: _, ...without } = full
    expect(acceptMoisture(without, limit, context).verdict).toBe('not known')
  })
})
