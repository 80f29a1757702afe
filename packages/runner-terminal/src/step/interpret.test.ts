import { describe, expect, it } from 'vitest'
import { vega } from '../../fixtures/memory-run.js'
import { eventsOf, ringOf, sessionAt } from '../../fixtures/session-at.js'
import { openSession, type Session } from '../session/session.js'

describe('a typed line', () => {
  it('confirms by the word or the digit shown, and by nothing else', () => {
    for (const wrong of ['yes', 'y', 'ok', 'tol', '1']) {
      const session = sessionAt('told')
      expect(session.answer(wrong).refused).toBe(true)
      expect(session.run.snapshot.state).toBe('tell')
    }
    for (const right of ['told', 'Told', ' told ', sessionAt('told').screen().oneKey ?? '']) {
      const session = sessionAt('told')
      session.answer(right)
      expect(session.run.snapshot.state).toBe('halt')
    }
  })

  it('never confirms two gates in a row by the same key or word', () => {
    const session = sessionAt('told')
    let last: string | null = null
    for (let steps = 0; steps < 100 && session.asked().kind !== 'nothing'; steps++) {
      const asked = session.asked()
      const key = 'confirm' in asked ? asked.confirm.key : null
      if (key !== null) expect(key).not.toBe(last)
      const line = key ?? answerTo(session)
      last = line
      expect(session.answer(line)).toMatchObject({ refused: false })
      if (session.asked().kind === 'waiting') return
    }
  })

  it('chooses by number, by id and by words, and by nothing near them', () => {
    for (const right of ['1', 'single', 'SINGLE SEAL']) {
      const session = sessionAt('single')
      session.answer(right)
      expect(session.run.snapshot.ledger.axes).toEqual({ seal: 'single' })
    }
    for (const wrong of ['0', '3', 'sing', '1.0', '01x']) expect(sessionAt('single').answer(wrong).refused).toBe(true)
  })

  it('tells how each generation is told apart', () => {
    expect(sessionAt('single').screen().keys).toEqual([
      { type: '1', does: 'Single seal (One ring of bolts)' },
      { type: '2', does: 'Double seal (Two rings of bolts)' }
    ])
  })

  it('ticks only lines that are open', () => {
    const session = sessionAt('1 2 3 4')
    expect(session.answer('5').refused).toBe(true)
    session.answer('2,3,')
    expect(session.answer('2').refused).toBe(true)
    expect(
      session
        .screen()
        .boxes.filter(({ ticked }) => ticked)
        .map(({ number }) => number)
    ).toEqual([2, 3])
  })

  it('takes the number of a lock, with or without its point, and each lock once', () => {
    const session = sessionAt('17')
    expect(session.answer('V1 18').said[0]).toContain('`Q1` is asked for now')
    expect(session.answer('--').refused).toBe(true)
    session.answer('Q1 17')
    expect(session.answer('17').said[0]).toContain('already hangs on `Q1`')
    session.answer('18')
    expect(session.run.snapshot.locks).toEqual([
      { point: 'Q1', lock: '17', person: 'm.vega' },
      { point: 'V1', lock: '18', person: 'm.vega' }
    ])
  })

  it('takes a number without a digit only when it is typed twice', () => {
    const session = sessionAt('17')
    session.answer('my lock')
    expect(session.run.snapshot.locks).toEqual([])
    expect(session.screen().question).toBe('`my lock` holds no digit. Look at the lock again.')
    session.answer('17')
    expect(session.run.snapshot.locks).toMatchObject([{ point: 'Q1', lock: '17' }])
    session.answer('blue')
    session.answer('blue')
    expect(session.run.snapshot.locks).toMatchObject([{}, { point: 'V1', lock: 'blue' }])
  })

  it('says what to do about a number that was mistyped: at the lock it stays as it is', () => {
    const session = sessionAt('17')
    expect(session.answer('71').said).toEqual([
      'Recorded: lock 71 on Q1. Mistyped? It stays; put it right with `note`.'
    ])
    const off = sessionAt('18')
    expect(off.answer('81').said.join(' ')).toContain('Where another number stands on the lock')
  })

  it('takes off only the lock that hangs there', () => {
    const session = sessionAt('18')
    session.answer('18')
    expect(session.answer('19').said[0]).toContain('not the lock that m.vega hung on `Q1`')
  })

  it.each([
    ['0.69 kV', 690],
    ['50V', 50],
    ['4,2 V', 4.2],
    ['-12 V', -12]
  ])('reads %s as %s V', (typed, value) => {
    const session = sessionAt('0 V')
    session.answer(typed)
    // 690 V is far above what the 230 V mains can hold: it counts when it is typed twice.
    if (session.question() !== null) session.answer(typed)
    expect(eventsOf(session).at(-1)).toMatchObject({ kind: 'reading', value, typed })
  })

  it.each(['50', '', 'dead', '1,480 V', '5 bar', '0 V 0 V', 'NaN V', '1e3 V'])('refuses %j for a reading', (typed) => {
    const session = sessionAt('0 V')
    const before = eventsOf(session).length
    session.answer(typed)
    expect(eventsOf(session)).toHaveLength(before)
    expect(session.question()).toBeNull()
  })

  it.each([
    ['en', '4,2 V', 4.2],
    ['en', '4.205 V', 4.205],
    ['en', '4,205 V', null],
    ['de', '4,2 V', 4.2],
    ['de', '4.2 V', 4.2],
    ['de', '4,205 V', 4.205],
    ['es-MX', '4.205 V', null],
    ['fr', '4.205 V', null]
  ])('takes a decimal as a sheet in %s prints it: %s is %s', (language, typed, value) => {
    const session = sessionAt('0 V', null, language)
    const before = eventsOf(session).length
    session.answer(typed)
    if (value === null) expect(eventsOf(session)).toHaveLength(before)
    else expect(eventsOf(session).at(-1)).toMatchObject({ kind: 'reading', value, typed })
  })

  it('asks again for a reading that hardly can be right, and takes another in its place', () => {
    const session = sessionAt('0 V')
    session.answer('4 kV')
    expect(session.screen().question).toContain('more than mains can hold (253 V at most)')
    session.answer('0 V')
    expect(eventsOf(session).at(-1)).toMatchObject({ kind: 'reading', value: 0 })
  })

  it('does not go on with a reading out of limits', () => {
    const session = sessionAt('0 V')
    session.answer('63 V')
    session.answer('')
    expect(session.asked()).toMatchObject({ kind: 'reading', last: { typed: '63 V', inside: false } })
    expect(session.screen().answered).toContain('mains: L to N: 63 V, OUT OF LIMITS (below 50 V)')
    expect(session.answer('proven').refused).toBe(true)
  })

  it('signs with a passphrase that is not shown, and refuses a wrong one', () => {
    const keys = ringOf('p.lind')
    const session = sessionAt('sign', keys)
    expect(session.screen().secret).toBe(false)
    session.answer('sign p.lind')
    expect(session.screen()).toMatchObject({ secret: true, question: 'Passphrase of p.lind' })
    expect(session.answer('wrong').said[0]).toBe('That is not the passphrase.')
    expect(session.screen()).toMatchObject({ secret: true, question: 'Passphrase of p.lind' })
    session.answer('right horse')
    expect(eventsOf(session).at(-1)).toMatchObject({ kind: 'signed', by: 'p.lind', meaning: 'The cover may be opened' })
    expect(session.run).toMatchObject({ signedBy: ['p.lind'] })
  })

  it('repeats nothing that was typed at a signer prompt, and leaves the question once no more is tried', () => {
    const keys = ringOf('m.vega')
    const people = () => [vega]
    const at = sessionAt('sign', keys)
    const session = openSession(at.run, { ...at.options, people })
    for (const line of ['right horse', 'sign horse', 'sign right horse']) {
      const { said, refused } = session.answer(line)
      expect(refused).toBe(true)
      expect(said.join(' ')).not.toContain('horse')
    }
    const tired = { ...keys, open: () => ({ ok: false, why: 'No more.', mend: '', final: true }) as const }
    const over = openSession(at.run, { ...at.options, keys: tired })
    over.answer('sign')
    over.answer('wrong')
    expect(over.screen().secret).toBe(false)
  })

  it('keeps a note, and takes a question back with an empty line', () => {
    const session = sessionAt('told')
    session.answer('note')
    session.answer('')
    session.answer('stop')
    session.answer('   ')
    expect(session.question()).toBeNull()
    session.answer('note')
    session.answer('the door sticks')
    expect(eventsOf(session).at(-1)).toMatchObject({ kind: 'note', text: 'the door sticks', by: 'm.vega' })
    expect(session.run.snapshot.status).toBe('running')
  })

  it.each(['stop', 'pause', 'note', 'deviate'])('takes no lone command for the words that `%s` asks for', (asks) => {
    const session = sessionAt('told')
    const before = eventsOf(session).length
    session.answer(asks)
    expect(session.screen().commands).toBe(false)
    for (const word of ['stop', 'Pause', 'help', 'leave']) {
      const { said, refused } = session.answer(word)
      expect(refused).toBe(true)
      expect(said.join(' ')).toContain('leave it with Enter alone')
    }
    expect(eventsOf(session)).toHaveLength(before)
    session.answer('')
    expect(session.screen().commands).toBe(true)
  })

  it('asks for no passphrase of somebody who may not sign', () => {
    const keys = ringOf('m.vega', 'p.lind')
    const at = sessionAt('sign', keys)
    const barred = (person: string) =>
      person === 'p.lind' ? { why: 'The roster does not show it.', mend: 'Have it signed by another.' } : null
    const session = openSession(at.run, { ...at.options, barred })
    expect(session.answer('sign p.lind')).toMatchObject({
      refused: true,
      said: ['The roster does not show it.', 'Have it signed by another.']
    })
    expect(session.screen().secret).toBe(false)
    session.answer('sign m.vega')
    expect(session.screen().secret).toBe(true)
  })

  it('sets each command apart from what it does', () => {
    const { page } = sessionAt('told').answer('help')
    expect(page?.lines).toContain('stop REASON: stop the work; locks stay on, the equipment stays out of service')
  })

  it('lets somebody else answer, join and leave', () => {
    const session = sessionAt('clear')
    expect(session.answer('join p.lind Q1=31').said[0]).toContain('V1')
    session.answer('join p.lind Q1=31 V1=32')
    expect(session.run.snapshot.crew).toEqual(['m.vega', 'p.lind'])
    session.answer('as p.lind')
    session.answer('clear')
    expect(eventsOf(session).at(-1)).toMatchObject({ kind: 'done', by: 'p.lind' })
    session.answer('left p.lind')
    expect(session.run.snapshot.crew).toEqual(['m.vega'])
  })

  it('tells why: the obligations of the step, each with its source', () => {
    const { page } = sessionAt('17').answer('why')
    expect(page?.lines.join('\n')).toMatch(/control-order: .*\n.*\n {2}Source: 29 CFR 1910\.147\(c\)\(9\)/)
    expect(page?.lines.join('\n')).toContain('work-isolated')
  })

  it('shows the whole procedure and where the run stands', () => {
    const { page } = sessionAt('told').answer('whole')
    expect(page?.lines.filter((line) => line.includes('here'))).toEqual(['=> Tell Control room (tell)  <= here'])
  })
})

function answerTo(session: Session): string {
  const asked = session.asked()
  switch (asked.kind) {
    case 'boxes':
      return String(asked.boxes[0].number)
    case 'lock':
      return asked.point === 'Q1' ? '17' : '18'
    default:
      throw new Error(asked.kind)
  }
}
