import type { StateId } from '@lockwright/machine'
import { describe, expect, it } from 'vitest'
import { person, plantPeople } from '../fixtures/plant.js'
import type { BareEvent, Entry, RunId } from './entry.js'
import type { Roster } from './roster.js'
import { lockSpans, locksPastShift, shiftEnd, shiftHoursOf, usualShiftHours } from './shift.js'

const roster = (shiftHours?: number): Roster => ({
  site: 'Sandholm waterworks',
  serial: 1,
  signedAt: '2026-02-01T07:00:00.000Z',
  root: '',
  people: plantPeople,
  ...(shiftHours === undefined ? {} : { shiftHours })
})

/** Entries of the given hours of one day and the next. */
const entries = (...told: readonly (readonly [hour: number, by: string, event: object])[]): readonly Entry[] =>
  told.map(([hour, by, event], index) => ({
    run: 'fan' as RunId,
    seq: index + 1,
    prev: '',
    at: new Date(Date.parse('2026-03-02T00:00:00Z') + hour * 3_600_000).toISOString(),
    elapsed: 0,
    session: 1,
    by: person(by),
    state: 's' as StateId,
    event: event as BareEvent
  }))

const hung = { kind: 'lock-hung', state: 's', point: 'Q1', lock: '17' }
const off = (owner: string) => ({ kind: 'lock-removed', state: 's', point: 'Q1', owner })

describe('a shift', () => {
  it('is as long as the roster says, else as is usual', () => {
    expect([shiftHoursOf(roster(8)), shiftHoursOf(roster()), shiftHoursOf(null)]).toEqual([8, usualShiftHours, 12])
    expect(shiftEnd('2026-03-02T07:00:00Z', roster(8))).toBe('2026-03-02T15:00:00.000Z')
  })

  it('is not outlasted by a lock that came off in time, to the very end of it', () => {
    const spans = lockSpans(entries([7, 'odd', hung], [15, 'odd', off('odd')]))
    expect(spans).toMatchObject([{ person: 'odd', point: 'Q1', lock: '17', hungAt: 1, removedAt: 2 }])
    expect(locksPastShift(spans, '2026-03-09T00:00:00Z', roster(8))).toEqual([])
    expect(locksPastShift(spans, '2026-03-09T00:00:00Z', roster(7.9))).toMatchObject([{ hours: 8 }])
  })

  it('is outlasted by one that still hangs, and not before its end', () => {
    const spans = lockSpans(entries([7, 'odd', hung]))
    expect(locksPastShift(spans, '2026-03-02T15:00:00Z', roster(8))).toEqual([])
    expect(locksPastShift(spans, '2026-03-02T17:00:00Z', roster(8))).toMatchObject([
      { person: 'odd', until: null, hours: 10, shiftEnd: '2026-03-02T15:00:00.000Z' }
    ])
  })

  it('ends with a handover: the incoming lock begins a span of its own', () => {
    const over = { kind: 'handed-over', to: 'runa', locks: [{ point: 'Q1', lock: '4' }] }
    const told = [
      [7, 'odd', hung],
      [9, 'liv', { kind: 'joined', locks: [{ point: 'Q1', lock: '5' }] }],
      [14, 'odd', over],
      [15, 'liv', { kind: 'left' }],
      [21, 'runa', off('runa')]
    ] as const
    const spans = lockSpans(entries(...told))
    expect(spans.map(({ person: whose, hungAt, removedAt }) => [whose, hungAt, removedAt])).toEqual([
      ['odd', 1, 3],
      ['liv', 2, 4],
      ['runa', 3, 5]
    ])
    expect(locksPastShift(spans, '2026-03-09T00:00:00Z', roster(8))).toEqual([])
    const without = lockSpans(entries(told[0], [22, 'odd', off('odd')]))
    expect(locksPastShift(without, '2026-03-09T00:00:00Z', roster(8)).map(({ hours }) => hours)).toEqual([15])
  })
})
