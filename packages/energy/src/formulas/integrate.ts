interface Node {
  readonly at: number
  readonly weight: number
}

const degree = 20
const nodes: readonly Node[] = gaussLegendre(degree)

/** Nodes and weights on −1 to 1, found by Newton's method on the Legendre polynomial of the degree given. */
function gaussLegendre(count: number): readonly Node[] {
  return Array.from({ length: count }, (_, index) => {
    let at = Math.cos((Math.PI * (index + 0.75)) / (count + 0.5))
    let slope = 1
    // Newton doubles the digits at each turn: six turns from a start that is good to two.
    for (let turn = 0; turn < 6; turn++) {
      let [previous, current] = [1, at]
      for (let order = 2; order <= count; order++) {
        ;[previous, current] = [current, ((2 * order - 1) * at * current - (order - 1) * previous) / order]
      }
      slope = (count * (at * current - previous)) / (at * at - 1)
      at -= current / slope
    }
    return { at, weight: 2 / ((1 - at * at) * slope * slope) }
  })
}

/** Integral of a smooth function; the ends themselves are never evaluated. */
export function integrate(smooth: (at: number) => number, from: number, to: number, panels = 2): number {
  const half = (to - from) / (2 * panels)
  let sum = 0
  for (let panel = 0; panel < panels; panel++) {
    const middle = from + (2 * panel + 1) * half
    for (const { at, weight } of nodes) sum += weight * smooth(middle + half * at)
  }
  return sum * half
}
