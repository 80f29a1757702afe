import { describe, expect, it } from 'vitest'
import { memoryRun, standingClock, vega } from '../../fixtures/memory-run.js'
import { pumpLines } from '../../fixtures/pump-lines.js'
import { pumpMachine } from '../../fixtures/pump-machine.js'
import { eventsOf, ringOf, sessionAt } from '../../fixtures/session-at.js'
import { openSession } from '../session/session.js'

describe('the end of a run', () => {
  it('has whoever closes the run sign, and asks again after a wrong passphrase', () => {
    for (const line of ['finished', 'stop no spare part']) {
      const session = sessionAt('finished', ringOf('m.vega'))
      session.answer(line)
      expect(session.screen()).toMatchObject({ secret: true })
      expect(session.screen().question).toMatch(
        /^Passphrase of m\.vega, who signs that the work (is finished|stops here)$/
      )
      expect(session.answer('wrong horse')).toMatchObject({
        refused: true,
        said: ['That is not the passphrase.', 'Type it again.']
      })
      expect(session.run.snapshot.status).toBe('running')
      expect(session.answer('right horse').ended).toBe(line === 'finished' ? 'finished' : 'stopped')
      expect(session.run).toMatchObject({ signedBy: ['m.vega', 'm.vega'] })
    }
  })

  it('closes a run unsigned where there is no key, or once it is said twice that nobody signs', () => {
    const without = sessionAt('finished', ringOf('p.lind'))
    expect(without.answer('finished').ended).toBe('finished')
    expect(without.run).toMatchObject({ signedBy: ['m.vega'] })
    const session = sessionAt('finished', ringOf('m.vega'))
    session.answer('stop smoke')
    session.answer('')
    expect(session.screen()).toMatchObject({ secret: false })
    session.answer('')
    expect(session.question()).toBeNull()
    expect(session.run.snapshot.status).toBe('running')
    session.answer('stop smoke')
    session.answer('')
    expect(session.answer('yes').refused).toBe(true)
    expect(session.answer('unsigned').ended).toBe('stopped')
    expect(session.run).toMatchObject({ signedBy: ['m.vega'] })
    expect(eventsOf(session).at(-1)).toMatchObject({ kind: 'stopped', reason: 'smoke' })
  })

  it('keeps a passphrase that is being typed apart from what the clock brings', () => {
    const clock = standingClock()
    const run = memoryRun(pumpMachine, clock.now, { mode: 'issued' })
    const session = openSession(run, { person: vega, keys: ringOf('m.vega'), now: clock.now, takenUp: false })
    for (const typed of pumpLines) {
      if (session.asked().kind === 'waiting') break
      session.answer(typed)
    }
    session.answer('stop smoke')
    clock.pass(3600)
    expect(session.isDue()).toBe(false)
    expect(session.passTime().said).toEqual([])
    expect(session.answer('right horse').ended).toBe('stopped')
  })
})
