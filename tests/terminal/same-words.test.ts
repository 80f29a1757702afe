import { askedInputs, type PersonId, start, stateOf } from '@lockwright/machine'
import { describe, expect, it } from 'vitest'
import { memoryRun, standingClock } from '../../packages/runner-terminal/fixtures/memory-run.js'
import { fittingLine } from '../../packages/runner-terminal/fixtures/walk.js'
import { openSession, type Session } from '../../packages/runner-terminal/src/session/session.js'
import { clearDesk } from '../../packages/runner-terminal/src/step/desk.js'
import { present } from '../../packages/runner-terminal/src/step/present.js'
import type { Screen } from '../../packages/runner-terminal/src/step/screen.js'
import { libraryMachines } from './machines.js'
import { fullWords, plainWords } from './words.js'

/** Tall enough that nothing is cut; narrow, with the sources above the step, and wide, with them beside it. */
const sizes = [
  { columns: 40, rows: 400 },
  { columns: 59, rows: 400 },
  { columns: 80, rows: 400 },
  { columns: 200, rows: 400 }
] as const
const now = '2026-03-02T07:00:00.000Z'
const vega = 'm.vega' as PersonId

function compare(screen: Screen, at: string): void {
  const plain = plainWords(screen, at)
  expect(plain.length).toBeGreaterThan(10)
  for (const size of sizes) expect(fullWords(screen, size, at), `${size.columns} columns`).toEqual(plain)
}

describe.each([...libraryMachines()])('%s', (_, machine) => {
  const resting = machine.states.filter(({ kind }) => kind !== 'branch' && kind !== 'timer' && kind !== 'back')

  it.each(resting.map(({ id }) => id))('has the same words in the same order in both shells at %s', (id) => {
    const state = stateOf(machine, id)
    const snapshot = { ...start(machine), state: id, status: 'running' as const, at: now }
    const desk = clearDesk(id)
    const read = state.notices.map((notice) => notice.id)
    const boxes = askedInputs(machine, snapshot.ledger, state).flatMap((input) =>
      input.kind === 'box' ? [input.id] : []
    )
    const desks = [
      desk,
      { ...desk, acknowledged: read },
      { ...desk, acknowledged: read, boxes },
      { ...desk, takenUp: true },
      { ...desk, question: { kind: 'pause-reason' as const } }
    ]
    for (const one of desks) {
      const shown = { machine, snapshot, desk: one, person: vega, mode: 'rehearsal' as const, entries: [] }
      const beside = { warnings: ['Lock 3 on Q1 of tor: on for 13 h.'], guide: ['Path 1 of 2'], skips: false }
      compare(present({ ...shown, ...beside, setOnSince: () => 0 }), now)
    }
  })

  it('and all along a run, with what was answered, waits, live readings and their decay', () => {
    const clock = standingClock()
    const run = memoryRun(machine, clock.now)
    const session = openSession(run, { person: vega, keys: null, now: clock.now, takenUp: false })
    let drawn = 0
    for (let turn = 0; turn < 400 && run.snapshot.status === 'running'; turn++) {
      const screen = session.screen()
      compare(screen, clock.now())
      drawn += screen.decays.length
      clock.pass(7)
      answer(session, turn)
      const due = session.asked().kind === 'waiting' ? session.due() : null
      if (due === null) continue
      compare(session.screen(), clock.now())
      clock.set(due)
      session.passTime()
    }
    expect(run.snapshot.status).not.toBe('running')
    expect(drawn).toBeGreaterThan(0)
  })
})

/** The first answer everywhere; the first two readings of a thing are far too high, so that a decay is shown. */
const tried = new Map<string, number>()
function answer(session: Session, turn: number): void {
  const asked = session.asked()
  if (session.question()?.kind === 'live-reason') {
    session.answer('it is still discharging')
    return
  }
  if (asked.kind === 'reading' && asked.input.source !== null) {
    const key = `${session.visit()} ${asked.input.id}`
    const times = tried.get(key) ?? 0
    tried.set(key, times + 1)
    if (times < 2) {
      session.answer(`${(asked.input.limits.below ?? 10) + 20 - 10 * times} ${asked.input.unit}`)
      return
    }
  }
  session.answer(fittingLine(session, () => turn % 1))
}
