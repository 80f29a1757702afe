import type { StateId } from '../../ids.js'
import type { Machine } from '../../machine.js'
import { chartOf, type Known } from './chart-of.js'

interface XstateState {
  readonly description?: string
  readonly type?: 'final'
  /** Where in the procedure: the state's id, the line, and what is known of the generation there. */
  readonly meta?: { readonly state: StateId; readonly line: number; readonly kind: string; readonly known: Known }
  readonly on?: Readonly<Record<string, { readonly target: string }>>
  readonly always?: { readonly target: string }
}

/** Plain data that `createMachine` of xstate 5 takes as it is. */
export interface XstateConfig {
  readonly id: string
  readonly description: string
  readonly initial: string
  readonly states: Readonly<Record<string, XstateState>>
}

/** The machine as a configuration for xstate 5, with the states and events of the SCXML export. */
export function xstateOf(machine: Machine): XstateConfig {
  const { initial, states, finished, stopped } = chartOf(machine)
  return {
    id: machine.procedure,
    description: machine.title,
    initial,
    states: {
      ...Object.fromEntries(
        states.map(({ id, state, known, moves }): [string, XstateState] => {
          const events = moves.flatMap(({ event, to }) => (event === null ? [] : [[event, { target: to }] as const]))
          const onward = moves.find(({ event }) => event === null)
          return [
            id,
            {
              description: state.title,
              meta: { state: state.id, line: state.span.line, kind: state.kind, known },
              ...(events.length === 0 ? {} : { on: Object.fromEntries(events) }),
              ...(onward === undefined ? {} : { always: { target: onward.to } })
            }
          ]
        })
      ),
      [finished]: { type: 'final' },
      [stopped]: { type: 'final' }
    }
  }
}
