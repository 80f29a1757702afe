const most = 4
const longest = 40

/**
 * At most four of the candidates that are spelled nearly as `name`, the nearest first. The same name in another
 * case counts as nearest. Names longer than 40 characters are not compared.
 */
export function nearest(name: string, candidates: Iterable<string>): readonly string[] {
  if (name === '' || name.length > longest) return []
  const wanted = name.toLowerCase()
  // One letter more or less of a short name makes another name of it.
  const allowed = wanted.length < 2 ? 0 : Math.max(1, Math.floor(wanted.length / 3))
  const near: { readonly candidate: string; readonly distance: number }[] = []
  for (const candidate of new Set(candidates)) {
    const other = candidate.toLowerCase()
    if (candidate === name || Math.abs(other.length - wanted.length) > allowed) continue
    const distance = distanceBetween(wanted, other)
    if (distance <= allowed) near.push({ candidate, distance })
  }
  near.sort((left, right) => left.distance - right.distance || (left.candidate < right.candidate ? -1 : 1))
  return near.slice(0, most).map(({ candidate }) => candidate)
}

/** The keys that are spelled nearly as `name`; else those that begin as it does, the longest beginning in common first. */
export function nearestKeys(name: string, keys: Iterable<string>): readonly string[] {
  const all = [...keys]
  const near = nearest(name, all)
  if (near.length > 0) return near
  const least = Math.max(leastBeginning, Math.min(name.length, longest) - 2)
  const begun = all.map((key) => ({ key, shared: sharedBeginning(name.toLowerCase(), key) }))
  const most = Math.max(0, ...begun.map(({ shared }) => shared))
  return most < least ? [] : begun.filter(({ shared }) => shared === most).map(({ key }) => key)
}

const leastBeginning = 3

function sharedBeginning(left: string, right: string): number {
  let index = 0
  while (index < left.length && left[index] === right[index]) index += 1
  return index
}

/** Edits from one to the other, where swapping two neighbours counts as one (optimal string alignment). */
function distanceBetween(left: string, right: string): number {
  let before: number[] = []
  let previous = Array.from({ length: right.length + 1 }, (_, index) => index)
  for (let row = 1; row <= left.length; row += 1) {
    const current = [row]
    for (let column = 1; column <= right.length; column += 1) {
      const cost = left[row - 1] === right[column - 1] ? 0 : 1
      let best = Math.min(
        (previous[column] ?? 0) + 1,
        (current[column - 1] ?? 0) + 1,
        (previous[column - 1] ?? 0) + cost
      )
      const swapped =
        row > 1 && column > 1 && left[row - 1] === right[column - 2] && left[row - 2] === right[column - 1]
      if (swapped) best = Math.min(best, (before[column - 2] ?? 0) + 1)
      current.push(best)
    }
    before = previous
    previous = current
  }
  return previous[right.length] ?? 0
}
