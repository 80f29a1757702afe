import { buildSheet } from '@lockwright/runner-paper'
import { readAnswers } from '@lockwright/runner-terminal'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { answersFromForm } from '../../packages/cli/src/answers-from-form.js'
import { sheetTimes } from '../../packages/cli/src/sheet-times.js'
import { filledIn, machine, sheetFields } from './fill-sheet.js'

const people: Record<string, string> = { 'T.L.': 'tor', 'Tor Lind': 'tor', MH: 'mira', 'Mira Holt': 'mira' }
const zone = process.env['TZ']
beforeAll(() => {
  process.env['TZ'] = 'UTC'
})
afterAll(() => {
  if (zone === undefined) delete process.env['TZ']
  else process.env['TZ'] = zone
})

function answers(change: Record<string, string | true | null> = {}): string {
  const filled = new Map(
    Object.entries({ ...filledIn(null), ...change }).flatMap(([name, one]) =>
      one === null ? [] : [[name, one] as const]
    )
  )
  return answersFromForm({
    machine,
    fields: sheetFields,
    filled,
    numbers: new Map(buildSheet(machine).steps.map(({ number, state }) => [state.id, number])),
    generations: {},
    day: '2026-03-04',
    zone: null,
    worker: null,
    whoIs: (written) => people[written] ?? null
  })
}

describe('the answers of a filled form', () => {
  it('are a file of answers as a person would type it', () => {
    const text = answers()
    const read = readAnswers(text, 'filled.answers.yaml')
    expect(read.ok && read.value.answers.length).toBe(33)
    expect(text).toContain('{"at":"prepare.gather","time":"2026-03-04T07:00:00Z","by":"tor","ticks":"all"}')
    expect(text).toContain('{"at":"prepare.1","time":"2026-03-04T07:05:00Z","by":"tor","choose":"series-t"}')
    expect(text).toContain('"locks":{"Q2":"18","V1":"19"}')
    expect(text).toContain('"readings":{"reading-water":["0 bar"]}')
    expect(text).toContain('"wait":"over"')
    expect(text).toMatch(/"at":"lock-out\.3".*"note":"The handle was stiff"/)
    expect(text).toContain('"by":"mira","sign":{"person":"mira"}')
  })

  it('keep every attempt at a reading, and the way taken after the last', () => {
    const text = answers({
      'link.1.reading': '700',
      'link.2.reading': '0.71 kV',
      'link.3.reading': '720',
      'link.1.choice': 'outside'
    })
    expect(text).toContain('"readings":{"reading":["700 V","0.71 kV","720 V"]},"choose":"outside"')
  })

  it('are those of a stop where the way led to one', () => {
    const stop = {
      'window.1.choice': 'answer-2',
      'prepare.3.1.initials': 'T.L.',
      'prepare.3.1.time': '07:12',
      'prepare.3.1.left': 'As found'
    }
    expect(answers(stop)).toMatch(/"at":"prepare\.3",.*"stop":"Not a pre-charge fault[^"]*","left":"As found"/)
  })

  it('are refused where something is not ticked, or nobody can be told by the initials', () => {
    expect(() => answers({ 'lock-out.12.1.tester-before': null })).toThrow(
      /not ticked there:\n {2}Step 16\. Tester works/
    )
    expect(() => answers({ 'lock-out.3.1.notice-1': null })).toThrow(/read and understood/)
    expect(() => answers({ 'lock-out.4.1.initials': 'XY' })).toThrow(/nobody can be told by `XY`/)
    expect(() => answers({ 'lock-out.4.1.time': 'noon' })).toThrow(/`noon` is no time of the day/)
  })

  it('begin a wait when the sheet says so, else so long before its end', () => {
    const begun = answers({ 'lock-out.7.1.time': '08:00' })
    expect(begun).toContain('"at":"lock-out.7","time":"2026-03-04T07:45:00Z"')
    const ended = answers({ 'lock-out.7.1.time': '08:02', 'lock-out.7.1.wait-dc-link-started': null })
    expect(ended).toContain('"at":"lock-out.7","time":"2026-03-04T07:47:00Z"')
  })
})

describe('the times of a sheet', () => {
  const at = (...written: (string | null)[]): readonly string[] =>
    sheetTimes(
      written.map((one, place) => ({ card: { pass: 1, place }, written: one, wait: 0 })),
      { day: '2026-03-04', zone: null }
    ).map((one) => one.at)

  it('go on over midnight, stand in for those that are missing, and are put in order', () => {
    expect(at('22:50', null, '0:10', '00.20')).toEqual([
      '2026-03-04T22:50:00Z',
      '2026-03-04T22:50:00Z',
      '2026-03-05T00:10:00Z',
      '2026-03-05T00:20:00Z'
    ])
    expect(at('08:00', '09:00', '08:30')).toEqual([
      '2026-03-04T08:00:00Z',
      '2026-03-04T08:30:00Z',
      '2026-03-04T09:00:00Z'
    ])
    expect(at('2026-03-06T08:00:00Z')).toEqual(['2026-03-06T08:00:00Z'])
    expect(() => at('25:00')).toThrow(/no time of the day/)
    expect(() =>
      sheetTimes([{ card: { pass: 1, place: 1 }, written: '08:00', wait: 0 }], { day: 'today', zone: null })
    ).toThrow(/is no day/)
  })
})
