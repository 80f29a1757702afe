import { readdirSync, readFileSync } from 'node:fs'
import { type Procedure, parseProcedure } from '@lockwright/language'
import type { Exit, Machine, State, StateId } from '@lockwright/machine'
import { compile } from '@lockwright/machine/lower'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { flowAsWritten, type Place } from './naive-flow.js'
import { randomProcedure, randomRepair } from './random-procedure.js'

// The compiler copies sections, threads late exits through and resolves every way back; a second reading of the text, which
// does none of that, has to find the same states with the same ways out of them.

const seed = 20_260_421
const numRuns = 300

function read(text: string): { readonly procedure: Procedure; readonly machine: Machine } {
  const parsed = parseProcedure({ file: 'flow.md', text })
  if (!parsed.ok) throw new Error(parsed.diagnostics.map(({ id, what }) => `${id}: ${what}`).join('\n'))
  const compiled = compile(parsed.value)
  if (!compiled.ok) throw new Error(compiled.diagnostics.map(({ id, what }) => `${id}: ${what}`).join('\n'))
  return { procedure: parsed.value, machine: compiled.value }
}

/** Walks both side by side; each place of the text is one state of the machine, and each state one place. */
function compare({ procedure, machine }: ReturnType<typeof read>): number {
  const stateAt = (id: StateId): State => {
    const state = machine.states.find((candidate) => candidate.id === id)
    if (state === undefined) throw new Error(`no state ${id}`)
    // What the text is read for leaves out what is only shown.
    const shown = state.kind === 'notice' || state.kind === 'gather'
    return shown ? stateAt(state.exits.find(({ on }) => on === 'done')?.to ?? id) : state
  }
  const placeOf = new Map<string, string>()
  const stateOf = new Map<string, string>()
  const queue: [StateId, Place][] = [[machine.start, flowAsWritten(procedure)]]
  for (const [id, place] of queue) {
    const state = stateAt(id)
    const node = place()
    expect(placeOf.get(state.id) ?? node.key).toBe(node.key)
    expect(stateOf.get(node.key) ?? state.id).toBe(state.id)
    if (placeOf.has(state.id)) continue
    placeOf.set(state.id, node.key)
    stateOf.set(node.key, state.id)
    expect(state.kind, state.id).toBe(node.kind)
    if (node.step !== null) expect(state.step, state.id).toBe(node.step)
    const exits = labelled(state.exits)
    expect([...exits.keys()].sort(), state.id).toEqual(Object.keys(node.leads).sort())
    for (const [label, to] of exits) {
      const lead = node.leads[label]
      if (lead !== undefined) queue.push([to, lead])
    }
  }
  return placeOf.size
}

function labelled(exits: readonly Exit[]): ReadonlyMap<string, StateId> {
  let lates = 0
  return new Map(
    exits.map((exit) => {
      switch (exit.on) {
        case 'answer':
          return [exit.answer, exit.to]
        case 'identified':
        case 'value':
          return [`${exit.on} ${exit.value}`, exit.to]
        case 'late':
          lates += 1
          return [`late ${lates - 1}`, exit.to]
        case 'done':
        case 'inside':
        case 'again':
        case 'outside':
          return [exit.on, exit.to]
      }
    })
  )
}

describe('the flow as it is written', () => {
  const folder = new URL('../../procedures/', import.meta.url)
  const library = readdirSync(folder).filter((name) => name.endsWith('.md') && name !== 'README.md')

  it.each(library)('is the flow of the machine of %s, state by state', (name) => {
    const both = read(readFileSync(new URL(name, folder), 'utf8'))
    const shown = both.machine.states.filter(({ kind }) => kind === 'notice' || kind === 'gather').length
    expect(compare(both)).toBe(both.machine.states.length - shown)
  })

  it('is not the flow of a machine that leaves a lockout out', () => {
    const both = read(readFileSync(new URL('baling-press-platen.md', folder), 'utf8'))
    const second = both.machine.states.find(({ id }) => id.endsWith('.2.retest/test-under-pressure.1'))
    if (second === undefined) throw new Error('the second remedy is tested somewhere else')
    const states = both.machine.states.map((state) => {
      if (!state.id.endsWith('.1.cured')) return state
      return { ...state, exits: state.exits.map((exit, index) => (index === 1 ? { ...exit, to: second.id } : exit)) }
    })
    expect(() => compare({ ...both, machine: { ...both.machine, states } })).toThrow()
  })

  it(`is the flow of random machines (seed ${seed})`, { timeout: 240_000 }, () => {
    const met = new Set<string>()
    fc.assert(
      fc.property(fc.oneof(randomProcedure, randomRepair), ({ text }) => {
        const both = read(text)
        compare(both)
        for (const { kind, exits } of both.machine.states) {
          met.add(kind)
          for (const { on } of exits) met.add(on)
        }
      }),
      { seed, numRuns, verbose: 1 }
    )
    for (const word of ['branch', 'ask', 'timer', 'back', 'late', 'outside', 'again', 'identified', 'value'])
      expect(met).toContain(word)
  })
})
