import type { Content } from '@lockwright/language'
import type { Machine, State } from '@lockwright/machine'

/** One answer that can be chosen by its number or its words. */
export interface Option {
  /** As the event names it. */
  readonly answer: string
  readonly label: string
  /** How to tell it; null where the label says all. */
  readonly tell: string | null
  readonly says: readonly Content[]
}

/** The answers of an `ask` or the generations of an `identify`, in the order in which they are written. */
export function optionsOf(machine: Machine, state: State): readonly Option[] {
  const axis = state.kind === 'identify' ? machine.axes.find(({ id }) => id === state.axis) : undefined
  return state.exits.flatMap((exit): readonly Option[] => {
    switch (exit.on) {
      case 'answer':
        return [{ answer: exit.answer, label: exit.label, tell: null, says: exit.says }]
      case 'identified': {
        const value = axis?.values.find(({ id }) => id === exit.value)
        return value === undefined ? [] : [{ answer: value.id, label: value.name, tell: value.tell, says: [] }]
      }
      default:
        return []
    }
  })
}
