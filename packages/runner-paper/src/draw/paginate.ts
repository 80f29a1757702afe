import { type Flow, heightOf, type Slab } from './slab.js'

/** Strips with their distance from the upper margin. */
export interface Placed {
  readonly y: number
  readonly slab: Slab
}

/**
 * Puts strips on pages of the given height. A heading stays with what follows, the head of a flow stays whole,
 * the last strip of a cut flow takes one more with it where it is low and would look lost, and a continuation begins with the flow's repeated strip.
 */
export function paginate(given: readonly Flow[], height: number): readonly (readonly Placed[])[] {
  const pages: Placed[][] = [[]]
  let y = 0
  const turn = (): void => {
    if (pages.at(-1)?.length === 0) return
    pages.push([])
    y = 0
  }
  const put = (slab: Slab): void => {
    pages.at(-1)?.push({ y, slab })
    y += slab.height
  }
  const flows = [...given]
  flows.forEach((flow, index) => {
    refitNext(flows, index, height - y - (y > 0 ? flow.before : 0))
    // What is bound to the flow before it was measured there: it is already known to fit.
    const bound = flows[index - 1]?.keepNext === true && pages.at(-1)?.length !== 0
    // A page with little on it is gone on with: a step alone on a page is easily lost.
    const own = flow.turn && y > height / 3
    if (own || (!bound && y > 0 && y + flow.before + needed(flows, index, height) > height)) turn()
    if (y > 0) y += flow.before
    // A head that is longer than a page has to be cut all the same.
    const head = heightOf(flow.slabs.slice(0, flow.head)) > height ? 1 : flow.head
    flow.slabs.forEach((slab, at) => {
      const left = flow.slabs.slice(at, at + 2)
      const last = left.length === 2 && at + 2 === flow.slabs.length && (left[1]?.height ?? 0) <= height / 5
      const cut = at >= head && y > 0 && y + heightOf(last ? left : [slab]) > height
      if (cut) {
        turn()
        if (flow.repeat !== null && at >= flow.repeatFrom) put(flow.repeat)
      }
      put(slab)
    })
  })
  return pages.filter((page) => page.length > 0)
}

/** Cuts what follows a heading anew where it would go to the next page whole and can begin in the rest of this one. */
function refitNext(flows: Flow[], index: number, rest: number): void {
  const [flow, next] = [flows[index], flows[index + 1]]
  if (flow?.keepNext !== true || next?.refit == null) return
  const room = rest - heightOf(flow.slabs) - next.before
  const head = heightOf(next.slabs.slice(0, next.head))
  if (head <= room) return
  const refitted = next.refit(room)
  if (heightOf(refitted.slabs.slice(0, refitted.head)) <= room) flows[index + 1] = refitted
}

/** How much room a flow must find to begin: all of it, or its head; with what it must not be parted from. */
function needed(flows: readonly Flow[], index: number, height: number): number {
  const flow = flows[index]
  if (flow === undefined) return 0
  const all = heightOf(flow.slabs)
  const own = all <= flow.whole * height || flow.keepNext ? all : heightOf(flow.slabs.slice(0, flow.head))
  if (!flow.keepNext) return own
  const next = flows[index + 1]
  return next === undefined ? own : own + next.before + needed(flows, index + 1, height)
}
