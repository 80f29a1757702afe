import type { AxisId, AxisValueId } from '@lockwright/language'
import { describe, expect, it } from 'vitest'
import { boosterPump } from '../booster-pump.fixture.js'
import { buildSheet } from '../sheet/build-sheet.js'
import type { FlowRow } from './block.js'
import { draft, laidOut } from './laid-out.fixture.js'

function rowsOf(options = draft): readonly FlowRow[] {
  return laidOut(boosterPump(), options).flatMap((block) => (block.kind === 'flow' ? block.rows : []))
}

describe('the map', () => {
  const sheet = buildSheet(boosterPump())

  it('has each step once, in order, with its shape', () => {
    const nodes = rowsOf().flatMap((row) => (row.kind === 'node' ? [row] : []))
    expect(nodes.map(({ number }) => number)).toEqual(sheet.steps.map(({ number }) => number))
    const shape = (kind: string) =>
      nodes.filter((_, index) => sheet.steps[index]?.state.kind === kind).map((node) => node.shape)
    expect(new Set(shape('lock'))).toEqual(new Set(['gate']))
    expect(new Set(shape('stop'))).toEqual(new Set(['stop']))
    expect(new Set(shape('ask'))).toEqual(new Set(['choice']))
    expect(shape('finish')).toEqual(['finish'])
  })

  it('leads wherever a step leads, and nowhere else', () => {
    const exits = rowsOf().flatMap((row) => (row.kind === 'exit' && row.to !== null ? [`${row.from}>${row.to}`] : []))
    for (const { number, ways } of sheet.steps)
      for (const way of ways)
        if (way.to !== null && way.on !== 'again' && !way.next) expect(exits).toContain(`${number}>${way.to}`)
    const told = sheet.steps.flatMap(({ number, ways }) => ways.map(({ to }) => `${number}>${to}`))
    const clocks = sheet.steps.filter(({ state }) => state.kind === 'timer').map(({ number }) => `${number}>`)
    for (const exit of exits)
      expect(told.includes(exit) || clocks.some((clock) => exit.startsWith(clock)), exit).toBe(true)
  })

  it('draws no line from a stop, nor from a step that goes elsewhere', () => {
    const nodes = rowsOf().flatMap((row) => (row.kind === 'node' ? [row] : []))
    for (const node of nodes) {
      const step = sheet.steps.find(({ number }) => number === node.number)
      if (node.falls)
        expect(
          step?.ways.some(({ next }) => next),
          String(node.number)
        ).toBe(true)
      if (node.shape === 'stop' || node.shape === 'finish') expect(node.falls).toBe(false)
    }
  })

  it('tells every turn to those who do not see it, and drops what is not on the sheet', () => {
    const alternate = laidOut().flatMap((block) => (block.kind === 'flow' ? [block.alternate] : []))
    expect(alternate.join(' ')).toContain('“Anything else”: step 4')
    const one = rowsOf({ ...draft, for: { ['cabinet' as AxisId]: 'series-s' as AxisValueId } })
    expect(one.some((row) => row.kind === 'node' && row.title.includes('slide the module out'))).toBe(false)
  })
})
