import type { AxisId, AxisValueId } from '@lockwright/language'
import type { State, StateId } from '@lockwright/machine'
import { describe, expect, it } from 'vitest'
import { boosterPump } from '../booster-pump.fixture.js'
import { made, text } from '../made.fixture.js'
import type { Generations } from '../print-options.js'
import { buildSheet } from './build-sheet.js'
import type { Sheet, SheetStep } from './sheet.js'

const seriesS: Generations = { ['cabinet' as AxisId]: 'series-s' as AxisValueId }
const seriesT: Generations = { ['cabinet' as AxisId]: 'series-t' as AxisValueId }

function step(sheet: Sheet, id: string): SheetStep {
  const found = sheet.steps.find(({ state }) => state.id === id)
  if (found === undefined) throw new Error(`no step ${id} on the sheet`)
  return found
}

function withStates(states: readonly State[]) {
  return boosterPump({ states, start: states[0]?.id ?? ('' as StateId) })
}

describe('the sheet for every generation', () => {
  const sheet = buildSheet(boosterPump())

  it('numbers every state that is done or decided, in the order in which the machine is read', () => {
    expect(sheet.steps.map(({ number }) => number)).toEqual(sheet.steps.map((_, index) => index + 1))
    const ids = boosterPump().states.map(({ id }) => id)
    expect(sheet.steps.map(({ state }) => state.id)).toEqual(ids.filter((id) => id !== 'refit'))
  })

  it('sends a way back that has no words of its own to the step that it goes back to', () => {
    expect(sheet.numbers.get('refit' as StateId)).toBe(step(sheet, 'fit').number)
    expect(step(sheet, 'seated').ways.map(({ label, to }) => [label, to])).toEqual([
      ['Yes', step(sheet, 'clock').number],
      ['No', step(sheet, 'fit').number]
    ])
  })

  it('tells where each answer, generation and reading goes on', () => {
    const branch = step(sheet, 'by')
    expect(branch.ways.map(({ values, to }) => [values.map(({ name }) => name), to])).toEqual([
      [['Series S'], step(sheet, 'bolts').number],
      [['Series T'], step(sheet, 'slide').number]
    ])
    expect(step(sheet, 'bolts').ways).toMatchObject([{ on: 'done', to: step(sheet, 'fit').number, next: false }])
    expect(step(sheet, 'slide').ways).toMatchObject([{ on: 'done', next: true }])
    expect(step(sheet, 'link').ways.map(({ on, to }) => [on, to])).toEqual([
      ['inside', step(sheet, 'finish').number],
      ['again', step(sheet, 'link').number],
      ['outside', step(sheet, 'specialist').number]
    ])
  })

  it('puts a rail beside the steps of one generation, by branch and by what exists', () => {
    const railed = sheet.steps.filter(({ rails }) => rails.length > 0)
    expect(
      railed.map(({ state, rails }) => [state.id, rails.flatMap(({ values }) => values.map(({ name }) => name))])
    ).toEqual([
      ['tank', ['Series T']],
      ['bolts', ['Series S']],
      ['slide', ['Series T']]
    ])
  })

  it('finds the steps that can come again, and which ones send back', () => {
    expect(sheet.steps.filter(({ again }) => again).map(({ state }) => state.id)).toEqual(['fit', 'seated'])
    expect(step(sheet, 'fit').backFrom).toEqual([step(sheet, 'seated').number])
    expect(step(sheet, 'link').retake).toBe(true)
    expect(step(sheet, 'link').again).toBe(false)
  })

  it('says from where a step is reached that the one before it does not go on to', () => {
    expect(step(sheet, 'other').onlyFrom).toEqual([step(sheet, 'window').number])
    expect(step(sheet, 'tell').onlyFrom).toEqual([step(sheet, 'window').number])
    expect(step(sheet, 'fit').onlyFrom).toEqual([])
    expect(step(sheet, 'lock').onlyFrom).toEqual([])
  })

  it('marks the gates of the contract and no other step', () => {
    expect(sheet.steps.filter(({ gate }) => gate).map(({ state }) => state.kind)).toEqual([
      'lock',
      'relieve',
      'relieve',
      'tryout',
      'signoff',
      'prove',
      'restrain',
      'remove',
      'inspect',
      'clear',
      'unlock',
      'energize'
    ])
  })

  it('groups the steps under the headings', () => {
    expect(sheet.parts.map(({ headings, steps }) => [headings.map(({ title }) => title), steps.length])).toEqual([
      [['Prepare'], 4],
      [['Lock out'], 8],
      [['Change the module'], 9],
      [['Hand back'], 8]
    ])
  })
})

describe('the sheet for one generation', () => {
  const sheet = buildSheet(boosterPump(), seriesS)

  it('leaves out the other generation and what the choice decided, and numbers anew', () => {
    const all = buildSheet(boosterPump()).steps.map(({ state }) => state.id)
    const dropped = ['tank', 'by', 'slide']
    expect(sheet.steps.map(({ state }) => state.id)).toEqual(all.filter((id) => !dropped.includes(id)))
    expect(sheet.steps.map(({ number }) => number)).toEqual(sheet.steps.map((_, index) => index + 1))
  })

  it('has no rails, and sends everyone on to steps that are on it', () => {
    expect(sheet.steps.flatMap(({ rails }) => rails)).toEqual([])
    expect(step(sheet, 'unplug').ways).toMatchObject([{ to: step(sheet, 'bolts').number, next: true }])
    expect(step(sheet, 'relieve').ways).toMatchObject([{ to: step(sheet, 'try').number, next: true }])
  })

  it('asks nothing of what is absent', () => {
    expect(step(sheet, 'lock').inputs.map(({ id }) => id)).toEqual(['lock-Q1', 'lock-V1'])
    const other = buildSheet(boosterPump(), seriesT)
    expect(step(other, 'lock').inputs.map(({ id }) => id)).toEqual(['lock-Q1', 'lock-V1', 'lock-V2'])
  })

  it('still identifies the generation, and stops where it is another', () => {
    expect(step(sheet, 'which').ways.map(({ values, to }) => [values[0]?.name, to])).toEqual([
      ['Series S', step(sheet, 'window').number],
      ['Series T', null]
    ])
  })

  it('keeps a decided branch that has something to say', () => {
    const states = boosterPump().states.map((state) =>
      state.id === 'by'
        ? ({
            ...state,
            exits: state.exits.map((exit) => ('says' in exit ? { ...exit, says: text('The bridge is heavy.') } : exit))
          } as State)
        : state
    )
    const kept = buildSheet(boosterPump({ states }), seriesS)
    expect(step(kept, 'by').ways).toMatchObject([
      { on: 'value', values: [{ name: 'Series S' }], says: text('The bridge is heavy.') }
    ])
  })
})

describe('headings', () => {
  it('names a section once more where it is copied, and lets prose of its own stay where it stands', () => {
    const states = [
      made('tell', { kind: 'notify', title: 'Tell', section: 'lock-out', exits: [{ on: 'done', to: '9.reading' }] }),
      made('9.reading', { kind: 'notice', title: 'Read', section: null, exits: [{ on: 'done', to: 'stop' }] }),
      made('stop', {
        kind: 'shutdown',
        title: 'Stop',
        section: 'lock-out',
        exits: [{ on: 'done', to: 'repeat-1/tell' }]
      }),
      made('repeat-1/tell', { kind: 'notify', title: 'Tell', section: 'lock-out', exits: [{ on: 'done', to: 'end' }] }),
      made('end', {
        kind: 'finish',
        title: 'Return to service',
        section: 'hand-back',
        exits: [{ on: 'done', to: 'late' }]
      }),
      made('late', { kind: 'shutdown', title: 'Stop', section: 'lock-out' })
    ]
    const machine = withStates(states)
    const sections = machine.sections.filter(({ id }) => states.some(({ section }) => section === id))
    const sheet = buildSheet({ ...machine, sections })
    expect(
      sheet.parts.map(({ headings, steps }) => [headings.map(({ title, opens }) => [title, opens]), steps.length])
    ).toEqual([
      [[['Lock out', 'first']], 3],
      [[['Lock out', 'again']], 1],
      [[['Hand back', 'first']], 1],
      [[['Lock out', 'continued']], 1]
    ])
  })

  it('opens the outer heading with its first step', () => {
    const span = { line: 1, column: 1, endLine: 1, endColumn: 2 }
    const machine = boosterPump({
      states: [made('tell', { kind: 'notify', title: 'Tell', section: 'people' })],
      start: 'tell' as StateId,
      sections: [
        { id: 'shut-down', level: 1, title: 'Shut down', span },
        { id: 'people', level: 2, title: 'People', span }
      ] as never
    })
    expect(buildSheet(machine).parts[0]?.headings.map(({ title, level }) => [title, level])).toEqual([
      ['Shut down', 1],
      ['People', 2]
    ])
  })
})
