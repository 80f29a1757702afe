/** Items of the old and the next revision that stand for each other, and those that stand alone. */
export interface Paired<Item> {
  readonly pairs: readonly { readonly old: Item; readonly next: Item }[]
  readonly lost: readonly Item[]
  readonly gained: readonly Item[]
}

/** By what an item of one revision is known; null: not by this. */
export type Key<Item> = (item: Item) => string | null

/**
 * Pairs items phase by phase, the surest likeness first: within a phase those of one key in their order. Exchanging the
 * two lists exchanges the pairs, and a list is paired with itself item by item.
 */
export function pairUp<Item>(old: readonly Item[], next: readonly Item[], phases: readonly Key<Item>[]): Paired<Item> {
  const pairs: { old: Item; next: Item }[] = []
  let lost = old
  let gained = next
  for (const key of phases) {
    const waiting = new Map<string, Item[]>()
    for (const item of gained) {
      const name = key(item)
      if (name !== null) waiting.set(name, [...(waiting.get(name) ?? []), item])
    }
    const met = new Set<Item>()
    lost = lost.filter((item) => {
      const name = key(item)
      const other = name === null ? undefined : waiting.get(name)?.shift()
      if (other === undefined) return true
      pairs.push({ old: item, next: other })
      met.add(other)
      return false
    })
    gained = gained.filter((item) => !met.has(item))
  }
  return { pairs, lost, gained }
}
