import { describe, expect, it } from 'vitest'
import { memoryRun, standingClock, vega } from '../../fixtures/memory-run.js'
import { provedFixture } from '../../fixtures/pump-machine.js'
import { openSession } from '../session/session.js'

const lamped = provedFixture('pump.md', (text) =>
  text.replace(':::shutdown{#halt}', ':::look{near=mains #led}\nThe lamp at the door.\n:::\n\n:::shutdown{#halt}')
)

function atTheLamp() {
  const clock = standingClock()
  const session = openSession(memoryRun(lamped, clock.now), {
    person: vega,
    keys: null,
    now: clock.now,
    takenUp: false
  })
  for (const line of ['1 2 3 4', 'gathered', 'single', '1', 'told']) session.answer(line)
  return session
}

describe('what is looked at and is not so', () => {
  it('is said in words: noted, and the work stops', () => {
    const session = atTheLamp()
    expect(session.run.snapshot.state).toBe('led')
    expect(session.screen().keys.map(({ type }) => type)).toContain('not so')
    session.answer('not so')
    expect(session.screen().question).toContain('What is seen instead?')
    const reply = session.answer('the lamp is lit')
    const kinds = session.run.entries.slice(-2).map(({ event }) => event)
    expect(kinds).toMatchObject([
      { kind: 'note', text: expect.stringContaining('the lamp is lit') },
      { kind: 'stopped', reason: expect.stringContaining('the lamp is lit') }
    ])
    expect(reply.ended).toBe('stopped')
  })

  it('records nothing where the question is left', () => {
    const session = atTheLamp()
    const before = session.run.entries.length
    session.answer('not so')
    session.answer('')
    expect(session.run.entries.length).toBe(before)
    session.answer('looked')
    expect(session.run.snapshot.state).toBe('halt')
  })
})
