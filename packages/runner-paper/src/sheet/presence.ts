import type { AxisId, AxisValueId } from '@lockwright/language'
import {
  doesNothing,
  firstLedger,
  type Input,
  isPresent,
  type Machine,
  modelOf,
  type Only,
  type State,
  type Thing
} from '@lockwright/machine'
import type { Rail } from './sheet.js'

/** What is known of the generation: for each axis named, its value. */
export type Known = ReadonlyMap<AxisId, AxisValueId>

/** What is there, and what is done, as far as the generation is known: asked of the machine's own ledger. */
export interface Presence {
  readonly has: (thing: Thing) => boolean
  /** False for a step all of whose things are absent. */
  readonly does: (state: State) => boolean
  readonly asks: (input: Input) => boolean
}

export function presenceOf(machine: Machine, known: Known): Presence {
  const model = modelOf(machine)
  const ledger = firstLedger(model)
  machine.axes.forEach(({ id, values }, index) => {
    const value = known.get(id)
    if (value !== undefined) ledger[model.layout.axes + index] = values.findIndex((each) => each.id === value) + 1
  })
  const has = (thing: Thing): boolean => isPresent(model, ledger, thing)
  return {
    has,
    does: (state) => !doesNothing(model, ledger, state),
    asks: (input) => {
      const thing = thingOf(input)
      return thing === null || has(thing)
    }
  }
}

/** The declared thing that an input is about, where it is about one. */
function thingOf(input: Input): Thing | null {
  switch (input.kind) {
    case 'lock':
    case 'unlock':
      return { kind: 'point', id: input.point }
    case 'box':
    case 'reading':
    case 'wait':
      return input.source === null ? null : { kind: 'source', id: input.source }
  }
}

/** The generations on which a thing exists, as far as they are not known yet. */
export function railsOf(machine: Machine, only: Only, known: Known): readonly Rail[] {
  return only
    .filter(({ axis }) => !known.has(axis))
    .map(({ axis, values }) => ({
      axis,
      values: machine.axes.find((each) => each.id === axis)?.values.filter((value) => values.includes(value.id)) ?? []
    }))
}
