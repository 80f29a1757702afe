import { readdirSync, readFileSync } from 'node:fs'
import type { Machine, State } from '@lockwright/machine'
import { promelaOf } from '@lockwright/machine/exports'
import { explore, prove } from '@lockwright/proof'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { machineOf } from '../end-to-end/compile-text.js'
import { chance } from '../end-to-end/walk.js'
import { obligationsMet } from '../proof/obligations-met.js'
import { randomProcedure } from '../proof/random-procedure.js'
import { withHostileWords } from './hostile-words.js'
import { searchWithSpin, spinIsInstalled } from './search-with-spin.js'
import { twoAxes } from './two-axes.js'

// Reference: SPIN 6.5.2 as packaged by Debian, a general-purpose model checker.
const installed = spinIsInstalled()
if (!installed) {
  process.stderr.write(
    '\n!!! SKIPPED: spin or gcc is not installed, so no model was checked by SPIN. On Debian: apt-get install spin gcc\n\n'
  )
}

const seed = 20_260_511
const machines = 210
const atATime = 2
const folder = new URL('../../procedures/', import.meta.url)
const procedures = readdirSync(folder).filter((name) => name.endsWith('.md') && name !== 'README.md')

describe.runIf(installed)('SPIN and our explorer, on the exported model', () => {
  it.each(procedures)('agree on %s, as written and with steps left out', { timeout: 200_000 }, async (name) => {
    const machine = machineOf(readFileSync(new URL(name, folder), 'utf8'), name)
    expect(prove(machine).kind).toBe('proved')
    const mutants = withoutSteps(machine, 10)
    const broken = await inTurns([machine, ...mutants], agreement)
    expect(broken[0]).toEqual([])
    // Most steps are there for a reason: a comparison in which nothing ever fails would show nothing.
    expect(broken.filter((obligations) => obligations.length > 0).length).toBeGreaterThan(mutants.length / 2)
  })

  it(`agree on ${machines} random machines, obligation by obligation (seed ${seed})`, {
    timeout: 400_000
  }, async () => {
    const sample = fc.sample(randomProcedure, { seed, numRuns: machines }).map(({ text }) => machineOf(text))
    const broken = new Set((await inTurns(sample, agreement)).flat())
    // Some steps stand behind a stop or a finish, so that what SPIN reached is told from what it did not.
    expect(sample.some((machine) => explore(machine, 100_000).reached.includes(false))).toBe(true)
    expect(sample.filter(({ order }) => order === 'electrical').length).toBeGreaterThan(machines / 4)
    expect(sample.filter(({ order }) => order === 'general').length).toBeGreaterThan(machines / 4)
    expect([...broken].sort()).toEqual(obligationsMet)
  })

  it('tell work after a test from work that was never locked out', { timeout: 200_000 }, async () => {
    const sample = fc
      .sample(randomProcedure, { seed: seed + 1, numRuns: 500 })
      .map(({ text }) => machineOf(text))
      .filter((machine) => brokenBy(machine).has('relock-after-test'))
      .slice(0, 12)
    expect(sample.length).toBe(12)
    await inTurns(sample, async (machine) => {
      // Which of the two is reported hangs on the shortest way; SPIN finds both where there are ways of both sorts.
      const { violated } = await searchWithSpin(promelaOf(machine), ['-DHISTORY'])
      const ours = brokenBy(machine)
      const either = (ids: ReadonlySet<string>): string[] => [...together(ids)].sort()
      expect(either(violated)).toEqual(either(ours))
      expect([...ours].filter((id) => !violated.has(id))).toEqual([])
    })
  })

  it('reads words that look like code as words', { timeout: 100_000 }, async () => {
    const machine = machineOf(twoAxes)
    const plain = await searchWithSpin(promelaOf(machine))
    const odd = await searchWithSpin(promelaOf(withHostileWords(machine)))
    expect(plain.stored).toBe(explore(machine, 100_000).configurations)
    expect(odd.stored).toBe(plain.stored)
    expect(plain.violated).toEqual(new Set())
    expect(odd.violated).toEqual(new Set())
  })

  it('checks one obligation alone with -DCHECK', { timeout: 100_000 }, async () => {
    const [machine] = fc
      .sample(randomProcedure, { seed, numRuns: machines })
      .map(({ text }) => machineOf(text))
      .filter((candidate) => together(brokenBy(candidate)).size >= 4)
    if (machine === undefined) throw new Error('no random machine breaks four obligations')
    for (const id of [...together(brokenBy(machine))].slice(0, 3)) {
      const name = id.replaceAll('-', '_').toUpperCase()
      expect([...(await searchWithSpin(promelaOf(machine), [`-DCHECK=${name}`])).violated]).toEqual([id])
    }
    expect([...(await searchWithSpin(promelaOf(machine), ['-DCHECK=99'])).violated]).toEqual([])
  })
})

/** Compares everything that both found, and answers what was broken. */
async function agreement(machine: Machine): Promise<readonly string[]> {
  const model = promelaOf(machine)
  const spin = await searchWithSpin(model)
  const ours = explore(machine, 100_000)
  const broken = [...together(brokenBy(machine))].sort()
  expect({
    broken: [...spin.violated].sort(),
    configurations: spin.stored,
    reached: reachedBySpin(machine, model, spin.unreached),
    blocked: spin.blocked
  }).toEqual({
    broken,
    configurations: ours.configurations,
    reached: machine.states.filter((_, index) => ours.reached[index]).map(({ span }) => span.line),
    blocked: false
  })
  return broken
}

/** Obligations that fail in some reachable configuration, as told by the verdict: each such finding shows a way. */
function brokenBy(machine: Machine): ReadonlySet<string> {
  const verdict = prove(machine)
  if (verdict.kind === 'undecided') throw new Error(verdict.reason)
  if (verdict.kind === 'proved') return new Set()
  return new Set(verdict.diagnostics.filter(({ path }) => path.length > 0).map(({ id }) => id))
}

/** Without history SPIN cannot tell the two apart. */
function together(ids: ReadonlySet<string>): ReadonlySet<string> {
  return new Set([...ids].map((id) => (id === 'relock-after-test' ? 'work-isolated' : id)))
}

/** The states, in order, whose first statement SPIN has been to; each stands two lines below its label. */
function reachedBySpin(machine: Machine, model: string, unreached: ReadonlySet<number>): readonly number[] {
  const labels = model.split('\n').flatMap((line, index) => (line.startsWith('at_') ? [index + 1] : []))
  expect(labels.length).toBe(machine.states.length)
  return machine.states.filter((_, index) => !unreached.has((labels[index] ?? 0) + 2)).map(({ span }) => span.line)
}

/** Machines that lack one step each, chosen by a fixed seed: whatever led to it leads to what follows it. */
function withoutSteps(machine: Machine, count: number): readonly Machine[] {
  const random = chance(7)
  const steps = machine.states.filter((state) => state.turns.length > 0 && onwardOf(state) !== undefined)
  return Array.from({ length: count }, () => {
    const left = steps[Math.floor(random() * steps.length)]
    if (left === undefined) throw new Error('the machine has no step to leave out')
    const past = onwardOf(left)
    const states = machine.states
      .filter(({ id }) => id !== left.id)
      .map((state) => ({
        ...state,
        exits: state.exits.map((exit) => (exit.to === left.id ? { ...exit, to: past } : exit))
      }))
    return { ...machine, start: machine.start === left.id ? past : machine.start, states } as Machine
  })
}

function onwardOf({ id, exits }: State): State['id'] | undefined {
  return exits.find(({ on, to }) => on === 'done' && to !== id)?.to
}

/** Does the work for each item, a few at a time, and keeps the order. */
async function inTurns<Item, Result>(items: readonly Item[], work: (item: Item) => Promise<Result>): Promise<Result[]> {
  const results: Result[] = []
  let next = 0
  const worker = async (): Promise<void> => {
    for (let index = next++; index < items.length; index = next++) results[index] = await work(items[index] as Item)
  }
  await Promise.all(Array.from({ length: atATime }, worker))
  return results
}
