import type { Diagnostic, Procedure, Result } from '@lockwright/language'
import type { Machine } from '../machine.js'
import { checkBacks, checkIsolation } from './check-flow.js'
import { declarationsOf } from './declarations.js'
import { feedingOf } from './feeding.js'
import { flowOf, stateLimit } from './flow.js'

/**
 * Lowers a procedure to its machine. What it refuses cannot be given a meaning; whether the machine is
 * lawful is for the proof to say.
 */
export function compile(procedure: Procedure): Result<Machine> {
  const isolation = checkIsolation(procedure)
  const flow = flowOf(procedure, {
    head: procedure.head,
    feeding: feedingOf(procedure.head),
    items: new Map(procedure.items.map((item) => [item.id, item]))
  })
  if (flow === null) return refused([tooLarge(procedure), ...isolation])
  const faults = [...isolation, ...checkBacks(procedure.file, flow.entry, flow.states)]
  if (faults.length > 0) return refused(faults)
  return { ok: true, value: { ...declarationsOf(procedure), start: flow.entry, states: flow.states }, warnings: [] }
}

function refused(faults: readonly Diagnostic[]): Result<Machine> {
  const [first, ...others] = [...faults].sort(
    (one, other) => one.place.start.line - other.place.start.line || one.place.start.column - other.place.start.column
  )
  if (first === undefined) throw new Error('a refusal needs a fault')
  return { ok: false, diagnostics: [first, ...others] }
}

function tooLarge(procedure: Procedure): Diagnostic {
  const repeat = procedure.body.find((block) => block.kind === 'repeat' || block.kind === 'remedies')
  return {
    id: 'too-many-states',
    severity: 'error',
    place: repeat?.place ?? procedure.end,
    what: `With every repeated section copied, the procedure has more than ${stateLimit} states.`,
    danger: 'A machine of that size is not explored to the end, so nothing would be proven of it.',
    mend: 'Repeat shorter sections, or split the procedure in two.',
    related: [],
    path: []
  }
}
