import { describe, expect, it } from 'vitest'
import { memoryRun, standingClock, vega } from '../../fixtures/memory-run.js'
import { pumpLines } from '../../fixtures/pump-lines.js'
import { pumpMachine } from '../../fixtures/pump-machine.js'
import { sessionAt } from '../../fixtures/session-at.js'
import type { KeyRing } from '../run-port.js'
import { openSession, type Session } from '../session/session.js'
import { columnsOf } from '../text/columns.js'
import { frameOf, type Size } from './frame.js'
import { firstView, press } from './press.js'
import type { Row } from './row.js'

const sizes: readonly Size[] = [
  { columns: 80, rows: 23 },
  { columns: 40, rows: 19 },
  { columns: 60, rows: 12 },
  { columns: 59, rows: 23 },
  { columns: 200, rows: 59 },
  { columns: 20, rows: 10 }
]

/** A line of the screen as it is read, with what stands beside it. */
const whole = ({ text, beside }: Row): string => (beside === undefined ? text : `${text} | ${beside.text}`)

/** Types the whole job, handing over the session before each line. */
function throughout(look: (session: Session, now: string, line: string) => void): void {
  const clock = standingClock()
  const session = openSession(memoryRun(pumpMachine, clock.now), {
    person: vega,
    keys: null,
    now: clock.now,
    takenUp: false
  })
  for (const line of pumpLines) {
    look(session, clock.now(), line)
    clock.pass(5)
    expect(session.answer(line).refused).toBe(false)
    if (session.asked().kind !== 'waiting') continue
    look(session, clock.now(), '')
    clock.set(session.due() ?? '')
    session.passTime()
  }
}

describe('frameOf', () => {
  it.each(sizes)('overflows nowhere in the whole job at $columns x $rows', (size) => {
    throughout((session, now) => {
      for (const page of [
        null,
        session.answer('why').page,
        session.answer('whole').page,
        session.answer('help').page
      ]) {
        const { rows } = frameOf(session.screen(), { ...firstView, page, said: ['Not taken: something.'] }, size, now)
        expect(rows.length).toBeLessThanOrEqual(size.rows)
        for (const each of rows) expect(columnsOf(whole(each))).toBeLessThanOrEqual(size.columns)
      }
    })
  })

  it.each(sizes)('cuts nothing off at $columns x $rows: what has no room is scrolled to', (size) => {
    throughout((session, now) => {
      const screen = session.screen()
      let view = firstView
      let seen = ''
      for (let page = 0; page < 60; page++) {
        const frame = frameOf(screen, view, size, now)
        seen += frame.rows.map(({ text }) => text).join(' ')
        if (frame.below === 0) break
        view = press(session, view, { kind: 'page-down' }, size).view
      }
      const letters = (text: string): string => text.replace(/[^\p{L}\p{N}]/gu, '')
      const all = [
        screen.title,
        ...screen.body,
        screen.question,
        ...screen.keys.map(({ does }) => does),
        ...screen.boxes.map(({ text }) => text)
      ]
      const words = all.flatMap((text) => text.split(' ')).filter((word) => word.length < 12)
      for (const word of words) expect(letters(seen)).toContain(letters(word))
    })
  })

  it('shows every source by a shape and a word at 80 x 24 and 40 x 20', () => {
    const shown = new Set<string>()
    throughout((session, now) => {
      for (const size of sizes.slice(0, 2)) {
        const text = frameOf(session.screen(), firstView, size, now).rows.map(whole).join(' ').replace(/\s+/g, ' ')
        for (const { shape, word, source } of session.screen().energies) {
          expect(text).toContain(`${shape} ${source} ${word.toUpperCase()}`)
          shown.add(`${shape} ${word}`)
        }
      }
    })
    expect([...shown].sort()).toEqual([
      '[!] on',
      '[#] locked',
      '[-] released',
      '[/] off',
      '[=] proven',
      '[~] holds energy'
    ])
  })
})

describe('a small screen', () => {
  const small: Size = { columns: 40, rows: 19 }
  const textOf = (session: Session, size: Size): string =>
    frameOf(session.screen(), firstView, size, session.options.now())
      .rows.map(({ text }) => text)
      .join('\n')

  it.each(sizes)('always shows `stop` and `help` at $columns x $rows, but not while words are asked for', (size) => {
    throughout((session) => {
      expect(textOf(session, size)).toMatch(/- (also: )?stop, help\b/)
    })
    const session = sessionAt('told')
    session.answer('pause')
    expect(textOf(session, size)).not.toContain('stop, help or')
  })

  it('keeps the question of a live reading in sight beside what was said last', () => {
    const session = sessionAt('0 V')
    session.answer('240 V')
    const { said } = session.answer('stop')
    const rows = frameOf(session.screen(), { ...firstView, said }, small, session.options.now()).rows
    expect(rows.map(({ text }) => text)).toContain('Why did mains: L to N read 240 V?')
  })

  it('tells how every source stands, the last ones by number where there is no room', () => {
    const screen = sessionAt('told').screen()
    const energies = Array.from({ length: 9 }, (_, index) => ({
      source: `source-${index}`,
      word: index < 6 ? ('proven' as const) : ('on' as const),
      shape: index < 6 ? '[=]' : '[!]',
      more: ''
    }))
    const text = frameOf({ ...screen, energies }, firstView, small, '2026-03-02T07:00:00Z').rows.map(whole)
    // What is on is shown by name, however late it was declared.
    for (const name of ['source-6', 'source-7']) expect(text.join('\n')).toContain(`[!] ${name} ON`)
    expect(text.find((line) => line.startsWith('+'))).toBe('+5 (5 PROVEN): type sources')
    const beside = frameOf({ ...screen, energies }, firstView, { columns: 80, rows: 14 }, '2026-03-02T07:00:00Z')
    expect(beside.rows.map(whole).join('\n')).toMatch(/\+\d sources: type sources/)
  })
})

describe('press', () => {
  const size: Size = { columns: 80, rows: 23 }

  it('takes no confirmation before all of the step was on the screen', () => {
    const clock = standingClock()
    const session = openSession(memoryRun(pumpMachine, clock.now), {
      person: vega,
      keys: null,
      now: clock.now,
      takenUp: false
    })
    for (const line of pumpLines.slice(0, pumpLines.indexOf('read'))) session.answer(line)
    const small: Size = { columns: 24, rows: 12 }
    const first = frameOf(session.screen(), firstView, small, clock.now())
    expect(first.below).toBeGreaterThan(0)
    let pressed = press(session, firstView, { kind: 'text', text: session.screen().oneKey ?? '' }, small)
    expect(pressed.view.said.join(' ')).toMatch(/^Not taken yet: /)
    expect(session.asked().kind).toBe('notice')
    for (let page = 0; page < 20 && session.asked().kind === 'notice'; page++) {
      pressed = press(session, pressed.view, { kind: 'text', text: session.screen().oneKey ?? '' }, small)
    }
    expect(session.asked().kind).toBe('start-wait')
  })

  it('takes a right word once the rest was read to its end, though the step has grown since', () => {
    const session = sessionAt('0 V')
    const low: Size = { columns: 60, rows: 14 }
    let { view } = press(session, firstView, { kind: 'down' }, low)
    for (let page = 0; page < 20; page++) view = press(session, view, { kind: 'page-down' }, low).view
    for (const line of pumpLines.slice(pumpLines.indexOf('0 V'), pumpLines.indexOf('proven'))) {
      view = press(session, view, { kind: 'text', text: `${line}\r` }, low).view
    }
    expect(session.asked().kind).toBe('done')
    expect(frameOf(session.screen(), { ...view, scroll: 0 }, low, session.options.now()).below).toBeGreaterThan(0)
    press(session, view, { kind: 'text', text: 'proven\r' }, low)
    expect(session.run.snapshot.state).not.toBe('dead')
  })

  it('ticks a line once it was on the screen, however small the screen is', () => {
    const session = sessionAt('1 2 3 4')
    session.answer('1 2 3')
    const small = { columns: 40, rows: 12 }
    const first = press(session, firstView, { kind: 'text', text: '4' }, small)
    expect(first.view.said.join(' ')).toContain('was not on the screen')
    expect(session.asked().kind).toBe('boxes')
    let { view } = first
    for (let page = 0; page < 9; page++) view = press(session, view, { kind: 'page-down' }, small).view
    press(session, view, { kind: 'text', text: '4' }, small)
    expect(session.asked().kind).toBe('done')
  })

  it('ticks two lines by `2,3`', () => {
    const session = sessionAt('1 2 3 4')
    session.answer('1')
    const { view } = press(session, firstView, { kind: 'text', text: '2,3' }, size)
    expect(view.line).toBe('')
    expect(
      session
        .screen()
        .boxes.filter(({ ticked }) => ticked)
        .map(({ number }) => number)
    ).toEqual([1, 2, 3])
  })

  it('takes the one key at once, and the Enter behind it answers nothing', () => {
    const clock = standingClock()
    const session = openSession(memoryRun(pumpMachine, clock.now), {
      person: vega,
      keys: null,
      now: clock.now,
      takenUp: false
    })
    for (const line of pumpLines.slice(0, pumpLines.indexOf('told'))) session.answer(line)
    press(session, firstView, { kind: 'text', text: `${session.screen().oneKey}\r\r\r` }, size)
    expect(session.run.snapshot.state).toBe('halt')
    expect(session.screen().boxes.some(({ ticked }) => ticked)).toBe(false)
  })

  it('has whoever stops the work sign, with no letter of the passphrase on the screen', () => {
    const clock = standingClock()
    const keys: KeyRing = { has: () => true, open: (person) => ({ ok: true, signer: { person, key: {} as never } }) }
    const run = memoryRun(pumpMachine, clock.now, { mode: 'issued' })
    const session = openSession(run, { person: vega, keys, now: clock.now, takenUp: false })
    const asked = press(session, firstView, { kind: 'text', text: 'stop smoke\rhush' }, size)
    const rows = frameOf(session.screen(), asked.view, size, clock.now()).rows.map(({ text }) => text)
    expect(rows.join('\n')).toContain('Passphrase of m.vega, who signs that the work stops here')
    expect(rows.at(-1)).toBe('> ****_')
    expect(press(session, asked.view, { kind: 'enter' }, size).ended).toBe('stopped')
    expect(run.signedBy).toEqual(['m.vega'])
  })

  it('edits the line, and shows no letter of a passphrase', () => {
    const clock = standingClock()
    const keys: KeyRing = { has: () => true, open: () => ({ ok: false, why: 'No.', mend: '' }) }
    const session = openSession(memoryRun(pumpMachine, clock.now, { mode: 'issued' }), {
      person: vega,
      keys,
      now: clock.now,
      takenUp: false
    })
    let { view } = press(session, firstView, { kind: 'text', text: 'hélpx' }, size)
    view = press(session, view, { kind: 'backspace' }, size).view
    expect(view.line).toBe('hélp')
    for (const line of pumpLines.slice(0, pumpLines.indexOf('sign'))) {
      session.answer(line)
      clock.pass(400)
      session.passTime()
    }
    session.answer('sign')
    view = press(session, firstView, { kind: 'text', text: 'secret' }, { columns: 80, rows: 23 }).view
    const text = frameOf(session.screen(), view, { columns: 80, rows: 23 }, clock.now())
      .rows.map((row) => row.text)
      .join('\n')
    expect(text).toContain('> ******_')
    expect(text).not.toContain('secret')
  })
})
