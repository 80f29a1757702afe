/** A thing to place; `ports` are the x of its ways out, from its left edge. */
export interface Item {
  readonly width: number
  readonly height: number
  /** From the top to where lines leave it. */
  readonly lineFrom: number
}

/** From an item to a later one, by index; `port` from the left edge of the first. */
export interface Link {
  readonly from: number
  readonly to: number
  readonly port: number
  /** 0 to 1, left to right among the ways out of the item. */
  readonly share: number
}

/** Where an item stands or a long link passes a rank. */
interface Slot {
  readonly item: number | null
  readonly width: number
  x: number
}

export interface Layout {
  readonly width: number
  readonly height: number
  /** Left upper corners, by item. */
  readonly places: readonly { readonly x: number; readonly y: number }[]
  /** Corners of each link's line, by link. */
  readonly lines: readonly (readonly { readonly x: number; readonly y: number }[])[]
}

/** A step of a link from one rank to the next. */
interface Piece {
  readonly link: number
  readonly from: Slot
  readonly to: Slot
  readonly port: number
  readonly share: number
}

const sideGap = 26
const rankGap = 24
const laneGap = 9
const passWidth = 16

/**
 * A drawing in ranks from top to bottom: longest paths give the ranks, barycentres the order, and what pulls an item
 * to the left and right is weighed out rank by rank. Links lead to later items only. The same input gives the same
 * drawing; no chance is in it.
 */
export function layeredLayout(items: readonly Item[], links: readonly Link[]): Layout {
  const rankOf = ranks(items.length, links)
  const slots = items.map((item, index): Slot => ({ item: index, width: item.width, x: 0 }))
  const rows: Slot[][] = Array.from({ length: Math.max(0, ...rankOf) + 1 }, () => [])
  const pieces: Piece[][] = rows.map(() => [])
  slots.forEach((slot, index) => {
    rows[rankOf[index] ?? 0]?.push(slot)
  })
  links.forEach((link, index) => {
    let from = slots[link.from] as Slot
    let port = link.port
    let share = link.share
    const last = rankOf[link.to] as number
    for (let rank = rankOf[link.from] as number; rank < last; rank += 1) {
      const to: Slot = rank + 1 === last ? (slots[link.to] as Slot) : { item: null, width: passWidth, x: 0 }
      if (to.item === null) rows[rank + 1]?.push(to)
      pieces[rank]?.push({ link: index, from, to, port, share })
      from = to
      port = passWidth / 2
      share = 0.5
    }
  })
  order(rows, pieces)
  spread(rows, pieces)
  return drawn(items, links, rows, pieces)
}

/** One below the lowest that leads to it; what nothing here leads to stands below what is read before it. */
function ranks(count: number, links: readonly Link[]): readonly number[] {
  const into: number[][] = Array.from({ length: count }, () => [])
  for (const { from, to } of links) into[to]?.push(from)
  const found: number[] = []
  for (let index = 0; index < count; index += 1) {
    const before = into[index] ?? []
    const above =
      before.length > 0 ? before.map((from) => found[from] ?? 0) : index > 0 ? [found[index - 1] ?? 0] : [-1]
    found.push(Math.max(...above) + 1)
  }
  return found
}

/** Orders each rank by the middle of what is above, and then of what is below it, a few times over. */
function order(rows: Slot[][], pieces: readonly (readonly Piece[])[]): void {
  for (let sweep = 0; sweep < 4; sweep += 1) {
    for (let rank = 1; rank < rows.length; rank += 1) {
      const above = positions(rows[rank - 1] ?? [])
      sortBy(rows, rank, (slot) =>
        (pieces[rank - 1] ?? [])
          .filter(({ to }) => to === slot)
          .map(({ from, share }) => (above.get(from) ?? 0) + share)
      )
    }
    for (let rank = rows.length - 2; rank > 0; rank -= 1) {
      const below = positions(rows[rank + 1] ?? [])
      sortBy(rows, rank, (slot) =>
        (pieces[rank] ?? [])
          .filter(({ from }) => from === slot)
          .map(({ to, share }) => (below.get(to) ?? 0) + share / 8)
      )
    }
  }
  // The ways out of a step end up side by side as its answers stand: what is above has the last word.
  for (let rank = 1; rank < rows.length; rank += 1) {
    const above = positions(rows[rank - 1] ?? [])
    sortBy(rows, rank, (slot) =>
      (pieces[rank - 1] ?? []).filter(({ to }) => to === slot).map(({ from, share }) => (above.get(from) ?? 0) + share)
    )
  }
}

function positions(row: readonly Slot[]): ReadonlyMap<Slot, number> {
  return new Map(row.map((slot, index) => [slot, index]))
}

function sortBy(rows: Slot[][], rank: number, pulls: (slot: Slot) => readonly number[]): void {
  const row = rows[rank] ?? []
  // What nothing pulls stands aside, so that the way straight on stays straight.
  const weighed = row.map((slot) => ({ slot, at: mean(pulls(slot)) ?? row.length }))
  rows[rank] = weighed.sort((one, other) => one.at - other.at).map(({ slot }) => slot)
}

function mean(numbers: readonly number[]): number | null {
  return numbers.length === 0 ? null : numbers.reduce((sum, number) => sum + number, 0) / numbers.length
}

/** Gives each slot the x that lies nearest to what it is linked with, without overlaps. */
function spread(rows: readonly (readonly Slot[])[], pieces: readonly (readonly Piece[])[]): void {
  for (const row of rows) settle(row, () => [])
  for (let sweep = 0; sweep < 4; sweep += 1) {
    for (let rank = 1; rank < rows.length; rank += 1) {
      settle(rows[rank] ?? [], (slot) =>
        (pieces[rank - 1] ?? []).filter(({ to }) => to === slot).map(({ from, port }) => from.x + port - slot.width / 2)
      )
    }
    for (let rank = rows.length - 2; rank >= 0; rank -= 1) {
      settle(rows[rank] ?? [], (slot) =>
        (pieces[rank] ?? []).filter(({ from }) => from === slot).map(({ to, port }) => to.x + to.width / 2 - port)
      )
    }
  }
  const left = Math.min(...rows.flat().map(({ x }) => x))
  for (const slot of rows.flat()) slot.x -= left
}

/** Least squares with the order kept: neighbours that would overlap are moved together (pool adjacent violators). */
function settle(row: readonly Slot[], pulls: (slot: Slot) => readonly number[]): void {
  const pools: { slots: Slot[]; offsets: number[]; sum: number; width: number }[] = []
  for (const slot of row) {
    const at = mean(pulls(slot)) ?? slot.x
    let pool = { slots: [slot], offsets: [0], sum: at, width: slot.width }
    for (let last = pools.at(-1); last !== undefined; last = pools.at(-1)) {
      const end = last.sum / last.slots.length + last.width + sideGap
      if (end <= pool.sum / pool.slots.length) break
      pools.pop()
      const shift = last.width + sideGap
      pool = {
        slots: [...last.slots, ...pool.slots],
        offsets: [...last.offsets, ...pool.offsets.map((offset) => offset + shift)],
        sum: last.sum + pool.sum - shift * pool.slots.length,
        width: shift + pool.width
      }
    }
    pools.push(pool)
  }
  for (const { slots, offsets, sum } of pools) {
    const start = sum / slots.length
    slots.forEach((slot, index) => {
      slot.x = start + (offsets[index] ?? 0)
    })
  }
}

/** Gives ranks their y, and each bend of a line a lane of its own between two ranks. */
function drawn(
  items: readonly Item[],
  links: readonly Link[],
  rows: readonly (readonly Slot[])[],
  pieces: readonly (readonly Piece[])[]
): Layout {
  const places: { x: number; y: number }[] = items.map(() => ({ x: 0, y: 0 }))
  const lines: { x: number; y: number }[][] = links.map(() => [])
  let y = 0
  rows.forEach((row, rank) => {
    for (const { item, x } of row) if (item !== null) places[item] = { x, y }
    const tall = Math.max(0, ...row.map(({ item }) => (item === null ? 0 : (items[item]?.height ?? 0))))
    const between = pieces[rank] ?? []
    const lanes = lanesOf(between)
    const bottom = y + tall + rankGap / 2
    const next = y + tall + rankGap + laneGap * Math.max(0, lanes.count - 1)
    for (const piece of between) {
      const line = lines[piece.link] as { x: number; y: number }[]
      const start = piece.from.x + piece.port
      const end = piece.to.x + piece.to.width / 2
      const own = piece.from.item === null ? 0 : (items[piece.from.item]?.lineFrom ?? 0)
      line.push({ x: start, y: y + own })
      if (Math.abs(start - end) > 0.5) {
        const lane = bottom + laneGap * (lanes.of.get(piece) ?? 0)
        line.push({ x: start, y: lane }, { x: end, y: lane })
      }
      line.push({ x: end, y: next })
    }
    y = next
  })
  const width = Math.max(...rows.flat().map((slot) => slot.x + slot.width))
  return { width, height: y - rankGap, places, lines }
}

/** Lanes for the pieces that bend: those that would lie on each other get different ones, unless they end together. */
function lanesOf(between: readonly Piece[]): { readonly of: ReadonlyMap<Piece, number>; readonly count: number } {
  const of = new Map<Piece, number>()
  const taken: { readonly low: number; readonly high: number; readonly to: Slot }[][] = []
  for (const piece of between) {
    const start = piece.from.x + piece.port
    const end = piece.to.x + piece.to.width / 2
    const [low, high] = [Math.min(start, end) - 4, Math.max(start, end) + 4]
    let lane = 0
    while (taken[lane]?.some((other) => other.to !== piece.to && other.low < high && low < other.high)) lane += 1
    taken[lane] = [...(taken[lane] ?? []), { low, high, to: piece.to }]
    of.set(piece, lane)
  }
  return { of, count: taken.length }
}
