import type { AxisId, AxisValueId } from '@lockwright/language'
import type { Machine, Only } from '@lockwright/machine'
import { type Key, pairUp } from './pair-up.js'

/**
 * Names that hold in both revisions: of each thing its id, and where a thing was renamed, its id in the old one.
 * A thing counts as renamed if nothing of the other revision bears its id and something else there is the same.
 */
export interface SharedNames {
  readonly old: (id: string) => string
  readonly next: (id: string) => string
  /** A value of an axis, as both call it. */
  readonly oldValue: (axis: AxisId, value: AxisValueId) => string
  readonly nextValue: (axis: AxisId, value: AxisValueId) => string
  /** Values, so named, that both revisions know. */
  readonly values: ReadonlySet<string>
}

export function sharedNames(old: Machine, next: Machine): SharedNames {
  const names = new Map<string, string>()
  const rename = (id: string): string => names.get(id) ?? id
  const match = <Item extends { readonly id: string }>(
    before: readonly Item[],
    now: readonly Item[],
    likeness: (item: Item, name: (id: string) => string) => string
  ): void => {
    const sides = [
      ...before.map((item) => ({ item, key: likeness(item, (id) => id) })),
      ...now.map((item) => ({ item, key: likeness(item, rename) }))
    ]
    const phases: readonly Key<(typeof sides)[number]>[] = [({ item }) => item.id, ({ key }) => key]
    const { pairs } = pairUp(sides.slice(0, before.length), sides.slice(before.length), phases)
    for (const pair of pairs) if (pair.old.item.id !== pair.next.item.id) names.set(pair.next.item.id, pair.old.item.id)
  }
  match(old.axes, next.axes, ({ ask, values }) => JSON.stringify([ask, values.map(({ name }) => name)]))
  match(old.points, next.points, ({ is, where, safe }) => JSON.stringify([is, where, safe]))
  match(old.sources, next.sources, ({ kind, quantities, at }, name) =>
    JSON.stringify([
      kind,
      at.map(name).sort(),
      Object.entries(quantities)
        .map(([key, { si, tolerance }]) => [key, si, tolerance])
        .sort()
    ])
  )
  match(old.restraints, next.restraints, ({ kind, is, holds }, name) =>
    JSON.stringify([kind, is, holds.map(name).sort()])
  )
  match(old.roles, next.roles, ({ name, holds, electrical }) => JSON.stringify([name, [...holds].sort(), electrical]))
  match(old.items, next.items, ({ kind, label }) => JSON.stringify([kind, label]))
  const values = valueNames(old, next, rename)
  return {
    old: (id) => id,
    next: rename,
    oldValue: (axis, value) => `${axis} ${value}`,
    nextValue: (axis, value) => values.get(`${axis} ${value}`) ?? `${rename(axis)} ${value}`,
    values: new Set(values.values())
  }
}

/** Values of the axes that both revisions have, from the next one's name to the old one's. */
function valueNames(old: Machine, next: Machine, rename: (id: string) => string): ReadonlyMap<string, string> {
  const names = new Map<string, string>()
  for (const axis of next.axes) {
    const before = old.axes.find(({ id }) => id === rename(axis.id))
    const { pairs } = pairUp(before?.values ?? [], axis.values, [
      ({ id }) => id,
      ({ name, tell }) => JSON.stringify([name, tell])
    ])
    for (const pair of pairs) names.set(`${axis.id} ${pair.next.id}`, `${rename(axis.id)} ${pair.old.id}`)
  }
  return names
}

/** What is needed to read one revision: how it names things, and how it names values. */
export interface Reading {
  readonly machine: Machine
  readonly name: (id: string) => string
  readonly value: (axis: AxisId, value: AxisValueId) => string
  readonly values: ReadonlySet<string>
}

/** Every generation that both revisions know and on which what bears `only` exists, axis by axis. */
export function existence({ machine, value, values }: Reading, only: Only): ReadonlyMap<string, string> {
  const on = machine.axes.flatMap(({ id, values: all }) => {
    const limit = only.find(({ axis }) => axis === id)
    return all
      .filter((one) => limit === undefined || limit.values.includes(one.id))
      .map((one): [string, string] => [value(id, one.id), `${id} \`${one.id}\``])
  })
  return new Map(on.filter(([name]) => values.has(name)))
}
