import { describe, expect, it } from 'vitest'
import { boosterPump } from './booster-pump.fixture.js'
import { chooseGenerations } from './choose-generations.js'

describe('chooseGenerations', () => {
  const machine = boosterPump()

  it('reads axis and value', () => {
    expect(chooseGenerations(machine, ['cabinet=series-s'])).toEqual({ ok: true, generations: { cabinet: 'series-s' } })
  })

  it('is for all generations where nothing is chosen', () => {
    expect(chooseGenerations(machine, [])).toEqual({ ok: true, generations: {} })
  })

  it.each([
    [['cabinte=series-s'], '`cabinte=series-s` names no hardware axis of this procedure; it has `cabinet`.'],
    [['cabinet'], '`` is no generation of `cabinet`; there is `series-s`, `series-t`.'],
    [['cabinet=series-x'], '`series-x` is no generation of `cabinet`; there is `series-s`, `series-t`.'],
    [
      ['cabinet=series-s', 'cabinet=series-t'],
      '`cabinet` was chosen twice: a sheet is for one generation, or for all.'
    ],
    [['__proto__=x'], '`__proto__=x` names no hardware axis of this procedure; it has `cabinet`.']
  ])('refuses %o', (texts, fault) => {
    expect(chooseGenerations(machine, texts)).toEqual({ ok: false, faults: [fault] })
  })
})
