import { digestOf } from '@lockwright/machine'
import { describe, expect, it } from 'vitest'
import { fanMachine } from '../fixtures/fan-machine.js'
import { canonicalJson, readCanonical } from './canonical-json.js'
import { sha256Hex } from './digest.js'

describe('the one spelling of JSON', () => {
  it('is that of the example of RFC 8785, section 3.2.2', () => {
    const input = String.raw`{
      "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
      "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
      "literals": [null, true, false]
    }`
    expect(canonicalJson(JSON.parse(input))).toBe(
      String.raw`{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`
    )
  })

  it('sorts names as the example of RFC 8785, section 3.2.3', () => {
    const input = String.raw`{
      "\u20ac": "Euro Sign", "\r": "Carriage Return", "\ufb33": "Hebrew Letter Dalet With Dagesh", "1": "One",
      "\ud83d\ude00": "Emoji: Grinning Face", "\u0080": "Control", "\u00f6": "Latin Small Letter O With Diaeresis"
    }`
    const values = [...canonicalJson(JSON.parse(input)).matchAll(/:"([^"]*)"/g)].map((match) => match[1])
    expect(values).toEqual([
      'Carriage Return',
      'One',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh'
    ])
  })

  // RFC 8785, appendix B: IEEE 754 bits and the text they become.
  it.each([
    ['0000000000000000', '0'],
    ['8000000000000000', '0'],
    ['0000000000000001', '5e-324'],
    ['7fefffffffffffff', '1.7976931348623157e+308'],
    ['4340000000000000', '9007199254740992'],
    ['c340000000000000', '-9007199254740992'],
    ['4430000000000000', '295147905179352830000'],
    ['44b52d02c7e14af5', '9.999999999999997e+22'],
    ['44b52d02c7e14af6', '1e+23'],
    ['444b1ae4d6e2ef4e', '999999999999999700000'],
    ['444b1ae4d6e2ef50', '1e+21'],
    ['3eb0c6f7a0b5ed8c', '9.999999999999997e-7'],
    ['3eb0c6f7a0b5ed8d', '0.000001'],
    ['41b3de4355555553', '333333333.3333332'],
    ['41b3de4355555557', '333333333.33333343']
  ])('writes the number %s as %s', (bits, expected) => {
    expect(canonicalJson(Buffer.from(bits, 'hex').readDoubleBE())).toBe(expected)
  })

  it.each([
    ['undefined', undefined],
    ['not a number', Number.NaN],
    ['a date', new Date(0)],
    ['half a character', '\ud800'],
    ['half a character in a name', { '\udfff': 1 }],
    ['something missing inside', { at: undefined }]
  ])('is refused to %s', (_, value) => {
    expect(() => canonicalJson(value)).toThrow(TypeError)
  })

  it.each([
    ['another order', '{"b":1,"a":2}'],
    ['a blank', '{"a": 1}'],
    ['a name twice', '{"a":1,"a":1}'],
    ['another spelling of a number', '{"a":1.0}'],
    ['another spelling of a character', '{"a":"\\u0041"}'],
    ['two hundred levels', `${'['.repeat(200)}${']'.repeat(200)}`]
  ])('is not %s', (_, text) => {
    expect(readCanonical(text)).toHaveProperty('fault')
  })

  it('gives the digest that the machine gives itself', () => {
    expect(sha256Hex(canonicalJson(fanMachine))).toBe(digestOf(fanMachine))
  })
})
