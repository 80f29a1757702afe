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
  it('says why one that is named does not fit, and which do', () => {
    const { session } = proving(testers)
    const unfit = (_: unknown, again: boolean, id: string) =>
      again ? null : `\`${id}\` was calibrated until 2026-01-09.`
    const again = openSession(session.run, { ...session.options, unfit })
    for (const line of ['1', '2']) again.answer(line)
    expect(again.question()?.kind).toBe('instrument')
    const said = again.answer('T9').said.join(' ')
    expect(said).toContain('`T9` is no instrument of this site that fits here. `T9` was calibrated until 2026-01-09.')
    expect(said).toContain('Those that fit are T1, T2.')
    again.answer('T1')
    expect(again.answer('with T9').said.join(' ')).toContain('calibrated until 2026-01-09')
  })

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

  it('is not said to be read with what was in hand before, where it comes from a gauge of the machine', () => {
    const clock = standingClock()
    const run = memoryRun(pumpMachine, clock.now)
    // The discharge pressure is read off the fixed gauge, in bar as the trapped water was.
    const instruments: OfferInstruments = ({ source, unit }) =>
      source === null ? null : [{ id: `${unit}1`, tell: '' }]
    const session = openSession(run, { person: vega, keys: null, now: clock.now, takenUp: false, instruments })
    for (const line of pumpLines) {
      session.answer(line)
      if (session.question()?.kind === 'instrument') session.answer('1')
      const due = session.asked().kind === 'waiting' ? session.due() : null
      if (due !== null) clock.set(due)
      session.passTime()
    }
    const readings = run.events.filter((event) => event.kind === 'reading')
    expect(readings.map(({ instrument }) => instrument ?? 'none').slice(-2)).toEqual(['bar1', 'none'])
    expect(run.snapshot.status).toBe('finished')
  })

  it('asks for none where the site keeps no list', () => {
    const { run, session } = proving(() => null)
    session.answer('0 V')
    expect(run.events.at(-1)).not.toHaveProperty('instrument')
  })
})
