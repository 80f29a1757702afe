import type { AxisId, AxisValueId } from '@lockwright/language'
import type { Machine, Only } from '@lockwright/machine'

/** One value for each axis that is told apart; an axis that is not named is open: every value of it may be met. */
export type Generation = ReadonlyMap<AxisId, AxisValueId>

/** More combinations than this are not told apart: the last axes are then left open. */
export const generationLimit = 64

/** Every generation of the equipment, in the order of the declarations; one without an axis where nothing differs. */
export function generationsOf(machine: Machine): readonly Generation[] {
  let generations: readonly Generation[] = [new Map()]
  for (const axis of machine.axes) {
    if (generations.length * axis.values.length > generationLimit) break
    generations = generations.flatMap((generation) =>
      axis.values.map(({ id }) => new Map([...generation, [axis.id, id]]))
    )
  }
  return generations
}

/** Axes that are not told apart because there are too many combinations. */
export function openAxes(machine: Machine, generations: readonly Generation[]): readonly AxisId[] {
  return machine.axes.map(({ id }) => id).filter((id) => generations[0]?.has(id) !== true)
}

/** `cabinet series-s, pump small`; empty where nothing differs. */
export function tellGeneration(generation: Generation): string {
  return [...generation].map(([axis, value]) => `${axis} ${value}`).join(', ')
}

/** Whether what bears `only` exists on the generation, as far as the axes in `known` were identified. */
export function existsOn(generation: Generation, known: ReadonlySet<AxisId>, only: Only): boolean {
  return only.every(({ axis, values }) => {
    const value = known.has(axis) ? generation.get(axis) : undefined
    return value === undefined || values.includes(value)
  })
}
