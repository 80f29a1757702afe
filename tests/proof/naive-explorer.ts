import type { Machine, State } from '@lockwright/machine'
import { canonical, firstLedger, type Ledger, settled } from './naive-ledger.js'
import { done } from './naive-step.js'

/**
 * A second explorer, written from the tables of the meaning page alone: plain objects, recursion, no cleverness, and
 * nothing of the ledger or the needs that the compiler wrote into the machine. It is slow and meant to be easy to check.
 */
export interface NaiveResult {
  /** `<obligation> <state id>`; relock-after-test depends on the path shown and counts as work-isolated here. */
  readonly failures: ReadonlySet<string>
  readonly configurations: number
  readonly reached: ReadonlySet<string>
}

export function exploreNaively(machine: Machine): NaiveResult {
  const failures = new Set<string>()
  const reached = new Set<string>()
  const visited = new Set<string>()
  // A sign-off that nothing asks for changes nothing, and is not told apart.
  const asked = new Set<string>([
    ...machine.leftOn.flatMap((left) => left.permits),
    ...machine.states.flatMap((state) => ('permits' in state ? state.permits : []))
  ])

  const visit = (id: string, ledger: Ledger): void => {
    const key = JSON.stringify([id, canonical(ledger)])
    if (visited.has(key)) return
    visited.add(key)
    reached.add(id)
    const state = machine.states.find((candidate) => candidate.id === id)
    if (state === undefined) throw new Error(`no state ${id}`)
    for (const [next, after] of moves(machine, state, ledger, asked, failures)) visit(next, after)
  }

  visit(machine.start, firstLedger(machine))
  return { failures, configurations: visited.size, reached }
}

/** Every state and ledger that can follow; what fails on the way is noted. */
function moves(
  machine: Machine,
  state: State,
  ledger: Ledger,
  asked: ReadonlySet<string>,
  failures: Set<string>
): [string, Ledger][] {
  const { exits } = state
  if (state.kind === 'identify') {
    const known = ledger.axes[state.axis]
    return exits.flatMap((exit): [string, Ledger][] => {
      if (exit.on === 'late') return known === undefined ? [[exit.to, ledger]] : []
      if (exit.on !== 'identified') return []
      if (known !== undefined) return exit.value === known ? [[exit.to, ledger]] : []
      const answered = structuredClone(ledger)
      answered.axes[state.axis] = exit.value
      const after = settled(machine, answered)
      const lates = exits.filter((other) => other.on === 'late').map((late): [string, Ledger] => [late.to, after])
      return [[exit.to, after], ...lates]
    })
  }
  if (state.kind === 'branch') {
    const known = ledger.axes[state.axis]
    if (known === undefined) failures.add(`hardware-known ${state.id}`)
    return exits.flatMap((exit): [string, Ledger][] =>
      exit.on === 'value' && (known === undefined || exit.value === known) ? [[exit.to, ledger]] : []
    )
  }
  const after = done(machine, state, ledger, asked, failures)
  if (after === null) {
    // Nothing of it exists here: it is passed by, and there is no time in it to be late.
    return exits.flatMap((exit): [string, Ledger][] =>
      exit.on === 'done' || exit.on === 'inside' ? [[exit.to, ledger]] : []
    )
  }
  return exits.flatMap((exit): [string, Ledger][] =>
    exit.on === 'late'
      ? [
          [exit.to, ledger],
          [exit.to, after]
        ]
      : [[exit.to, after]]
  )
}
