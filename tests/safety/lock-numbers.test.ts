import { advance, isSameLock, lockNumber, start } from '@lockwright/machine'
import { describe, expect, it } from 'vitest'
import { fanMachine } from '../../packages/records/fixtures/fan-machine.js'
import { fanJob } from '../../packages/records/fixtures/plant.js'

describe('the number on a padlock', () => {
  // Unicode Standard Annex 15: compatibility forms, such as full-width digits, are one character with their plain form.
  it.each([
    ['41', '041'],
    ['41', ' 4 1 '],
    ['41', '\uff14\uff11'],
    ['41', '0041\u00a0'],
    ['41', '4\u200b1'],
    ['A-7', 'a-007'],
    ['stra\u00dfe 1', 'STRASSE 1'],
    ['0', '000'],
    ['\u212b1', 'a\u030a1']
  ])('%j is that of %j', (one, other) => {
    expect(isSameLock(one, other)).toBe(true)
    expect(isSameLock(other, one)).toBe(true)
  })

  it.each([
    ['41', '410'],
    ['41', '14'],
    ['4-1', '41'],
    ['A1', 'B1'],
    ['100', '10'],
    ['10', '1'],
    ['1 05', '15']
  ])('%j is not that of %j', (one, other) => {
    expect(isSameLock(one, other)).toBe(false)
  })

  it('is none where nothing shows', () => {
    for (const blank of ['', ' ', '\u200b', '\u00ad\u2003']) expect(lockNumber(blank)).toBe('')
  })

  it('hangs once in a run, however it is written, and stands in it as it was typed', () => {
    const joined = fanJob.findIndex(({ event }) => event.kind === 'joined')
    let snapshot = start(fanMachine)
    const take = (event: object, by: string, seconds: number) => {
      const at = new Date(Date.parse('2026-03-02T08:00:00Z') + seconds * 1000).toISOString()
      const taken = advance(fanMachine, snapshot, { ...event, at, by } as Parameters<typeof advance>[2])
      if (taken.ok) snapshot = taken.snapshot
      return taken
    }
    take({ kind: 'opened', mode: 'issued' }, 'odd', 0)
    for (const [index, { event, by }] of fanJob.slice(0, joined).entries()) {
      const typed = event.kind === 'lock-hung' ? { ...event, lock: ' 017' } : event
      expect(take(typed, by, (index + 1) * 400).ok).toBe(true)
    }
    const join = (lock: string) => take({ kind: 'joined', locks: [{ point: 'Q1', lock }] }, 'runa', 9000)
    expect(join('\uff11\uff17')).toMatchObject({ ok: false, refusals: [{ kind: 'crew' }] })
    expect(join('\u200b')).toMatchObject({ ok: false, refusals: [{ kind: 'crew' }] })
    expect(join('170').ok).toBe(true)
    expect(snapshot.locks.map(({ lock }) => lock)).toEqual([' 017', '170'])
  })
})
