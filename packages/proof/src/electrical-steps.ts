import type { SourceKind } from '@lockwright/language'
import type { Machine, MachineItem, MachineSource, State } from '@lockwright/machine'
import { sourceOf } from './arrangement.js'

export type ProveState = Extract<State, { readonly kind: 'prove' }>

/** A step at which hands come near electrical work that is not proven dead yet, or is handled as if it were not. */
export interface ElectricalStep {
  readonly state: State
  /** The sources of electrical work that the step handles. */
  readonly sources: readonly MachineSource[]
}

/** A prove step with those of its sources that are electrical work. */
export interface ElectricalProof extends ElectricalStep {
  readonly state: ProveState
}

/**
 * prove; restrain with an earth or short; restrain of a battery; relieve with a tool, a discharge by hand:
 * each as far as it handles electrical work. A copy of a step stands beside the step; they are told once, at its place.
 */
export function electricalSteps(machine: Machine): readonly ElectricalStep[] {
  return machine.states
    .map((state) => ({ state, sources: handled(machine, state).filter(({ electricalWork }) => electricalWork) }))
    .filter(({ sources }) => sources.length > 0)
}

/** The prove steps that verify electrical work. */
export function electricalProofs(machine: Machine): readonly ElectricalProof[] {
  return electricalSteps(machine).flatMap(({ state, sources }) => (state.kind === 'prove' ? [{ state, sources }] : []))
}

function handled(machine: Machine, state: State): readonly MachineSource[] {
  switch (state.kind) {
    case 'prove':
      return state.sources.map((id) => sourceOf(machine, id))
    case 'relieve':
      return state.with.length === 0 ? [] : state.sources.map((id) => sourceOf(machine, id))
    case 'restrain':
      return machine.restraints
        .filter(({ id }) => state.restraints.includes(id))
        .flatMap(({ kind, holds }) =>
          holds
            .map((id) => sourceOf(machine, id))
            .filter((source) => kind === 'earth' || kind === 'short' || source.kind === 'battery')
        )
    default:
      return []
  }
}

/** electrical, capacitor or battery, whatever the voltage: what a voltage tester verifies. */
export function isElectricalKind(kind: SourceKind): boolean {
  return kind === 'electrical' || kind === 'capacitor' || kind === 'battery'
}

/** Those of the declared items of one kind that the ids name. */
export function itemsNamed(
  machine: Machine,
  ids: readonly string[],
  kind: MachineItem['kind']
): readonly MachineItem[] {
  return machine.items.filter((item) => item.kind === kind && ids.includes(item.id))
}

/** The voltage testers that a proof names with `with=`. */
export function testersOf(machine: Machine, state: ProveState): readonly MachineItem[] {
  return itemsNamed(machine, state.with, 'tool').filter(({ measures }) => measures === 'voltage')
}

/** Alternating or direct: what a source is, where its voltage does not say. */
export function currentOf({ kind, quantities }: MachineSource): 'ac' | 'dc' {
  return kind === 'electrical' ? (quantities['voltage']?.current ?? 'ac') : 'dc'
}
