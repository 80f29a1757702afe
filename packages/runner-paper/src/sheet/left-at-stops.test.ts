import type { AxisId, AxisValueId } from '@lockwright/language'
import type { State, StateId } from '@lockwright/machine'
import { describe, expect, it } from 'vitest'
import { boosterPump } from '../booster-pump.fixture.js'
import { made } from '../made.fixture.js'
import { leftAtStops } from './left-at-stops.js'

function move(points: readonly string[], to: 'on' | 'off' | 'locked') {
  return [{ needs: [], does: points.map((point) => ({ does: 'move', point, to })) }]
}

const lock = (id: string, points: readonly string[], to: string): State =>
  made(id, { kind: 'lock', title: id, points, turns: move(points, 'locked'), exits: [{ on: 'done', to }] })

const ask = (id: string, ...to: readonly string[]): State =>
  made(id, {
    kind: 'ask',
    title: id,
    question: id,
    exits: to.map((each, index) => ({ on: 'answer', answer: `a${index}`, label: each, says: [], to: each }))
  })

const stop = (id: string): State => made(id, { kind: 'stop', title: id, reason: id, tell: null })

function left(states: readonly State[], id: string, known: readonly (readonly [string, string])[] = []) {
  const machine = boosterPump({ states, start: states[0]?.id ?? ('' as StateId) })
  return leftAtStops(machine, new Map(known as readonly (readonly [AxisId, AxisValueId])[])).get(id as StateId)
}

describe('leftAtStops', () => {
  it('finds no lock before the first lock, and the equipment on', () => {
    expect(left([stop('end')], 'end')).toEqual({
      locked: { always: [], sometimes: [], never: ['Q1', 'V1', 'V2'] },
      restrained: { always: [], sometimes: [], never: ['earths'] },
      canBeOn: true
    })
  })

  it('finds what is locked on every way there', () => {
    expect(left([lock('lock', ['Q1', 'V1', 'V2'], 'end'), stop('end')], 'end')).toMatchObject({
      locked: { always: ['Q1', 'V1', 'V2'], sometimes: [], never: [] },
      canBeOn: false
    })
  })

  it('tells apart what depends on the way there', () => {
    const states = [
      lock('first', ['V1'], 'which'),
      ask('which', 'lock', 'end'),
      lock('lock', ['Q1'], 'end'),
      stop('end')
    ]
    expect(left(states, 'end')?.locked).toEqual({ always: ['V1'], sometimes: ['Q1'], never: ['V2'] })
  })

  it('forgets a lock that was taken off again, and knows what is switched off but not locked', () => {
    const states = [
      lock('lock', ['Q1', 'V1', 'V2'], 'unlock'),
      made('unlock', {
        kind: 'unlock',
        title: 'unlock',
        points: ['Q1', 'V1', 'V2'],
        turns: move(['Q1', 'V1', 'V2'], 'off'),
        exits: [{ on: 'done', to: 'end' }]
      }),
      stop('end')
    ]
    expect(left(states, 'end')).toMatchObject({ locked: { always: [], sometimes: [] }, canBeOn: false })
  })

  it('looks only at ways of the chosen generation', () => {
    const states = [
      made('which', {
        kind: 'identify',
        title: 'which',
        axis: 'cabinet',
        turns: [{ needs: [], does: [{ does: 'know', axis: 'cabinet' }] }],
        exits: [
          { on: 'identified', value: 'series-s', to: 'lock' },
          { on: 'identified', value: 'series-t', to: 'end' }
        ]
      }),
      lock('lock', ['Q1', 'V1'], 'end'),
      stop('end')
    ]
    expect(left(states, 'end')?.locked.sometimes).toEqual(['Q1', 'V1'])
    // V2 is not on series S: not a word about it.
    expect(left(states, 'end', [['cabinet', 'series-s']])?.locked).toEqual({
      always: ['Q1', 'V1'],
      sometimes: [],
      never: []
    })
  })

  it('claims nothing of a stop that no way leads to', () => {
    expect(left([stop('first'), stop('other')], 'other')).toMatchObject({
      locked: { always: [], sometimes: ['Q1', 'V1', 'V2'], never: [] },
      canBeOn: true
    })
  })
})
