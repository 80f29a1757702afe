import { describe, expect, it } from 'vitest'
import { give, seal } from '../../fixtures/give-answers.js'
import { memoryRun, vega } from '../../fixtures/memory-run.js'
import { pumpMachine } from '../../fixtures/pump-machine.js'
import type { OfferInstruments } from '../step/with-instrument.js'
import { readAnswers } from './read-answers.js'
import { runAnswers } from './run-answers.js'
import { scriptedClock } from './scripted-clock.js'

describe('the answers of a sheet', () => {
  const six = '{ at: dead, ticks: all, readings: { mains: 0 V, link: 3 V, water: 0 bar } }'

  it('names a reading out of limits and does not take the next line for it', async () => {
    const list =
      '{ at: dead, ticks: all, reason: wrong switch, readings: { mains: [0 V, 200 V, 1 V], link: 3 V, water: 0 bar } }'
    const { faults, run } = await give(seal.replace(six, list))
    expect(faults).toEqual([
      '13 answers-missing: `mains: L to earth` read 200 V, which is out of limits (below 50 V), and no further reading of it is given.'
    ])
    expect(run.events.filter(({ kind }) => kind === 'reading')).toHaveLength(2)
    expect(run.events.at(-1)).toMatchObject({ kind: 'note', text: 'Why mains: L to earth read 200 V: wrong switch' })
  })

  it('takes several readings under one name line by line, and a second try under a name of its own', async () => {
    const list =
      '{ at: dead, ticks: all, reason: wrong switch, readings: { mains: [0 V, 1 V, 2 V], "mains: L to earth": [200 V, 4 V], link: 3 V, water: 0 bar } }'
    const { faults, run } = await give(seal.replace(six, list))
    expect(faults).toEqual([])
    const typed = run.events.flatMap((event) => (event.kind === 'reading' ? [event.typed] : []))
    expect(typed.slice(0, 4)).toEqual(['0 V', '200 V', '4 V', '2 V'])
    const short = await give(seal.replace(six, list.replace('[0 V, 1 V, 2 V]', '[0 V, 1 V, 2 V, 3 V]')))
    expect(short.faults[0]).toContain('answers-missing: The entry has 4 readings for the 2 lines `mains: L to N`')
  })

  it('wants the reason of a live reading in the file, but for a sheet says that it gives none', async () => {
    const list =
      '{ at: dead, ticks: all, readings: { "mains: L to N": [200 V, 0 V], mains: 0 V, link: 3 V, water: 0 bar } }'
    const typed = await give(seal.replace(six, list))
    expect(typed.faults).toEqual([
      '13 answers-reason: `mains: L to N` read 200 V, which is out of limits (below 50 V), and the entry does not say why.'
    ])
    const copied = await give(seal.replace(six, list), { onPaper: true }, 'draft')
    expect(copied.faults).toEqual([])
    expect(copied.outcome.remarks).toEqual([
      '`mains: L to N` read 200 V, which is out of limits (below 50 V); the sheet gives no reason.'
    ])
    expect(copied.run.events.find(({ kind }) => kind === 'note')).toMatchObject({
      text: 'Why mains: L to N read 200 V: the sheet gives no reason'
    })
  })

  it('enters what was read before the work was stopped there', async () => {
    const { run, faults } = await give(
      seal
        .replace(
          six,
          '{ at: dead, ticks: all, readings: { "mains: L to N": 200 V }, reason: a second feed, stop: live }'
        )
        .replace(/ {2}- \{ at: change(.|\n)*/, '')
    )
    expect(faults).toEqual([])
    expect(run.events.slice(-3).map(({ kind }) => kind)).toEqual(['reading', 'note', 'stopped'])
  })

  it('finds a step by its number on the sheet for every generation', async () => {
    const { faults, outcome } = await give(
      seal.replace('at: tell }', 'step: 5 }').replace('at: lock,', 'step: 7, at: lock,')
    )
    expect(faults).toEqual([])
    expect(outcome.ended).toBe('finished')
    const wrong = await give(seal.replace('at: tell }', 'step: 6 }'))
    expect(wrong.faults).toEqual([
      '6 answers-order: The answer is for step 6, but the run stands at `tell` (step 5 on the sheet, Tell Control room).'
    ])
    expect((await give(seal.replace('at: lock,', 'step: 8, at: lock,'))).faults[0]).toContain('answers-order')
  })

  it('goes on with a sheet that was entered in part, from the very answer that was refused', async () => {
    const wrong = seal.replace('link: 3 V', '"link: P to M": 90 V, link: 3 V')
    const first = await give(wrong, { onPaper: true }, 'draft')
    expect(first.faults).toHaveLength(1)
    const mended = readAnswers(seal.replace('link: 3 V', '"link: P to M": [90 V, 2 V], link: 3 V'), 'seal.yaml')
    if (!mended.ok) throw new Error('not read')
    const clock = scriptedClock('2026-03-02T07:00:00Z')
    const run = memoryRun(pumpMachine, () => clock.now().at, { mode: 'draft', events: first.run.events })
    const io = {
      person: vega,
      keys: null,
      takenUp: false,
      clock: { kind: 'scripted', clock },
      onPaper: true,
      goesOn: true,
      passphrase: () => ({ ok: false as const, why: '' })
    } as const
    const outcome = await runAnswers(run, mended.value, io)
    expect(outcome).toMatchObject({ ended: 'finished', faults: [], given: 19 })
    const taken = run.events.flatMap((event) => (event.kind === 'reading' ? [event.typed] : []))
    expect(taken.filter((typed) => typed === '90 V')).toHaveLength(1)
    const other = memoryRun(pumpMachine, () => clock.now().at, { mode: 'draft', events: first.run.events })
    const foreign = await runAnswers(other, { ...mended.value, answers: mended.value.answers.slice(1) }, io)
    expect(foreign.faults.map(({ what }) => what)).toEqual([
      'The run has done `prepare.gather` (Gather the tools, parts and protective equipment); the sheet does not say so here.'
    ])
  })

  it.each([
    ['T1, G1', ['T1', 'G1']],
    ['G1, T1', ['T1', 'G1']],
    // What fits nothing stands in the record as the sheet has it.
    ['T9', ['T9', 'T9']],
    [null, [undefined, undefined]]
  ])('says with which instrument a reading was taken, as the sheet does: %s', async (written, recorded) => {
    const instruments: OfferInstruments = ({ unit, source }) =>
      source === null ? null : [{ id: unit === 'V' ? 'T1' : 'G1', tell: '' }]
    const text = written === null ? seal : seal.replace('{ at: dead,', `{ at: dead, with: [${written}],`)
    const { run, faults } = await give(text, { onPaper: true, instruments })
    expect(faults).toEqual([])
    const taken = run.events.filter((event) => event.kind === 'reading')
    expect([taken[0]?.instrument, taken.at(-3)?.instrument]).toEqual(recorded)
    expect(taken.at(-1)?.instrument).toBeUndefined()
  })

  it('takes each instrument of a list for what it fits, in a run on the screen too', async () => {
    const instruments: OfferInstruments = ({ unit, source }) =>
      source === null ? null : [{ id: unit === 'V' ? 'T1' : 'G1', tell: '' }]
    const { run, faults } = await give(seal.replace('{ at: dead,', '{ at: dead, with: [g1, T1],'), { instruments })
    expect(faults).toEqual([])
    const named = run.events.flatMap((event) => (event.kind === 'reading' ? [event.instrument ?? 'none'] : []))
    expect([...new Set(named)]).toEqual(['T1', 'G1', 'none'])
  })

  it('refuses a wait whose written times are shorter than it, before anything of it is recorded', async () => {
    const wait = (ended: string) =>
      seal.replace('wait: over }', `wait: over, time: 2026-03-02T07:06:00Z, ended: ${ended} }`)
    const short = await give(wait('2026-03-02T07:06:30Z'), { onPaper: true }, 'draft')
    expect(short.faults[0]).toMatch(/answers-wait: The wait.* It began at 2026-03-02T07:06:00Z.*: 30 s\./)
    expect(short.run.events.some(({ kind }) => kind === 'wait-started')).toBe(false)
    const kept = await give(wait('2026-03-02T07:30:00Z'), { onPaper: true }, 'draft')
    expect(kept.faults).toEqual([])
    const done = kept.run.events.find((event) => event.kind === 'done' && event.state === 'relieve')
    expect(done?.at).toBe('2026-03-02T07:30:00.000Z')
  })

  it('records nothing for a time that is still to come', async () => {
    const late = { onPaper: true, notAfter: () => '2026-03-02T07:05:30Z' }
    const wait = await give(seal, late, 'draft')
    expect(wait.faults[0]).toMatch(/answers-time: This would be recorded for .* and it is 2026-03-02T07:05:30Z now/)
    expect(wait.run.events.every(({ at }) => Date.parse(at) <= Date.parse('2026-03-02T07:05:30Z'))).toBe(true)
    const dated = await give(seal.replace('{ at: leak,', '{ at: leak, time: 2026-03-02T08:00:00Z,'), late, 'draft')
    expect(dated.faults[0]).toContain('5 answers-time')
    expect(dated.outcome.given).toBe(2)
  })

  it('knows who came under the lockout and left it', async () => {
    const joins = '  - { people: [{ joins: m.orin, locks: { Q1: 41, V1: 42 }, time: 2026-03-02T08:00:00Z }] }\n'
    const leaves = '  - { people: { leaves: m.orin } }\n'
    const text = seal
      .replace('  - { at: away }', `${joins}  - { at: away }`)
      .replace('  - { at: unlock', `${leaves}  - { at: unlock`)
    const { faults, run, outcome } = await give(text, { onPaper: true }, 'draft')
    expect(faults).toEqual([])
    expect(outcome.ended).toBe('finished')
    expect(run.events.find(({ kind }) => kind === 'joined')).toMatchObject({
      by: 'm.orin',
      at: '2026-03-02T08:00:00.000Z'
    })
    expect(run.events.some((event) => event.kind === 'left' && event.by === 'm.orin')).toBe(true)
    const wrong = await give(seal.replace('{ at: away }', '{ people: { joined: m.orin } }')).catch(
      (error: Error) => error
    )
    expect(String(wrong)).toContain('`joined` is not known in `people`')
  })

  it('says with which instrument each was read, also where the site keeps no list', async () => {
    const text = seal.replace('{ at: dead,', '{ at: dead, with: { "mains: L to N": T1, water: G1 },')
    const { run, faults } = await give(text, { onPaper: true }, 'draft')
    expect(faults).toEqual([])
    const named = run.events.flatMap((event) => (event.kind === 'reading' ? [event.instrument ?? '-'] : []))
    expect(named).toEqual(['T1', ...named.slice(1, -3).map(() => '-'), 'G1', '-', '-'])
  })

  it('finds a step by the numbers of the sheet that was printed', async () => {
    const numbers = new Map(pumpMachine.states.map(({ id }, index) => [id, index + 101]))
    const state = pumpMachine.states.findIndex(({ id }) => id === 'tell') + 101
    const text = seal.replace('at: tell }', `step: ${state} }`)
    expect((await give(text, { numbers })).faults).toEqual([])
    expect((await give(text)).faults[0]).toContain('answers-order')
  })
})
