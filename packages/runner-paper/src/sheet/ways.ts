import type { AxisValue } from '@lockwright/language'
import type { Exit, Machine, State, StateId } from '@lockwright/machine'
import type { Known } from './presence.js'
import { axisOf } from './reach.js'
import type { Way } from './sheet.js'

/**
 * Where a printed step goes on. Generations that lead to the same place are told together. On an identify
 * step whose generation was chosen for the sheet, the others lead to no step: the sheet is not for them.
 */
export function waysOf(
  machine: Machine,
  state: State,
  known: Known,
  numbers: ReadonlyMap<StateId, number>,
  own: number
): readonly Way[] {
  const axis = machine.axes.find((each) => each.id === axisOf(state))
  const chosen = axis === undefined ? undefined : known.get(axis.id)
  const ways: Way[] = []
  for (const exit of state.exits) {
    const values = 'value' in exit ? (axis?.values.filter((value) => value.id === exit.value) ?? []) : []
    const off = 'value' in exit && chosen !== undefined && chosen !== exit.value
    if (off && state.kind === 'branch') continue
    const way = wayOf(exit, values, off ? null : (numbers.get(exit.to) ?? null), own)
    const twin = values.length === 0 ? -1 : ways.findIndex((each) => leadsAlike(each, way))
    const earlier = ways[twin]
    if (earlier === undefined) ways.push(way)
    else ways[twin] = { ...earlier, values: [...earlier.values, ...values] }
  }
  return ways
}

function wayOf(exit: Exit, values: readonly AxisValue[], to: number | null, own: number): Way {
  return {
    on: exit.on,
    label: exit.on === 'answer' ? exit.label : '',
    answer: exit.on === 'answer' ? exit.answer : '',
    values,
    says: 'says' in exit ? exit.says : [],
    to,
    next: to === own + 1
  }
}

function leadsAlike(one: Way, other: Way): boolean {
  return one.on === other.on && one.to === other.to && JSON.stringify(one.says) === JSON.stringify(other.says)
}
