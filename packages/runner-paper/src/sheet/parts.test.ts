import type { State, StateId } from '@lockwright/machine'
import { describe, expect, it } from 'vitest'
import { boosterPump } from '../booster-pump.fixture.js'
import { made, text } from '../made.fixture.js'
import { buildSheet } from './build-sheet.js'

const at = (line: number) => ({ line, column: 1, endLine: line, endColumn: 9 })

function section(id: string, line: number, level = 1) {
  return { id, level, title: id, span: at(line) }
}

function parts(sections: readonly unknown[], states: readonly State[]) {
  const machine = boosterPump({ states, start: states[0]?.id ?? ('' as StateId), sections: sections as never })
  return buildSheet(machine).parts.map(({ headings, steps }) => ({
    headings: headings.map(({ title, prose }) => [title, prose]),
    intro: steps[0]?.intro
  }))
}

const bullets = text('The drive is heavy.')
const own = text('Lock out as follows.')

describe('a section without steps', () => {
  it('keeps its heading and its prose', () => {
    const lock = made('lock', { kind: 'notify', title: 'Tell', section: 'lock-out', span: at(9), intro: bullets })
    expect(parts([section('hazards', 3), section('lock-out', 7)], [lock])).toEqual([
      {
        headings: [
          ['hazards', bullets],
          ['lock-out', []]
        ],
        intro: []
      }
    ])
  })

  it('does not take the prose of the section behind it', () => {
    const lock = made('lock', { kind: 'notify', title: 'Tell', section: 'lock-out', span: at(9), intro: own })
    expect(parts([section('hazards', 3), section('lock-out', 5)], [lock])[0]).toMatchObject({ intro: own })
    const both = made('lock', { ...lock, span: at(11), intro: [...bullets, ...own] })
    expect(parts([section('hazards', 3), section('lock-out', 7)], [both])).toEqual([
      {
        headings: [
          ['hazards', bullets],
          ['lock-out', []]
        ],
        intro: own
      }
    ])
  })

  it('leaves prose with the step where the lines do not tell whose it is', () => {
    const intro = [...bullets, ...text('Two people carry it.'), ...own]
    const lock = made('lock', { kind: 'notify', title: 'Tell', section: 'lock-out', span: at(13), intro })
    expect(parts([section('hazards', 3), section('lock-out', 9)], [lock])[0]).toMatchObject({ intro })
  })

  it('keeps the heading of closing prose at the end', () => {
    const states = [
      made('tell', {
        kind: 'notify',
        title: 'Tell',
        section: 'lock-out',
        span: at(5),
        exits: [{ on: 'done', to: 'end' }]
      }),
      made('end', { kind: 'finish', title: 'Return to service', span: at(11), intro: own })
    ]
    expect(parts([section('lock-out', 3), section('notes', 7)], states)[1]).toEqual({
      headings: [['notes', []]],
      intro: own
    })
  })

  it('is told once, also where the step behind it comes again', () => {
    const states = [
      made('tell', { kind: 'notify', title: 'Tell', section: 'b', span: at(9), exits: [{ on: 'done', to: 'r/tell' }] }),
      made('r/tell', { kind: 'notify', title: 'Tell', section: 'b', span: at(9) })
    ]
    expect(parts([section('a', 3), section('b', 7)], states).map(({ headings }) => headings.length)).toEqual([2, 1])
  })
})
