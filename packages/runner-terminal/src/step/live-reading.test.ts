import { describe, expect, it } from 'vitest'
import { memoryRun, standingClock, vega } from '../../fixtures/memory-run.js'
import { stepLines } from '../../fixtures/plain-run.js'
import { pumpLines } from '../../fixtures/pump-lines.js'
import { pumpMachine } from '../../fixtures/pump-machine.js'
import { eventsOf, sessionAt } from '../../fixtures/session-at.js'
import { openSession } from '../session/session.js'

const kinds = (session: ReturnType<typeof sessionAt>) =>
  eventsOf(session)
    .map(({ kind }) => kind)
    .slice(-2)

describe('a live reading where a source is to be proven dead', () => {
  it('is said at once, set apart, before anything else of the step', () => {
    const session = sessionAt('0 V')
    const { said } = session.answer('240 V')
    expect(said[0]).toBe('LIVE: step back. mains: L to N read 240 V (it has to be below 50 V)')
    const { notices, question, commands } = session.screen()
    expect(notices).toEqual([
      {
        word: 'DANGER',
        label: 'LIVE: step back. mains: L to N read 240 V (it has to be below 50 V)',
        body: ['Treat it as live.', 'Find out why before it is measured again.']
      }
    ])
    expect(question).toBe('Why did mains: L to N read 240 V?')
    expect(commands).toBe(false)
    expect(session.screen().energies[0]).toMatchObject({
      source: 'mains',
      word: 'not dead',
      shape: '!!!',
      more: 'locked'
    })
  })

  it('is told as not released where no voltage is measured', () => {
    const session = sessionAt('0.0 bar')
    session.answer('3 bar')
    expect(session.screen().notices[0]?.label).toBe(
      'NOT RELEASED: step back. water read 3 bar (it has to be below 0.1 bar)'
    )
  })

  it('counts at the limit itself', () => {
    const session = sessionAt('0 V')
    session.answer('50 V')
    expect(session.question()?.kind).toBe('live-reason')
    const below = sessionAt('0 V')
    below.answer('49.9 V')
    expect(below.question()).toBeNull()
  })

  it('asks for a reason before it is measured again, and records it right behind the reading', () => {
    const session = sessionAt('0 V')
    session.answer('240 V')
    for (const line of ['0 V', '0', 'proven', 'stop']) {
      expect(session.answer(line).refused).toBe(true)
      expect(session.question()?.kind).toBe('live-reason')
    }
    session.answer('')
    expect(session.screen().notices).toHaveLength(1)
    expect(session.answer('0 V').refused).toBe(true)
    expect(session.question()?.kind).toBe('live-reason')
    session.answer('the wrong switch was opened')
    expect(kinds(session)).toEqual(['reading', 'note'])
    expect(eventsOf(session).at(-1)).toMatchObject({
      text: 'Why mains: L to N read 240 V: the wrong switch was opened'
    })
    expect(session.answer('0 V').refused).toBe(false)
    expect(session.screen().notices).toEqual([])
    expect(session.screen().energies[0]?.word).toBe('locked')
  })

  it('asks for a reason of each live reading, also where one was given for the reading before', () => {
    const session = sessionAt('0 V')
    session.answer('240 V')
    session.answer('the wrong switch was opened')
    session.answer('230 V')
    session.answer('')
    expect(session.answer('0 V').refused).toBe(true)
  })

  it('still owes its reason after a crash', () => {
    const session = sessionAt('0 V')
    session.answer('240 V')
    const clock = standingClock(session.run.snapshot.at)
    const run = memoryRun(pumpMachine, clock.now, { events: eventsOf(session) })
    const again = openSession(run, { person: vega, keys: null, now: clock.now, takenUp: true })
    again.answer('locks on')
    expect(again.screen().notices[0]?.word).toBe('DANGER')
    again.answer('1 2')
    expect(again.answer('0 V').said[0]).toContain('nobody has said why')
    again.answer('the wrong switch was opened')
    expect(again.answer('0 V').refused).toBe(false)
  })

  it('lets the work be stopped at once, without a reason', () => {
    const session = sessionAt('0 V')
    session.answer('240 V')
    session.answer('')
    expect(session.answer('stop it is live').ended).toBe('stopped')
  })

  it('says nothing of the kind of a measure out of limits', () => {
    const session = sessionAt('4,2 bar')
    session.answer('5.5 bar')
    expect(session.question()).toBeNull()
    expect(session.screen().notices).toEqual([])
  })

  it('is a notice in plain lines too', async () => {
    const at = pumpLines.indexOf('0 V')
    const { out, run } = await stepLines([...pumpLines.slice(0, at), '240 V', 'wrong switch', ...pumpLines.slice(at)])
    const notice = out.indexOf('DANGER: LIVE: step back. mains: L to N read 240 V (it has to be below 50 V)')
    expect(out[notice + 1]).toBe('Treat it as live.')
    expect(out.indexOf('Why did mains: L to N read 240 V?')).toBeGreaterThan(notice)
    expect(run.snapshot.status).toBe('finished')
  })
})
