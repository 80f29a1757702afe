import { readdirSync, readFileSync } from 'node:fs'
import { parseProcedure } from '@lockwright/language'
import type { Machine } from '@lockwright/machine'
import { compile } from '@lockwright/machine/lower'
import { type Exploration, explore } from '@lockwright/proof'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { exploreNaively } from './naive-explorer.js'
import { obligationsMet } from './obligations-met.js'
import { randomProcedure, randomRepair } from './random-procedure.js'

// A choice of shapes: one in four is a ladder of remedies with its sections copied for each.
const shapes = fc.oneof({ weight: 3, arbitrary: randomProcedure }, { weight: 1, arbitrary: randomRepair })

// Fixed, so that every run looks at the same procedures; a failure prints it with the path that leads to it.
const seed = 20_260_417
const numRuns = 2_000

/** Above this the naive explorer takes too long; below it none is left out. */
const limit = 4000

describe('two explorers, one written from the meaning page alone', () => {
  it(`agree on ${numRuns} random procedures (seed ${seed})`, { timeout: 300_000 }, () => {
    const seen = { compared: 0, general: 0, electrical: 0, kinds: new Set<string>(), obligations: new Set<string>() }
    fc.assert(
      fc.property(shapes, ({ text }) => {
        const machine = machineOf(text)
        const real = explore(machine, limit)
        if (!real.complete) return
        const naive = exploreNaively(machine)
        const failures = failuresOf(machine, real)
        if (testsNearBrokenFeed(machine)) {
          expect([...naive.failures].filter((failure) => !failures.has(failure))).toEqual([])
          return
        }
        expect([...failures].sort()).toEqual([...naive.failures].sort())
        expect(real.configurations).toBe(naive.configurations)
        const reached = machine.states.filter((_, index) => real.reached[index]).map((state) => state.id)
        expect(reached.sort()).toEqual([...naive.reached].sort())
        seen.compared += 1
        seen[machine.order] += 1
        for (const state of machine.states) seen.kinds.add(state.kind)
        for (const failure of failures) seen.obligations.add(failure.split(' ')[0] ?? '')
      }),
      { seed, numRuns, verbose: 1 }
    )
    // The comparison is worth something only if it met everything there is.
    expect(seen.compared).toBeGreaterThan(numRuns * 0.9)
    expect(Math.min(seen.general, seen.electrical)).toBeGreaterThan(numRuns / 4)
    expect([...seen.obligations].sort()).toEqual(obligationsMet)
    expect([...kindsMet].filter((kind) => !seen.kinds.has(kind))).toEqual([])
  })

  it.each(libraryProcedures())('agree on %s, whole and with each step of one line taken out', (_, text) => {
    const lines = text.split('\n')
    const variants = lines.flatMap((line, index) =>
      /^::(?!:)/.test(line) ? [lines.toSpliced(index, 1).join('\n')] : []
    )
    let compared = 0
    for (const variant of [text, ...variants]) {
      const parsed = parseProcedure({ file: 'variant.md', text: variant })
      const compiled = parsed.ok ? compile(parsed.value) : null
      // A line that others name cannot be taken out; what is left does not parse and has nothing to compare.
      if (compiled?.ok !== true) continue
      const real = explore(compiled.value, 100_000)
      const naive = exploreNaively(compiled.value)
      expect([...failuresOf(compiled.value, real)].sort()).toEqual([...naive.failures].sort())
      expect(real.configurations).toBe(naive.configurations)
      compared += 1
    }
    expect(compared).toBeGreaterThan(variants.length / 2)
  })
})

function libraryProcedures(): readonly (readonly [string, string])[] {
  const folder = new URL('../../procedures/', import.meta.url)
  const names = readdirSync(folder).filter((name) => name.endsWith('.md'))
  return names.map((name) => [name, readFileSync(new URL(name, folder), 'utf8')])
}

/** Obligation and state of every need that some configuration does not meet. */
function failuresOf(machine: Machine, { breaches, stateOf }: Exploration): ReadonlySet<string> {
  return new Set(
    breaches.flatMap(({ configuration, unmet }) =>
      unmet.map(({ rung }) => `${rung.obligation} ${machine.states[stateOf[configuration] ?? -1]?.id}`)
    )
  )
}

const kindsMet = [
  'notify',
  'operate',
  'look',
  'live',
  'shutdown',
  'identify',
  'isolate',
  'lock',
  'relieve',
  'restrain',
  'prove',
  'tryout',
  'signoff',
  'work',
  'measure',
  'wait',
  'inspect',
  'clear',
  'remove',
  'unlock',
  'energize',
  'stop',
  'finish',
  'ask',
  'branch',
  'timer',
  'back'
]

/**
 * A test with power on, near a source that feeds others on some generations only. There the compiler asks more than the
 * meaning page: what is fed on one generation has to be dead, apart or named on all. It never asks less.
 */
function testsNearBrokenFeed({ sources, states }: Machine): boolean {
  const partial = sources.filter((source) => source.only.length > 0).map((source) => source.id)
  const broken = sources.some((source) => source.fedBy.some((feeder) => partial.includes(feeder)))
  return broken && states.some((state) => state.kind === 'live' || (state.kind === 'measure' && state.near.length > 0))
}

function machineOf(text: string): Machine {
  const parsed = parseProcedure({ file: 'random.md', text })
  if (!parsed.ok) throw new Error(`${parsed.diagnostics.map(({ id, what }) => `${id}: ${what}`).join('\n')}\n\n${text}`)
  const compiled = compile(parsed.value)
  if (!compiled.ok) throw new Error(compiled.diagnostics.map(({ id, what }) => `${id}: ${what}`).join('\n'))
  return compiled.value
}
