/**
 * One name for each id, spelled with what the outside tool allows. Ids that would share a name are numbered in the
 * order in which they are given, so that the same machine always gets the same names.
 */
export function distinctNames<Id extends string>(
  ids: readonly Id[],
  spell: (id: Id) => string
): ReadonlyMap<Id, string> {
  const names = new Map<Id, string>()
  const taken = new Set<string>()
  for (const id of ids) {
    if (names.has(id)) continue
    const wanted = spell(id)
    let name = wanted
    for (let number = 2; taken.has(name); number += 1) name = `${wanted}_${number}`
    taken.add(name)
    names.set(id, name)
  }
  return names
}

/** The name of an id that stands in the machine; a miss is a defect of ours. */
export function nameOf(names: ReadonlyMap<string, string>, id: string): string {
  const name = names.get(id)
  if (name === undefined) throw new Error(`the machine declares no ${id}`)
  return name
}
