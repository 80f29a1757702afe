import { describe, expect, it } from 'vitest'
import { memoryRun, standingClock, vega } from '../../fixtures/memory-run.js'
import { pumpLines } from '../../fixtures/pump-lines.js'
import { pumpMachine } from '../../fixtures/pump-machine.js'
import { openSession } from '../session/session.js'
import type { OfferInstruments } from './with-instrument.js'

function proving(instruments: OfferInstruments) {
  const clock = standingClock()
  const run = memoryRun(pumpMachine, clock.now)
  const session = openSession(run, { person: vega, keys: null, now: clock.now, takenUp: false, instruments })
  for (const line of pumpLines.slice(0, pumpLines.indexOf('0 V'))) {
    session.answer(line)
    const due = session.asked().kind === 'waiting' ? session.due() : null
    if (due !== null) clock.set(due)
    session.passTime()
  }
  return { run, session }
}

const testers: OfferInstruments = ({ unit }) =>
  unit === 'V'
    ? [
        { id: 'T1', tell: 'tester' },
        { id: 'T2', tell: 'tester' }
      ]
    : []

describe('a reading whose instrument has to be named', () => {
  it('asks for it first, offers those that fit, and keeps it in hand for the next reading', () => {
    const { run, session } = proving(testers)
    expect(session.question()?.kind).toBe('instrument')
    expect(session.screen().keys.map(({ type }) => type)).toEqual(['1 or T1', '2 or T2', 'Enter alone'])
    expect(session.answer('T9').said.join(' ')).toContain('Those that fit are T1, T2.')
    session.answer('t2')
    session.answer('0 V')
    expect(run.events.at(-1)).toMatchObject({ kind: 'reading', typed: '0 V', instrument: 'T2' })
    expect(session.question()).toBeNull()
    expect(session.asked().kind).toBe('reading')
  })

  it('is changed by `with`, and says so where none fits', () => {
    const { run, session } = proving(testers)
    session.answer('1')
    session.answer('with T2')
    session.answer('0 V')
    expect(run.events.at(-1)).toMatchObject({ instrument: 'T2' })
    const none = proving(() => [])
    expect(none.session.screen().question).toContain('No instrument of this site fits mains: L to N')
    none.session.answer('')
    expect(none.session.asked().kind).toBe('reading')
    expect(none.session.question()).toBeNull()
  })

  it('asks for none where the site keeps no list', () => {
    const { run, session } = proving(() => null)
    session.answer('0 V')
    expect(run.events.at(-1)).not.toHaveProperty('instrument')
  })
})
