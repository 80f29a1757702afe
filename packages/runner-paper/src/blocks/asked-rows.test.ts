import { plainText } from '@lockwright/language'
import { describe, expect, it } from 'vitest'
import { boosterPump } from '../booster-pump.fixture.js'
import { english } from '../catalog.js'
import { card, cards, entries, laidOut, strings } from './laid-out.fixture.js'

describe('what is ticked and written', () => {
  const blocks = laidOut()
  const blanks = (title: string) => entries(card(blocks, title).rows).map((row) => row.blanks.map(({ label }) => label))

  it('has room for the number of the lock where it comes off', () => {
    expect(blanks('Unlock V2, V1 and Q1')).toEqual(Array(3).fill(['Lock no.', 'Name']))
  })

  it('sends everybody under the lockout to a table with room for their locks', () => {
    expect(strings(card(blocks, 'Lock Q1, V1 and V2').rows)).toContain(english.steps.othersLock)
    const at = blocks.findIndex((block) => block.kind === 'heading' && block.text === 'People on this job')
    const people = blocks[at + 1]
    expect(people?.kind === 'table' ? people.columns.map(({ head }) => head) : []).toEqual(
      expect.arrayContaining(['Locks hung, numbers', 'Locks off, time'])
    )
  })

  it('has a box for letting out and for trying where the author wrote no list', () => {
    expect(entries(card(blocks, 'Let the energy out of tank').rows).map(({ mark }) => mark)).toEqual(['box'])
    const states = boosterPump().states.map((state) =>
      state.id === 'try' ? { ...state, body: [], inputs: [] } : state
    )
    const tried = card(laidOut(boosterPump({ states })), 'Try the start control')
    expect(entries(tried.rows).map(({ mark }) => mark)).toEqual(['box'])
  })

  it('has room for number and due date of what must be in calibration', () => {
    expect(blanks('Prove mains and dc-link dead')[0]).toEqual(['Instrument no.', 'Calibration due'])
    const items = blocks.flatMap((block) => (block.kind === 'ticks' ? block.items : []))
    const tester = items.find(({ text }) => plainText(text).startsWith('Two-pole voltage tester'))
    expect(tester?.blanks.map(({ label }) => label)).toEqual(['Instrument no.', 'Calibration due'])
    expect(items.filter((item) => item.blanks.length > 0)).toHaveLength(1)
  })

  it('names each step as it is entered, and says so on the first page', () => {
    expect(card(blocks, 'Lock Q1, V1 and V2').name).toBe('lock')
    expect(card(blocks, 'By the cabinet').name).toBe('')
    expect(strings(blocks[0])).toContain(english.facts.namesTell)
  })

  it('says what to do with a reading out of limits in the last blank', () => {
    const said = strings(card(blocks, 'Measure DC link voltage').rows).join(' ')
    expect(said).toContain('write it in the next blank. Out of limits in the last blank too: go on as told at')
    expect(said).toContain('Still outside the limits')
  })

  it('never says "Only from" a step at odds with where another step sends', () => {
    for (const step of cards(blocks)) {
      const only = strings(step.rows).find((text) => text.startsWith('Only from '))
      if (only === undefined) continue
      const sends = cards(blocks).filter(({ rows }) =>
        rows.some((row) => row.kind === 'way' && row.go === `Go on with step ${step.number}`)
      )
      for (const { number } of sends) expect(only.match(/\d+/g)?.map(Number)).toContain(number)
    }
    expect(strings(card(blocks, 'Stop: fetch a new seal').rows)).toContain('Only from steps 19, 20.')
  })
})
