/** An edge that has to be walked at least once. */
export interface FlowEdge {
  readonly from: number
  readonly to: number
}

export interface LeastFlow {
  /** Walks of the start to an end; fewer cannot take every edge. */
  readonly walks: number
  /** How often each edge is taken. */
  readonly flow: readonly number[]
  /** As many edges as there are walks, no two of which one walk can take: why fewer do not do. */
  readonly apart: readonly number[]
}

/**
 * The fewest walks from node 0 to an end that take every edge at least once: a minimum flow with lower bound 1 on each
 * edge. First a flow that covers all, then it is reduced along residual ways until none is left; by the cut that this
 * leaves, nothing smaller covers all. Cycles are allowed. Every node is to be reachable from node 0; a node from which no
 * end can be reached counts as an end, for a walk may be broken off there.
 */
export function leastFlow(nodes: number, edges: readonly FlowEdge[], ends: ReadonlySet<number>): LeastFlow {
  const network = networkOf(nodes, edges, ends)
  const flow = coveringFlow(network)
  let reached = reduce(network, flow)
  while (reached === null) reached = reduce(network, flow)
  const side = reached
  const apart = edges.flatMap(({ from, to }, edge) => (side[from] === 1 && side[to] === 0 ? [edge] : []))
  const walks = network.edges.reduce((sum, { to }, edge) => (to === network.sink ? sum + (flow[edge] ?? 0) : sum), 0)
  return { walks, flow: flow.slice(0, edges.length), apart }
}

/** The graph with a sink behind its ends; the edges into the sink need not be taken. */
interface Network {
  readonly edges: readonly FlowEdge[]
  readonly required: number
  readonly sink: number
  readonly out: readonly (readonly number[])[]
  readonly into: readonly (readonly number[])[]
}

function networkOf(nodes: number, edges: readonly FlowEdge[], ends: ReadonlySet<number>): Network {
  const into = listsOf(nodes, edges, ({ to }) => to)
  const canEnd = new Uint8Array(nodes)
  const queue = [...ends]
  for (let next = queue.pop(); next !== undefined; next = queue.pop()) {
    if (canEnd[next] === 1) continue
    canEnd[next] = 1
    for (const edge of into[next] ?? []) queue.push(edges[edge]?.from as number)
  }
  const closing: FlowEdge[] = []
  for (let node = 0; node < nodes; node += 1) {
    if (ends.has(node) || canEnd[node] === 0) closing.push({ from: node, to: nodes })
  }
  const all = [...edges, ...closing]
  return {
    edges: all,
    required: edges.length,
    sink: nodes,
    out: listsOf(nodes + 1, all, ({ from }) => from),
    into: listsOf(nodes + 1, all, ({ to }) => to)
  }
}

function listsOf(nodes: number, edges: readonly FlowEdge[], at: (edge: FlowEdge) => number): number[][] {
  const lists: number[][] = Array.from({ length: nodes }, () => [])
  edges.forEach((edge, index) => {
    lists[at(edge)]?.push(index)
  })
  return lists
}

/** Some flow that covers all: walks through an edge not yet taken, lengthened at both ends by more of that sort. */
function coveringFlow(network: Network): number[] {
  const { edges, required, sink, out, into } = network
  const flow = edges.map(() => 0)
  const toSink = towards(network, sink, into, ({ from }) => from)
  const toStart = towards(network, 0, out, ({ to }) => to)
  const fresh = (some: readonly number[] | undefined): number | undefined =>
    some?.find((edge) => edge < required && flow[edge] === 0)
  const take = (edge: number): FlowEdge => {
    flow[edge] = (flow[edge] ?? 0) + 1
    return edges[edge] as FlowEdge
  }
  for (let edge = 0; edge < required; edge += 1) {
    if ((flow[edge] ?? 0) > 0) continue
    const { from, to } = take(edge)
    let first = from
    for (let next = fresh(into[first]); next !== undefined; next = fresh(into[first])) first = take(next).from
    while (first !== 0) first = take(toStart[first] as number).from
    let last = to
    for (let next = fresh(out[last]); next !== undefined; next = fresh(out[last])) last = take(next).to
    while (last !== sink) last = take(toSink[last] as number).to
  }
  return flow
}

/** For each node the edge of a shortest way that joins it to the goal. */
function towards(
  { edges }: Network,
  goal: number,
  lists: readonly (readonly number[])[],
  other: (edge: FlowEdge) => number
): readonly number[] {
  const via: number[] = lists.map(() => -1)
  const queue = [goal]
  for (const node of queue) {
    for (const edge of lists[node] ?? []) {
      const next = other(edges[edge] as FlowEdge)
      if (via[next] !== -1 || next === goal) continue
      via[next] = edge
      queue.push(next)
    }
  }
  return via
}

/**
 * Takes back as much flow as one residual way from the start to the sink allows: less on edges along it, more on those
 * against it. Answers null where it did, else the nodes that residual ways still reach.
 */
function reduce({ edges, required, sink, out, into }: Network, flow: number[]): Uint8Array | null {
  const reached = new Uint8Array(sink + 1)
  const via: { readonly edge: number; readonly along: boolean }[] = []
  const queue = [0]
  reached[0] = 1
  const spare = (edge: number): number => (flow[edge] ?? 0) - (edge < required ? 1 : 0)
  const visit = (node: number, edge: number, along: boolean): void => {
    if (reached[node] === 1) return
    reached[node] = 1
    via[node] = { edge, along }
    queue.push(node)
  }
  for (const node of queue) {
    for (const edge of out[node] ?? []) if (spare(edge) > 0) visit(edges[edge]?.to as number, edge, true)
    for (const edge of into[node] ?? []) visit(edges[edge]?.from as number, edge, false)
  }
  if (reached[sink] === 0) return reached
  const way: { readonly edge: number; readonly along: boolean }[] = []
  for (let node = sink; node !== 0; ) {
    const step = via[node] as { readonly edge: number; readonly along: boolean }
    way.push(step)
    node = step.along ? (edges[step.edge]?.from as number) : (edges[step.edge]?.to as number)
  }
  const most = Math.min(...way.filter(({ along }) => along).map(({ edge }) => spare(edge)))
  for (const { edge, along } of way) flow[edge] = (flow[edge] ?? 0) + (along ? -most : most)
  return null
}
