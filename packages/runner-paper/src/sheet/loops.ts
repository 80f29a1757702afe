/** The nodes of a graph that lie on some loop. `next[i]` are the successors of node i. Linear; no recursion. */
export function loops(next: readonly (readonly number[])[]): ReadonlySet<number> {
  const order = finishOrder(next)
  const before: number[][] = next.map(() => [])
  next.forEach((targets, from) => {
    for (const to of targets) before[to]?.push(from)
  })
  const looped = new Set<number>()
  const seen = new Set<number>()
  for (const root of order.reverse()) {
    if (seen.has(root)) continue
    const component = walk(root, before, seen)
    if (component.length > 1 || next[root]?.includes(root)) for (const node of component) looped.add(node)
  }
  return looped
}

/** All nodes, each after everything that can be reached from it for the first time (Kosaraju's first pass). */
function finishOrder(next: readonly (readonly number[])[]): number[] {
  const order: number[] = []
  const seen = new Set<number>()
  for (let root = 0; root < next.length; root += 1) {
    if (seen.has(root)) continue
    seen.add(root)
    const stack = [{ node: root, at: 0 }]
    for (let top = stack.at(-1); top !== undefined; top = stack.at(-1)) {
      const target = next[top.node]?.[top.at]
      top.at += 1
      if (target === undefined) {
        order.push(top.node)
        stack.pop()
      } else if (!seen.has(target)) {
        seen.add(target)
        stack.push({ node: target, at: 0 })
      }
    }
  }
  return order
}

function walk(root: number, next: readonly (readonly number[])[], seen: Set<number>): readonly number[] {
  const found: number[] = []
  const stack = [root]
  seen.add(root)
  for (let node = stack.pop(); node !== undefined; node = stack.pop()) {
    found.push(node)
    for (const target of next[node] ?? []) {
      if (seen.has(target)) continue
      seen.add(target)
      stack.push(target)
    }
  }
  return found
}
