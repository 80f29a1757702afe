import { readFileSync } from 'node:fs'
import type { Machine, State } from '@lockwright/machine'
import { formatPaths, generationsOf, type Paths, pathsOf } from '@lockwright/proof'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { machineOf } from '../end-to-end/compile-text.js'
import { randomProcedure } from './random-procedure.js'

const seed = 20_260_420
const numRuns = 200

interface Counted {
  toFinish: number
  toStop: number
  intoLoops: number
  minutes: number[]
}

/** Walks every way there is, one after the other; null where there are too many. */
function enumerated(machine: Machine, generation: ReadonlyMap<string, string>, most: number): Counted | null {
  const found: Counted = { toFinish: 0, toStop: 0, intoLoops: 0, minutes: [] }
  let walked = 0
  const only = new Map(
    [...machine.sources, ...machine.points, ...machine.restraints].map(({ id, only }) => [id as string, only])
  )
  const exists = (id: string, known: ReadonlySet<string>): boolean =>
    (only.get(id) ?? []).every(
      ({ axis, values }) => !known.has(axis) || (values as readonly string[]).includes(generation.get(axis) ?? '')
    )
  const walk = (state: State, known: ReadonlySet<string>, before: number): void => {
    walked += 1
    if (walked > most) return
    const nothing = state.things.length > 0 && !state.things.some(({ id }) => exists(id, known))
    const passed = nothing || (state.kind === 'identify' && known.has(state.axis))
    const waits = state.inputs.map((input) =>
      input.kind === 'wait' && (input.source === null || exists(input.source, known)) ? input.seconds / 60 : 0
    )
    const minutes = before + (passed ? 0 : (state.minutes ?? 0) + waits.reduce((sum, wait) => sum + wait, 0))
    if (state.kind === 'finish') found.toFinish += 1
    if (state.kind === 'stop') found.toStop += 1
    if (state.kind === 'finish' || state.kind === 'stop') found.minutes.push(minutes)
    const open = state.exits.filter((exit) => {
      if (passed) return exit === state.exits.find(({ on }) => on === 'done' || on === 'inside' || on === 'identified')
      if (exit.on === 'value' || exit.on === 'identified') {
        return exit.value === generation.get('axis' in state ? state.axis : '')
      }
      return true
    })
    for (const exit of open) {
      if (exit.on === 'again' || state.kind === 'back') found.intoLoops += 1
      else {
        const next = machine.states.find(({ id }) => id === exit.to) as State
        const learnt = state.kind === 'identify' && exit.on === 'identified' ? [state.axis] : []
        walk(next, new Set([...known, ...learnt]), minutes)
      }
    }
  }
  walk(machine.states.find(({ id }) => id === machine.start) as State, new Set(), 0)
  return walked > most ? null : found
}

const head = `---
procedure: PATHS-1
title: Many questions
revision: 1
equipment: { tag: A-1, name: Stand, place: Sandholm workshop }
scope: Nothing but tests.
energy:
  mains: { kind: electrical, voltage: 24 V dc, conductors: [P, N], at: [Q1] }
points:
  Q1: { is: switch, where: left, safe: down }
---

# Look

`

function example(): Paths {
  return pathsOf(machineOf(readFileSync(new URL('../fixtures/contract-example.md', import.meta.url), 'utf8')))
}

describe('paths', () => {
  it('counts the ways of the example of the contract', () => {
    const [series, other] = example().generations
    expect(series?.generation).toEqual(new Map([['cabinet', 'series-s']]))
    expect(other?.generation).toEqual(new Map([['cabinet', 'series-t']]))
    expect(series?.ways).toMatchObject({ toFinish: 1n, toStop: 2n, toNowhere: 0n, intoLoops: 1n })
    // The label of the DC link says 15 min; nothing else in the example takes a time that is written.
    expect(series?.ways.shortestToFinish?.minutes).toBe(15)
    expect(series?.ways.shortest?.minutes).toBe(0)
  })

  it('rehearses the example of the contract in three runs, and says why not in two', () => {
    const rehearsal = example().generations[0]?.rehearsal
    expect(rehearsal?.runs.map(({ steps }) => steps.at(-1)?.title)).toEqual([
      'Return to service',
      'Stop: Pre-charge works but the link voltage is wrong: call the drive specialist',
      'Stop: Not a pre-charge fault: use the fault list on the door'
    ])
    expect(rehearsal?.apart.map(({ takes }) => takes)).toEqual([
      'Anything else',
      'within limits',
      'stays out of limits'
    ])
    const taken = rehearsal?.runs.flatMap(({ steps }) => steps.flatMap(({ takes }) => takes ?? []))
    expect(taken).toContain('out of limits, taken again')
    expect(rehearsal?.runs.reduce((sum, { first }) => sum + first, 0)).toBe(rehearsal?.exits)
  })

  it('counts 300 questions in a row without walking them', () => {
    const asks = Array.from(
      { length: 300 },
      (_, index) =>
        `::::ask[Question ${index + 1}?]\n:::answer[Yes]\n::look[More]{minutes=2}\n:::\n:::answer[No]\n:::\n::::\n`
    )
    const [only] = pathsOf(machineOf(head + asks.join('\n'))).generations
    expect(only?.ways.toFinish).toBe(2n ** 300n)
    expect(only?.ways.longest?.minutes).toBe(600)
    expect(only?.ways.shortest?.minutes).toBe(0)
    expect(only?.rehearsal.runs.length).toBe(2)
  })

  it('counts runs that would be too long a list, and does not list them', () => {
    const asks = Array.from(
      { length: 640 },
      (_, index) => `::::ask[Question ${index + 1}?]\n:::answer[Yes]\n:::\n:::answer[No]\n::stop[Enough]\n:::\n::::\n`
    )
    const machine = machineOf(head + asks.join('\n'))
    const [only] = pathsOf(machine).generations
    expect(only?.ways).toMatchObject({ toFinish: 1n, toStop: 640n })
    expect(only?.rehearsal).toMatchObject({ fewest: 641, runs: [] })
    expect(only?.rehearsal.apart.length).toBe(641)
    expect(formatPaths(pathsOf(machine))).toContain('too many to be listed')
  })

  it('counts a loop by the ways into it, and rehearses it on a run that passes it', () => {
    const text = `${head}::look[First]{#first}\n\n::::ask[Done?]\n:::answer[Yes]\n:::\n:::answer[No]\n::back{to=first}\n:::\n::::\n`
    const [only] = pathsOf(machineOf(text)).generations
    expect(only?.ways).toMatchObject({ toFinish: 1n, toStop: 0n, intoLoops: 1n })
    expect(only?.rehearsal.runs.map(({ steps }) => steps.flatMap(({ takes }) => takes ?? []))).toEqual([['No', 'Yes']])
  })

  it(`agrees with walking every way of random procedures (seed ${seed})`, () => {
    let compared = 0
    fc.assert(
      fc.property(randomProcedure, ({ text }) => {
        const machine = machineOf(text)
        pathsOf(machine).generations.forEach(({ generation, ways, rehearsal }) => {
          expect(rehearsal.runs.length).toBe(rehearsal.fewest)
          expect(rehearsal.apart.length === rehearsal.fewest || rehearsal.exits === 0).toBe(true)
          const found = enumerated(machine, generation, 20_000)
          if (found === null) return
          compared += 1
          const { toFinish, toStop, intoLoops } = found
          expect(ways).toMatchObject({
            toFinish: BigInt(toFinish),
            toStop: BigInt(toStop),
            intoLoops: BigInt(intoLoops),
            toNowhere: 0n
          })
          if (found.minutes.length === 0) return
          expect(ways.shortest?.minutes).toBeCloseTo(Math.min(...found.minutes), 6)
          expect(ways.longest?.minutes).toBeCloseTo(Math.max(...found.minutes), 6)
        })
      }),
      { seed, numRuns }
    )
    expect(compared).toBeGreaterThan(numRuns)
  })

  it('leaves axes open where their combinations are too many to tell apart', () => {
    const axes = Array.from(
      { length: 8 },
      (_, index) =>
        `  a${index}: { ask: Which?, is: { v${index}: { name: V, tell: v }, w${index}: { name: W, tell: w } } }`
    )
    const machine = machineOf(`${head.replace('energy:', `hardware:\n${axes.join('\n')}\nenergy:`)}::look[At it]\n`)
    expect(generationsOf(machine).length).toBe(64)
    const paths = pathsOf(machine)
    expect(paths.open).toEqual(['a6', 'a7'])
    expect(formatPaths(paths)).toContain('Too many generations to tell all apart: every value of a6, a7')
  })

  it('is told so that a person can read it', () => {
    const text = formatPaths(example())
    expect(text).toContain('On cabinet series-s\n  ways to the finish      1\n  ways to a stop          2\n')
    expect(text).toMatch(/Runs to rehearse, so that each of the \d+ exits is taken: 3/)
    // Counted through, as `step --path` does: a number names one run whatever the generation.
    const numbers = [...text.matchAll(/^ {4}run (\d+):/gm)].map(([, number]) => Number(number))
    expect(numbers.length).toBeGreaterThan(3)
    expect(numbers).toEqual(numbers.map((_, index) => index + 1))
  })
})
