import type { PersonId } from '@lockwright/machine'
import { describe, expect, it } from 'vitest'
import { give } from '../../fixtures/give-answers.js'
import { ringOf } from '../../fixtures/session-at.js'

const now = (): string => '2026-03-02T07:00:00.000Z'
const live = {
  keys: ringOf('tor'),
  people: () => ['m.vega', 'tor', 'runa'] as PersonId[],
  nameOf: () => 'Runa Dahl',
  clock: { kind: 'computer', now, sleepUntil: () => Promise.resolve() },
  passphrase: (from: string | null) =>
    from === 'env:TOR'
      ? ({ ok: true, value: 'right horse' } as const)
      : ({ ok: false, why: 'It is not said where it is.' } as const)
} as const
const answers = (more: string) => `answers:\n  - { at: prepare.gather, ticks: all, by: ${more} }\n`

describe('an entry by somebody else, in a run for work on the real machine', () => {
  it('needs the passphrase of whoever has a key', async () => {
    const without = await give(answers('tor'), live, 'issued')
    expect(without.faults.join(' ')).toContain('answers-passphrase: `tor` has a key and gives their word for this')
    const given = await give(answers('tor, sign: { person: tor, passphrase-from: env:TOR }'), live, 'issued')
    expect(given.faults).toEqual([])
    expect(given.run.signedBy).toEqual(['tor'])
    expect(given.run.events.at(-1)).toMatchObject({ kind: 'done', by: 'tor' })
  })

  it('says of whoever has none that nothing proves it', async () => {
    const { run, faults } = await give(answers('runa'), live, 'issued')
    expect(faults).toEqual([])
    expect(run.events.find(({ kind }) => kind === 'note')).toMatchObject({
      by: 'runa',
      text: expect.stringContaining('Nothing proves it')
    })
  })

  it('needs nothing in a rehearsal', async () => {
    const { run, faults } = await give(answers('tor'), live)
    expect(faults).toEqual([])
    expect(run.events.at(-1)).toMatchObject({ kind: 'done', by: 'tor' })
  })
})
