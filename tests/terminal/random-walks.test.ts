import { advance, type Event, type PersonId, type Snapshot, start } from '@lockwright/machine'
import type { ProvedMachine } from '@lockwright/proof'
import { describe, expect, it } from 'vitest'
import { type MemoryRun, memoryRun, standingClock } from '../../packages/runner-terminal/fixtures/memory-run.js'
import { fittingLine } from '../../packages/runner-terminal/fixtures/walk.js'
import { frameOf, type Size, type View } from '../../packages/runner-terminal/src/full-screen/frame.js'
import { afterClock, firstView, press } from '../../packages/runner-terminal/src/full-screen/press.js'
import { openSession, type Session } from '../../packages/runner-terminal/src/session/session.js'
import { columnsOf } from '../../packages/runner-terminal/src/text/columns.js'
import { libraryMachines } from './machines.js'

/** Another first seed walks other ways: LOCKWRIGHT_SEED=7 npx vitest run tests/terminal/random-walks */
const firstSeed = Number(process.env['LOCKWRIGHT_SEED'] ?? 1)
const walks = 500
const mostTurns = 600
const vega = 'm.vega' as PersonId

/** Mulberry32: small, seeded, good enough to wander with; from memory. */
function numbersFrom(seed: number): (below: number) => number {
  let state = seed >>> 0
  return (below) => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) % below
  }
}

const nonsense = [
  '',
  '???',
  '-1',
  '99',
  'proven',
  'note it hums',
  'why',
  'whole',
  'sources',
  'record',
  'help',
  '5 kV',
  'skip'
]

/** One walk, and how it came out. */
function walk(machine: ProvedMachine, seed: number) {
  const pick = numbersFrom(seed)
  const clock = standingClock()
  let run: MemoryRun = memoryRun(machine, clock.now)
  let session: Session = open(false)
  let view: View = firstView
  let size: Size = sizeOf()
  let kills = 0
  let onScreen = true
  for (let turn = 0; turn < mostTurns && isOpen(run.snapshot); turn++) {
    clock.pass(pick(40))
    if (session.isDue()) view = afterClock(session, view).view
    if (run.snapshot.status === 'paused' || pick(40) === 0) killed()
    if (pick(12) === 0) size = sizeOf()
    onScreen = pick(16) === 0
    if (onScreen) look()
    if (pick(60) === 0) typed('pause the shift is over')
    else if (pick(8) === 0) typed(nonsense[pick(nonsense.length)] ?? '')
    else answered()
    const due = session.asked().kind === 'waiting' ? session.due() : null
    if (due === null) continue
    if (onScreen) look()
    // A wait is waited out, be it by the session that comes after a kill.
    clock.set(due)
    view = afterClock(session, view).view
  }
  return { run, kills }

  function open(takenUp: boolean): Session {
    return openSession(run, { person: vega, keys: null, now: clock.now, takenUp })
  }

  /** The session is dropped without a word; the next one has nothing but what was recorded. */
  function killed(): void {
    kills += 1
    run = memoryRun(machine, clock.now, { events: run.events })
    session = open(true)
    view = firstView
  }

  function sizeOf(): Size {
    return pick(9) === 0
      ? { columns: 1 + pick(30), rows: 1 + pick(12) }
      : { columns: 20 + pick(180), rows: 10 + pick(50) }
  }

  function look(): void {
    const { rows } = frameOf(session.screen(), view, size, clock.now())
    if (rows.length > size.rows) throw new Error(`${rows.length} lines on ${size.rows} rows`)
    for (const { text, beside } of rows) {
      const columns = columnsOf(text) + (beside === undefined ? 0 : 3 + columnsOf(beside.text))
      if (columns > size.columns) throw new Error(`wider than ${size.columns}: ${text} | ${beside?.text ?? ''}`)
    }
  }

  /** Now and then at the keys of the full screen; else as a line, which costs a tenth. */
  function typed(line: string): void {
    if (!onScreen) {
      session.answer(line)
      return
    }
    view = press(session, { ...view, line: '', page: null }, { kind: 'text', text: `${line}\r` }, size).view
  }

  function answered(): void {
    if (!onScreen) {
      if (session.question() === null) typed(fittingLine(session, pick))
      else typed('something was not as it should be')
    } else if (session.question()?.kind === 'live-reason') typed('something was not as it should be')
    else if (session.question() !== null) typed('as asked')
    else {
      // What does not fit is paged through first, as a person would.
      for (let page = 0; page < 40 && frameOf(session.screen(), view, size, clock.now()).below > 0; page++) {
        view = press(session, view, { kind: 'page-down' }, size).view
      }
      typed(fittingLine(session, pick))
    }
  }
}

function isOpen({ status }: Snapshot): boolean {
  return status === 'running' || status === 'paused'
}

/** Where the events lead by `advance` alone, with no runner in between. */
function replayed(machine: ProvedMachine, events: readonly Event[]): Snapshot {
  return events.reduce<Snapshot>((snapshot, event) => {
    const advanced = advance(machine, snapshot, event)
    if (!advanced.ok) throw new Error(advanced.refusals[0].why)
    return advanced.snapshot
  }, start(machine))
}

describe.each([...libraryMachines()])(`${walks} seeded random walks over %s`, { timeout: 240_000 }, (name, machine) => {
  it('end where `advance` says, through pauses, kills, resizes and nonsense', () => {
    const ends = new Map<string, number>()
    let killed = 0
    for (let seed = firstSeed; seed < firstSeed + walks; seed++) {
      try {
        const { run, kills } = walk(machine, seed)
        killed += kills
        expect(run.snapshot).toEqual(replayed(machine, run.events))
        const end = isOpen(run.snapshot) ? 'open' : run.snapshot.state
        ends.set(end, (ends.get(end) ?? 0) + 1)
      } catch (error) {
        throw new Error(`seed ${seed} over ${name}: ${error instanceof Error ? error.message : String(error)}`, {
          cause: error
        })
      }
    }
    const told = [...ends].map(([end, times]) => `${end} ${times}`).join(', ')
    process.stdout.write(`${name}: seeds ${firstSeed} to ${firstSeed + walks - 1}, ${killed} kills; ends: ${told}\n`)
    // The walks wander far: to the finish and to a stop; and hardly one gets stuck.
    const closed = [...ends.keys()].map((id) => machine.states.find((state) => state.id === id)?.kind)
    expect(closed).toEqual(expect.arrayContaining(['finish', 'stop']))
    expect(killed).toBeGreaterThan(walks / 2)
    expect(ends.get('open') ?? 0).toBeLessThan(walks / 10)
  })
})
