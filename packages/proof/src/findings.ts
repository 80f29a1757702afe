import type { Condition, Rung, State } from '@lockwright/machine'
import { LOCKED, type PackedLedger } from '@lockwright/machine'
import type { Exploration } from './explore.js'
import type { Failure } from './obligation.js'

/** All breaches of one obligation at one place, and the first configuration in which it was broken. */
export interface Group {
  readonly obligation: string
  readonly state: State
  readonly faults: Failure['faults']
  readonly configuration: number
}

/**
 * Breaches gathered by obligation and place; copies of a step stand at one place. Configurations come in
 * the order of the shortest way, so the first breach of a group has the shortest path to it.
 */
export function groupsOf(exploration: Exploration): readonly Group[] {
  const { machine } = exploration.model
  const groups = new Map<string, { group: Group; faults: Map<string, Failure['faults'][number]> }>()
  for (const { configuration, unmet } of exploration.breaches) {
    const state = machine.states[exploration.stateOf[configuration] as number] as State
    for (const { need, rung } of unmet) {
      const obligation = obligationOf(exploration, configuration, rung)
      const key = `${obligation} ${state.span.line}:${state.span.column}`
      let known = groups.get(key)
      if (known === undefined) {
        known = { group: { obligation, state, faults: [], configuration }, faults: new Map() }
        groups.set(key, known)
      }
      known.faults.set(JSON.stringify([need.about, rung.condition]), { about: need.about, condition: rung.condition })
    }
  }
  return [...groups.values()].map(({ group, faults }) => ({ ...group, faults: [...faults.values()] }))
}

/** Work on a source whose point was locked before on the way here is work after a test without a full lockout. */
function obligationOf(exploration: Exploration, configuration: number, rung: Rung): string {
  if (rung.obligation !== 'work-isolated') return rung.obligation
  return openPoints(exploration, configuration, rung.condition).some((point) =>
    wasLocked(exploration, configuration, point)
  )
    ? 'relock-after-test'
    : rung.obligation
}

/** Points that feed the source and are not locked, by index. */
function openPoints({ model, ledgerOf }: Exploration, configuration: number, condition: Condition): readonly number[] {
  if (condition.is !== 'isolated') return []
  const source = model.sourceIndex.get(condition.source)
  const ledger = ledgerOf[configuration] as PackedLedger
  return model.fedByPoint.flatMap((fed, point) =>
    source !== undefined && fed.includes(source) && ledger[model.layout.points + point] !== LOCKED ? [point] : []
  )
}

function wasLocked(exploration: Exploration, configuration: number, point: number): boolean {
  const byte = exploration.model.layout.points + point
  return exploration.wayTo(configuration).some(({ after }) => after[byte] === LOCKED)
}
