import { describe, expect, it } from 'vitest'
import { memoryRun, standingClock, vega } from '../../fixtures/memory-run.js'
import { pumpLines } from '../../fixtures/pump-lines.js'
import { pumpMachine } from '../../fixtures/pump-machine.js'
import { firstView, press } from '../full-screen/press.js'
import { openSession } from './session.js'

/** Before the last box of the prove step, behind which the readings come. */
function beforeReadings() {
  const clock = standingClock()
  const run = memoryRun(pumpMachine, clock.now)
  const session = openSession(run, { person: vega, keys: null, now: clock.now, takenUp: false })
  for (const line of pumpLines.slice(0, pumpLines.indexOf('0 V') - 1)) {
    session.answer(line)
    const due = session.asked().kind === 'waiting' ? session.due() : null
    if (due !== null) clock.set(due)
    session.passTime()
  }
  return { run, session }
}

describe('the one key that answers at once', () => {
  it('answers nothing where a value is typed next: the rest of `200 V` is no reading of 0 V', () => {
    const { run, session } = beforeReadings()
    expect(session.asked()).toMatchObject({ kind: 'boxes', boxes: [{ number: 2 }] })
    expect(session.screen().oneKey).toBeNull()
    const size = { columns: 80, rows: 50 }
    const { view } = press(session, firstView, { kind: 'text', text: '200 V\r' }, size)
    expect(view.said.join(' ')).toContain('`200 V` is not the number of a line that is still open.')
    expect(run.events.some(({ kind }) => kind === 'reading')).toBe(false)
    press(session, view, { kind: 'text', text: '2\r0 V\r' }, size)
    expect(run.events.at(-1)).toMatchObject({ kind: 'reading', typed: '0 V' })
  })

  it('answers where nothing is typed next but another key or word', () => {
    const { session } = beforeReadings()
    expect(session.question()).toBeNull()
    const clock = standingClock()
    const fresh = openSession(memoryRun(pumpMachine, clock.now), {
      person: vega,
      keys: null,
      now: clock.now,
      takenUp: false
    })
    expect(fresh.screen().oneKey).toBe('1')
  })
})
