import type { PersonId } from '@lockwright/machine'
import { describe, expect, it } from 'vitest'
import { memoryRun, standingClock, vega } from '../../fixtures/memory-run.js'
import { pumpLines } from '../../fixtures/pump-lines.js'
import { pumpMachine } from '../../fixtures/pump-machine.js'
import { ringOf } from '../../fixtures/session-at.js'
import { openSession, type SessionOptions } from '../session/session.js'

const tor = 'tor' as PersonId

/** An issued run with tor under the lockout too, before this line. `runa` has no key. */
function crewed(before: string, options: Partial<SessionOptions> = {}) {
  const clock = standingClock()
  const run = memoryRun(pumpMachine, clock.now, { mode: 'issued' })
  const session = openSession(run, {
    person: vega,
    keys: ringOf('m.vega', 'tor'),
    now: clock.now,
    takenUp: false,
    people: () => [vega, tor, 'runa' as PersonId],
    nameOf: (id) => (id === 'runa' ? 'Runa Dahl' : null),
    ...options
  })
  const type = (...lines: readonly string[]) => lines.map((line) => session.answer(line)).at(-1)
  const lines = pumpLines.slice(0, pumpLines.indexOf(before))
  for (const line of lines) {
    type(line)
    if (session.question()?.kind === 'passphrase') type('right horse')
    if (line === 'locked') type('join tor Q1=31 V1=32', 'right horse')
    const due = session.asked().kind === 'waiting' ? session.due() : null
    if (due !== null) clock.set(due)
    session.passTime()
  }
  return { run, session, type }
}

describe('what is recorded as done by somebody who is not at the keys', () => {
  it('has their locks off by nobody else: they come to the keys', () => {
    const { run, type } = crewed('read')
    const before = run.events.length
    const reply = type('left tor')
    expect(reply?.refused).toBe(true)
    expect(reply?.said.join(' ')).toContain('`as tor`')
    expect(reply?.said.join(' ')).toContain('`absent`')
    expect(run.events.length).toBe(before)
  })

  it('asks for their passphrase, unseen, as they come to the keys; a wrong one is asked for again', () => {
    const { run, session, type } = crewed('read')
    type('as tor')
    expect(session.screen()).toMatchObject({ secret: true, person: 'm.vega' })
    expect(type('wrong horse')?.refused).toBe(true)
    expect(session.screen()).toMatchObject({ secret: true, person: 'm.vega' })
    type('right horse')
    expect(session.screen().person).toBe('tor')
    expect(run.signedBy.at(-1)).toBe('tor')
    expect(run.events.at(-1)).toMatchObject({ kind: 'note', by: 'tor' })
    type('left tor')
    expect(run.events.at(-1)).toMatchObject({ kind: 'left', by: 'tor' })
    expect(JSON.stringify(run.events)).not.toContain('horse')
  })

  it('leaves it as it was where the question is left', () => {
    const { session, type } = crewed('read')
    type('as tor', '')
    expect(session.screen()).toMatchObject({ secret: false, person: 'm.vega' })
  })

  it('asks whoever has no key for their name, and says that nothing proves it', () => {
    const { run, session, type } = crewed('read')
    type('as runa')
    expect(session.screen().secret).toBe(false)
    expect(session.screen().question).toContain('Nothing proves it')
    expect(type('Runa Berg')?.refused).toBe(true)
    const said = type('runa dahl')?.said.join(' ')
    expect(said).toContain('Nothing proves')
    expect(session.screen().person).toBe('runa')
    expect(run.events.at(-1)).toMatchObject({ kind: 'note', by: 'runa' })
    expect((run.events.at(-1) as { text?: string }).text).toContain('Runa Dahl')
  })

  it('asks for the word of whoever joins or takes over', () => {
    const { run, session, type } = crewed('read')
    expect(run.signedBy).toContain('tor')
    type('handover runa Q1=41 V1=42')
    expect(session.question()).toMatchObject({ kind: 'word', person: 'runa' })
    expect(run.events.at(-1)?.kind).not.toBe('handed-over')
    type('Runa Dahl')
    expect(run.events.at(-1)).toMatchObject({ kind: 'handed-over', to: 'runa' })
    expect(session.screen().person).toBe('runa')
  })

  it('prints no number of a lock that another takes off, and takes it with their word alone', () => {
    const { run, session, type } = crewed('18')
    type('18')
    expect(session.asked()).toMatchObject({ kind: 'unlock', lock: { person: 'tor', lock: '32' } })
    const { question, keys } = session.screen()
    expect(`${question} ${JSON.stringify(keys)}`).not.toContain('32')
    expect(type('33')?.said.join(' ')).not.toContain('32')
    type('32')
    expect(session.screen().secret).toBe(true)
    expect(run.events.at(-1)).toMatchObject({ kind: 'lock-removed', owner: 'm.vega' })
    type('right horse')
    expect(run.events.at(-1)).toMatchObject({ kind: 'lock-removed', owner: 'tor', by: 'tor' })
    expect(run.signedBy.at(-1)).toBe('tor')
  })

  it('asks whoever takes a run up by name alone once, before a lock of theirs comes off', () => {
    const { run, session } = crewed('18')
    const again = openSession(run, { ...session.options, person: vega, takenUp: true })
    again.answer('locks on')
    for (const line of ['18']) again.answer(line)
    expect(again.screen().secret).toBe(true)
    again.answer('right horse')
    expect(run.events.at(-1)).toMatchObject({ kind: 'lock-removed', owner: 'm.vega' })
  })

  it('lets whoever took a run up by name alone hand nothing over before they gave their word', () => {
    const { run, session } = crewed('read')
    const again = openSession(run, { ...session.options, person: vega, takenUp: true })
    again.answer('locks on')
    expect(again.answer('handover runa Q1=41 V1=42').said.join(' ')).toContain('`as m.vega`')
    again.answer('as m.vega')
    again.answer('right horse')
    again.answer('handover runa Q1=41 V1=42')
    again.answer('Runa Dahl')
    expect(run.events.at(-1)).toMatchObject({ kind: 'handed-over', to: 'runa' })
  })

  it('asks for nothing in a rehearsal', () => {
    const clock = standingClock()
    const session = openSession(memoryRun(pumpMachine, clock.now), {
      person: vega,
      keys: ringOf('tor'),
      now: clock.now,
      takenUp: false
    })
    session.answer('as tor')
    expect(session.screen().person).toBe('tor')
  })
})
