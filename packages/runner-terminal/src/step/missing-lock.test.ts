import { describe, expect, it } from 'vitest'
import { memoryRun } from '../../fixtures/memory-run.js'
import { pumpMachine } from '../../fixtures/pump-machine.js'
import { eventsOf, sessionAt } from '../../fixtures/session-at.js'
import { frameOf } from '../full-screen/frame.js'
import { firstView, press } from '../full-screen/press.js'
import { openSession, type Session } from '../session/session.js'
import { tellStanding } from '../session/tell-standing.js'

/** The run of a session that crashed with both locks on, as the next start finds it. */
function crashed() {
  const before = sessionAt('sign')
  const { now } = before.options
  const again = (): Session =>
    openSession(memoryRun(pumpMachine, now, { events: eventsOf(session ?? before) }), {
      ...before.options,
      takenUp: true
    })
  let session: Session | null = null
  session = again()
  return { session, again, now }
}

describe('a lock that is missing after a break', () => {
  it('stays in the record, on the screen and in the list of open runs, whoever comes next', () => {
    const { session, again, now } = crashed()
    session.answer('missing')
    expect(session.screen().question).toContain('Which lock is not on?')
    session.answer('Q1')
    expect(eventsOf(session)).toContainEqual(
      expect.objectContaining({ kind: 'note', by: 'm.vega', text: expect.stringContaining('lock 17 of m.vega on Q1') })
    )
    const next = again()
    expect(next.screen().warnings.join(' ')).toMatch(/missing: lock 17 of m\.vega on Q1.*by m\.vega/i)
    expect(tellStanding(next.run, now()).join('\n')).toMatch(/missing.*lock 17 of m\.vega on Q1/i)
    const before = eventsOf(next).length
    expect(next.answer('locks on')).toMatchObject({ refused: true })
    expect(eventsOf(next).length).toBe(before)
    expect(next.answer('locks on').said.join(' ')).toContain('`found Q1`')
  })

  it('lets the run go on once it is said how the lock came to hang again, and everything is proven again', () => {
    const { session, again } = crashed()
    session.answer('missing')
    session.answer('17')
    const next = again()
    expect(next.answer('found V1').refused).toBe(true)
    next.answer('found Q1')
    next.answer('it hung on the handle of the door, and is back on Q1')
    expect(next.screen().warnings).toEqual([])
    expect(next.answer('locks on').refused).toBe(false)
    expect(next.run.snapshot.status).toBe('running')
    expect(eventsOf(next).some(({ kind }) => kind === 'paused')).toBe(true)
  })

  it('is reported at any step: the run is paused, and everything is proven again', () => {
    const session = sessionAt('sign')
    session.answer('missing')
    session.answer('V1')
    expect(session.run.snapshot.status).toBe('paused')
    expect(session.answer('locks on').refused).toBe(true)
    session.answer('found V1')
    session.answer('back on')
    const { confirm } = session.asked() as { readonly confirm: { readonly word: string } }
    expect(session.answer(confirm.word).refused).toBe(false)
    expect(session.run.snapshot.status).toBe('running')
  })

  it('lets the run be stopped there', () => {
    const { session } = crashed()
    session.answer('missing')
    session.answer('Q1')
    expect(session.answer('stop lock 17 is gone').ended).toBe('stopped')
  })

  it('is read to its end at 40 columns and 20 rows, with the prompt in sight', () => {
    const { session, now } = crashed()
    session.answer('missing')
    session.answer('Q1')
    const size = { columns: 40, rows: 19 }
    let view = firstView
    let text = ''
    for (let page = 0; page < 12; page++) {
      const rows = frameOf(session.screen(), view, size, now()).rows.map((row) => row.text)
      expect(rows.at(-1)).toMatch(/^> /)
      text += ` ${rows.join(' ')}`
      view = press(session, view, { kind: 'page-down' }, size).view
    }
    const words = text.replace(/\s+/g, ' ')
    expect(words).toContain('type found Q1')
    expect(words).toContain('Keep everybody away')
    expect(words).toContain('type stop')
  })
})
