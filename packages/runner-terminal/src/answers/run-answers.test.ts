import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { give, seal } from '../../fixtures/give-answers.js'
import { type MemoryRun, standingClock, type vega } from '../../fixtures/memory-run.js'
import { stepLines } from '../../fixtures/plain-run.js'
import { pumpLines } from '../../fixtures/pump-lines.js'
import type { KeyRing } from '../run-port.js'
import type { AnswersIo } from './run-answers.js'

describe('runAnswers', () => {
  it('steps a whole run by the scripted clock, its waits waited out', async () => {
    const { run, outcome, faults } = await give(seal)
    expect(faults).toEqual([])
    expect(outcome).toMatchObject({ ended: 'finished', given: 19, of: 19 })
    const times = run.events.map(({ at }) => Date.parse(at))
    expect(times).toEqual([...times].sort((one, other) => one - other))
    const over = run.events.find(({ kind }) => kind === 'wait-over')
    const started = run.events.find(({ kind }) => kind === 'wait-started')
    expect(Date.parse(over?.at ?? '') - Date.parse(started?.at ?? '')).toBe(300_000)
    expect(run.events.filter(({ kind }) => kind === 'reading')).toHaveLength(9)
  })

  it.each([
    [
      'an entry for another step',
      '{ at: tell }',
      '{ at: power }',
      '6 answers-order: The answer is for `power`, but the run stands at `tell` (step 5 on the sheet, Tell Control room).'
    ],
    [
      'a lock that is missing',
      ', V1: 18 } }\n  - { at: relieve',
      ' } }\n  - { at: relieve',
      '8 answers-missing: The entry has no lock for `V1`.'
    ],
    [
      'a wait that nobody waited out',
      '{ at: relieve, wait: over }',
      '{ at: relieve }',
      '9 answers-missing: The entry does not say that the wait was waited out.'
    ],
    [
      'a box that is not ticked',
      'ticks: [1, 2]',
      'ticks: [1]',
      '7 answers-missing: The entry does not say that line 2 was done.'
    ],
    [
      'a reading without a unit',
      'mains: 0 V',
      'mains: 0',
      '13 answers-refused: `0` was not taken: `0` has no unit. Type it with the unit that the instrument shows, such as `0 V`.'
    ],
    ['a reading that stays out of limits', 'link: 3 V', 'link: [90 V]', undefined],
    [
      'a surprising reading',
      'water: 0 bar',
      'water: 20 bar',
      '13 answers-surprise: `20 bar`: that is more than water can hold (4.2 bar at most).'
    ],
    [
      'an answer that is none',
      'choose: single',
      'choose: triple',
      '4 answers-refused: `triple` was not taken: `triple` is none of the answers. Type `1`, `2`, or an answer in full.'
    ],
    [
      'another time before the last',
      '{ at: tell }',
      '{ at: tell, time: 2026-03-02T06:00:00Z }',
      '6 answers-time: The time 2026-03-02T06:00:00Z lies before 2026-03-02T07:03:00Z, which the answers above it have come to.'
    ]
  ])('reports %s by its line and keeps what was taken', async (_, from, to, fault) => {
    const changed = seal.replace(from, to)
    expect(changed).not.toBe(seal)
    const { run, outcome, faults } = await give(changed)
    expect(faults).toHaveLength(1)
    if (fault !== undefined) expect(faults).toEqual([fault])
    expect(outcome.ended).toBe('input-ended')
    expect(run.snapshot.status).toBe('running')
    expect(run.snapshot.state).toBe(outcome.stands.state)
    expect(run.events.length).toBeGreaterThan(1)
  })

  it('says where answers are left over behind the end of a run', async () => {
    const { faults, outcome } = await give(`${seal}  - { at: tell }\n`)
    expect(faults).toEqual(['22 answers-left-over: The run was over before this answer: it is finished.'])
    expect(outcome.ended).toBe('finished')
  })

  it('stops where the entry says so', async () => {
    const { run, outcome } = await give('- { at: prepare.gather, ticks: all, note: one glove torn, stop: no gloves }\n')
    expect(outcome.ended).toBe('stopped')
    expect(run.events.map(({ kind }) => kind)).toEqual(['opened', 'note', 'stopped'])
  })

  it('does not set the clock of a run for work on the real machine', async () => {
    const { faults, run } = await give(seal, {}, 'issued')
    expect(faults).toEqual([
      '3 answers-clock: A run for work on the real machine takes its times from the computer, not from a file.'
    ])
    expect(run.events).toHaveLength(1)
  })

  it('gives each event the time of the sheet where a run is entered from paper', async () => {
    const { outcome, run } = await give(seal, { onPaper: true }, 'issued', () => '2030-01-01T00:00:00Z')
    expect(outcome.ended).toBe('finished')
    expect(run.events[1]?.at).toBe('2026-03-02T07:00:00.000Z')
  })

  it('never tells a passphrase', async () => {
    const keys: KeyRing = {
      has: () => true,
      open: () => ({ ok: false, why: 'That is not the passphrase.', mend: 'Type it again.' })
    }
    const text = seal.replace('sign: { person: m.vega }', 'sign: { person: m.vega, passphrase-from: env:VEGA }')
    const { faults, watched } = await give(
      text,
      { keys, passphrase: () => ({ ok: true, value: 'hush hush' }) },
      'draft'
    )
    expect(faults).toEqual([
      '12 answers-refused: The passphrase was not taken: That is not the passphrase. Type it again.'
    ])
    expect(JSON.stringify([faults, watched])).not.toContain('hush')
  })

  it.each([
    [
      'signs the end with the passphrase that the entry names',
      '{ at: end.finish, sign: { passphrase-from: env:VEGA } }',
      ['m.vega', 'm.vega'],
      undefined
    ],
    [
      'signs the end with the passphrase of the command where the entry names none',
      '{ at: end.finish }',
      ['m.vega', 'm.vega'],
      undefined
    ],
    ['closes unsigned where the entry says so', '{ at: end.finish, sign: no }', ['m.vega'], undefined],
    [
      'lets nobody sign what another closes',
      '{ at: end.finish, sign: { person: p.lind } }',
      ['m.vega'],
      '21 answers-refused: `p.lind` cannot sign what `m.vega` answers for.'
    ],
    [
      'does not go round in circles with a wrong passphrase',
      '{ at: end.finish, sign: { passphrase-from: env:WRONG } }',
      ['m.vega'],
      '21 answers-refused: The passphrase was not taken: That is not it. Type it again.'
    ],
    [
      'leaves the run open where no passphrase is to be had',
      '{ at: end.finish, sign: { passphrase-from: env:NONE } }',
      ['m.vega'],
      '21 answers-passphrase: The variable NONE is not set.'
    ]
  ])('%s', async (_, entry, signed, fault) => {
    const keys: KeyRing = {
      has: () => true,
      open: (person, passphrase) =>
        passphrase === 'hush'
          ? { ok: true, signer: { person, key: {} as never } }
          : { ok: false, why: 'That is not it.', mend: 'Type it again.' }
    }
    const passphrase: AnswersIo['passphrase'] = (from) =>
      from === 'env:NONE'
        ? { ok: false, why: 'The variable NONE is not set.' }
        : { ok: true, value: from === 'env:WRONG' ? 'loud' : 'hush' }
    const { run, faults } = await give(seal.replace('{ at: end.finish }', entry), { keys, passphrase }, 'draft')
    expect(faults).toEqual(fault === undefined ? [] : [fault])
    expect(run.signedBy).toEqual(signed)
    expect(run.snapshot.status).toBe(fault === undefined ? 'finished' : 'running')
  })

  it('signs a step that was done differently, before any further line', async () => {
    const keys: KeyRing = { has: () => true, open: (person) => ({ ok: true, signer: { person, key: {} as never } }) }
    const text = seal.replace(
      '{ at: tell }',
      '{ at: tell, type: [deviate told by mail, note the mail is attached], sign: { passphrase-from: env:VEGA } }'
    )
    const given: unknown[] = []
    const passphrase: AnswersIo['passphrase'] = (from) => {
      given.push(from)
      return { ok: true, value: 'hush' }
    }
    const { run, faults } = await give(text, { keys, passphrase }, 'draft')
    expect(faults).toEqual([])
    expect(run.events.map(({ kind }) => kind).slice(4, 6)).toEqual(['deviation', 'note'])
    expect(given).toEqual(['env:VEGA', null, null])
  })

  it('has whoever copies a sheet sign for its sign-offs and its end', async () => {
    const copiedBy = { person: 'p.lind' as typeof vega, key: {} as never }
    const { run } = await give(seal, { onPaper: true, copiedBy }, 'issued')
    expect(run.signedBy).toEqual(['p.lind', 'p.lind'])
  })

  it('leaves the same events as the same lines typed in the plain shell, however far they go', async () => {
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 0, max: pumpLines.length }), async (length) => {
        const lines = pumpLines.slice(0, length)
        const typed = await stepLines(lines, { clock: standingClock() })
        const { run } = await give(lines.map((line) => `- ${JSON.stringify(line)}\n`).join('') || '[]')
        const bare = ({ events }: MemoryRun) => events.map((event) => ({ ...event, at: '' }))
        expect(bare(run)).toEqual(bare(typed.run))
      }),
      { numRuns: 25, seed: 20260302 }
    )
  })

  it.each([
    ["'4,2 bar'", []],
    ["'4,205 bar'", ['`4,205` can be read as 4205 or as 4.205: type one of these.']],
    // A list parts at its commas: what is left of the reading has no unit, and nothing is taken for another number.
    ['4,2 bar', ['`4` has no unit.']]
  ])('takes a decimal comma in `%s` where it can only be that', async (written, told) => {
    const { run, faults } = await give(seal.replace('4.2 bar', written))
    expect(run.snapshot.status).toBe(told.length === 0 ? 'finished' : 'running')
    expect(faults).toHaveLength(told.length)
    for (const [index, text] of told.entries()) expect(faults[index]).toContain(text)
  })
})
