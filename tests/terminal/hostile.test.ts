import type { PersonId } from '@lockwright/machine'
import type { ProvedMachine } from '@lockwright/proof'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { memoryRun, standingClock } from '../../packages/runner-terminal/fixtures/memory-run.js'
import { pumpMachine } from '../../packages/runner-terminal/fixtures/pump-machine.js'
import { fittingLine } from '../../packages/runner-terminal/fixtures/walk.js'
import { frameOf } from '../../packages/runner-terminal/src/full-screen/frame.js'
import { firstView, press } from '../../packages/runner-terminal/src/full-screen/press.js'
import { stepInPlainLines } from '../../packages/runner-terminal/src/plain/step-in-plain-lines.js'
import type { KeyRing } from '../../packages/runner-terminal/src/run-port.js'
import { openSession, type SessionOptions } from '../../packages/runner-terminal/src/session/session.js'
import { tellStanding } from '../../packages/runner-terminal/src/session/tell-standing.js'

const seed = 20261126

/** What steers a terminal, turns the reading direction, or takes no room and hides something. */
const steering = [
  ...['\u0000', '\u0007', '\b', '\r', '\n', '\u001b', '\u007f', '\u0085', '\u009b', '\u009d', '\u0090'],
  ...['\u001b[2J', '\u001b]0;title\u0007', '\u001b]8;;http://x\u001b\\', '\u001bP+q\u001b\\', '\u001b[6n', '\u009b31m'],
  ...['\u202a', '\u202e', '\u2066', '\u2069', '\u200e', '\u200f', '\u061c'],
  ...['\u200b', '\u200c', '\u200d', '\u2060', '\ufeff', '\u00ad', '\u2028', '\u2029', '\u{e0041}', '\ud800']
] as const
const raw = /[\p{Cc}\u061c\u00ad\u200b\u200e\u200f\u2028-\u202e\u2060-\u2069\ufeff\ud800-\udfff\u{e0000}-\u{e007f}]/u

const hostile = fc
  .array(fc.oneof(fc.constantFrom(...steering), fc.string({ unit: 'grapheme', maxLength: 5 })), {
    minLength: 1,
    maxLength: 6
  })
  .map((parts) => parts.join(''))

/** Ids are what the machine hangs together by; everything that is written for a reader is poisoned. */
const written = [
  'title',
  'name',
  'label',
  'text',
  'tell',
  'ask',
  'is',
  'where',
  'safe',
  'reason',
  'meaning',
  'question'
]

function poisoned(machine: ProvedMachine, text: string): ProvedMachine {
  const poison = (value: unknown, key: string): unknown => {
    if (typeof value === 'string') return written.includes(key) && key !== 'is' ? `${value}${text}` : value
    if (Array.isArray(value)) return value.map((item) => poison(item, key))
    if (typeof value !== 'object' || value === null) return value
    return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, poison(inner, name)]))
  }
  return poison(machine, '') as ProvedMachine
}

function hostileSession(text: string) {
  const clock = standingClock()
  const machine = poisoned(pumpMachine, text)
  const person = `v${text}` as PersonId
  const run = memoryRun(machine, clock.now, { mode: 'issued', by: person })
  const keys: KeyRing = {
    has: () => true,
    open: (who, typed) =>
      typed === 'right' ? { ok: true, signer: { person: who, key: {} as never } } : { ok: false, why: text, mend: text }
  }
  const options: SessionOptions = {
    person,
    keys,
    now: clock.now,
    takenUp: false,
    warnings: () => [`Lock ${text}`],
    guide: () => [text],
    attach: (path) =>
      path.includes('no') ? { ok: false, why: path, mend: text } : { ok: true, name: text, sha256: '0'.repeat(64) },
    instruments: () => [{ id: `T1${text}`, tell: text }],
    barred: (_, role) => (role === ('nobody' as typeof role) ? { why: text, mend: text } : null)
  }
  return { run, clock, options, machine }
}

/** Every way in which typed text comes to be shown. */
const lines = (text: string): readonly string[] => [
  `note ${text}`,
  `attach ${text}`,
  'attach no such file',
  `as ${text}`,
  'as',
  '',
  `join ${text}`,
  `handover ${text}`,
  `deviate ${text}`,
  `whole ${text}`,
  text,
  'why',
  'whole',
  'record',
  'sources',
  'help',
  `pause`,
  text
]

describe('hostile text', { timeout: 60_000 }, () => {
  it(`comes out of the full screen with nothing raw in it (seed ${seed})`, () => {
    fc.assert(
      fc.property(
        hostile,
        fc.integer({ min: 0, max: 60 }),
        fc.constantFrom(20, 40, 80, 120),
        (text, steps, columns) => {
          const { run, clock, options } = hostileSession(text)
          const session = openSession(run, options)
          for (let step = 0; step < steps && session.question()?.kind !== 'passphrase'; step++) {
            if (session.question()?.kind === 'instrument') session.answer('1')
            else if (session.question() === null) session.answer(fittingLine(session, () => 0))
            else session.answer(`because ${text}`)
            const due = session.asked().kind === 'waiting' ? session.due() : null
            if (due !== null) clock.set(due)
            session.passTime()
          }
          const size = { columns, rows: 23 }
          let view = firstView
          for (const line of lines(text)) {
            if (run.snapshot.status !== 'running') break
            for (const character of line) view = press(session, view, { kind: 'text', text: character }, size).view
            view = press(session, view, { kind: 'enter' }, size).view
            for (const { text: shown, beside } of frameOf(session.screen(), view, size, clock.now()).rows) {
              expect(shown).not.toMatch(raw)
              expect(beside?.text ?? '').not.toMatch(raw)
            }
          }
          for (const line of tellStanding(run, clock.now())) expect(line).not.toMatch(raw)
        }
      ),
      { seed, numRuns: 60 }
    )
  })

  it(`comes out of the plain shell with nothing raw in it, line by line (seed ${seed})`, async () => {
    await fc.assert(
      fc.asyncProperty(hostile, fc.integer({ min: 0, max: 12 }), async (text, from) => {
        const { run, options } = hostileSession(text)
        const out: string[] = []
        async function* typed() {
          yield* ['1', '1 2 3 4', 'gathered', 'single', '1', 'told', '1', '2', 'shut down', 'L1'].slice(0, from)
          yield* lines(text)
        }
        await stepInPlainLines(run, {
          ...options,
          lines: typed(),
          write: (line) => out.push(line),
          sleepUntil: () => new Promise(() => {}),
          duringWaits: 'listen'
        })
        expect(out.length).toBeGreaterThan(10)
        for (const line of out) expect(line).not.toMatch(raw)
      }),
      { seed, numRuns: 60 }
    )
  })

  it('can fail: the same text written as it stands is found', () => {
    for (const text of steering.filter((each) => each !== '\u200c' && each !== '\u200d')) expect(text).toMatch(raw)
  })
})
