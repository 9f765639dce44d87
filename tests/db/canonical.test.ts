import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { canonicalJson } from '#db/canonical.ts'

/**
 * Values of RFC 8785 (June 2020), 3.2.2, 3.2.3 and Appendix B. Typed from memory and compared with five independent
 * copies of the table in public test suites, which agree.
 */
const appendixB: readonly (readonly [ieee754: string, json: string])[] = [
  ['0000000000000000', '0'],
  ['8000000000000000', '0'],
  ['0000000000000001', '5e-324'],
  ['8000000000000001', '-5e-324'],
  ['7fefffffffffffff', '1.7976931348623157e+308'],
  ['ffefffffffffffff', '-1.7976931348623157e+308'],
  ['4340000000000000', '9007199254740992'],
  ['c340000000000000', '-9007199254740992'],
  ['4430000000000000', '295147905179352830000'],
  ['44b52d02c7e14af5', '9.999999999999997e+22'],
  ['44b52d02c7e14af6', '1e+23'],
  ['44b52d02c7e14af7', '1.0000000000000001e+23'],
  ['444b1ae4d6e2ef4e', '999999999999999700000'],
  ['444b1ae4d6e2ef4f', '999999999999999900000'],
  ['444b1ae4d6e2ef50', '1e+21'],
  ['3eb0c6f7a0b5ed8c', '9.999999999999997e-7'],
  ['3eb0c6f7a0b5ed8d', '0.000001'],
  ['41b3de4355555553', '333333333.3333332'],
  ['41b3de4355555554', '333333333.33333325'],
  ['41b3de4355555555', '333333333.3333333'],
  ['41b3de4355555556', '333333333.3333334'],
  ['41b3de4355555557', '333333333.33333343'],
  ['becbf647612f3696', '-0.0000033333333333333333'],
  ['43143ff3c1cb0959', '1424953923781206.2'],
]

describe('canonical JSON', () => {
  it.each(appendixB)(
    'CAN-1: the number %s is written as RFC 8785 Appendix B writes it: %s',
    (ieee754, json) => {
      expect(canonicalJson(Buffer.from(ieee754, 'hex').readDoubleBE())).toBe(json)
    },
  )

  it.each(['7fffffffffffffff', '7ff0000000000000', 'fff0000000000000'])(
    'CAN-1: %s is not a number of JSON and is refused',
    (ieee754) => {
      expect(() => canonicalJson(Buffer.from(ieee754, 'hex').readDoubleBE())).toThrow(TypeError)
    },
  )

  it('CAN-2: the sample of RFC 8785 3.2.2 comes out as printed there', () => {
    const sample = String.raw`{
      "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
      "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
      "literals": [null, true, false]
    }`
    expect(canonicalJson(JSON.parse(sample))).toBe(
      String.raw`{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`,
    )
  })

  it('CAN-3: keys stand in the order of their UTF-16 code units, as in RFC 8785 3.2.3', () => {
    const keys = {
      '\u20ac': 'Euro Sign',
      '\r': 'Carriage Return',
      '\ufb33': 'Hebrew Letter Dalet With Dagesh',
      '1': 'One',
      '\ud83d\ude00': 'Emoji: Grinning Face',
      '\u0080': 'Control',
      '\u00f6': 'Latin Small Letter O With Diaeresis',
    }
    expect([...canonicalJson(keys).matchAll(/:"([^"]+)"/g)].map((match) => match[1])).toEqual([
      'Carriage Return',
      'One',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh',
    ])
  })

  it('CAN-4: the order in which members were set makes no difference, and reading back gives the same value', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string({ unit: 'grapheme' }), fc.jsonValue()), (value) => {
        const backwards = Object.fromEntries(Object.entries(value).reverse())
        expect(canonicalJson(backwards)).toBe(canonicalJson(value))
        const read: unknown = JSON.parse(canonicalJson(value))
        expect(canonicalJson(read)).toBe(canonicalJson(value))
        // Minus zero is the one number that JSON's canonical form does not tell from another.
        expect(read).toEqual(JSON.parse(JSON.stringify(value)))
      }),
      { seed: 20 },
    )
  })

  it.each([
    ['half a character', 'a\ud800'],
    ['a key with half a character', { '\udc00': 1 }],
    ['a big integer', 1n],
    ['a function', () => 1],
    ['a date', new Date(0)],
    ['NaN inside a list', [Number.NaN]],
    ['undefined in a list', [undefined]],
  ])('CAN-5: %s is refused', (_, value) => {
    expect(() => canonicalJson(value)).toThrow(TypeError)
  })
})
