import { advance, type Event, type Machine, type Snapshot, start } from '@lockwright/machine'
import { describe, expect, it } from 'vitest'
import { type Book, emptyBook, entered } from './crew-book.js'
import { triesAt } from './crew-events.js'
import { twoValves, twoValvesInTime } from './two-valves.js'

const at = '2026-03-02T08:00:00.000Z'

interface Explored {
  readonly configurations: number
  readonly taken: number
  readonly broken: ReadonlyMap<string, string>
  /** Which events were ever taken, and how the runs ended. */
  readonly kinds: ReadonlySet<string>
  readonly ends: ReadonlySet<string>
}

interface Way {
  readonly event: Event
  readonly way: Way | null
}

interface Node {
  readonly snapshot: Snapshot
  readonly book: Book
  /** How it was come to, the last event first. */
  readonly way: Way | null
}

/** The way to a broken rule, one event a line. */
function told(way: Way | null): string {
  const lines: string[] = []
  for (let step = way; step !== null; step = step.way) {
    const { at: _, ...event } = step.event
    lines.unshift(JSON.stringify(event))
  }
  return lines.join('\n')
}

/** Every configuration that these people can bring a run into, by any event in any order; each tried once. */
function explore(machine: Machine, people: readonly string[]): Explored {
  const broken = new Map<string, string>()
  const kinds = new Set<string>()
  const ends = new Set<string>()
  const seen = new Set<string>()
  const open: Node[] = [{ snapshot: start(machine), book: emptyBook, way: null }]
  let taken = 0
  // Breadth first, so that the way to a broken rule is a shortest one.
  for (let index = 0; index < open.length; index += 1) {
    const next = open[index] as Node
    const { snapshot: before, book, way } = next
    for (const event of triesAt(machine, before, people, at)) {
      const advanced = advance(machine, before, event)
      if (!advanced.ok) continue
      taken += 1
      kinds.add(event.kind)
      const after = advanced.snapshot
      const result = entered({ machine, before, event, after, book })
      for (const rule of result.broken) broken.set(rule, told({ event, way }))
      if (after.status === 'finished') ends.add('finished')
      const key = keyOf(after, result.book)
      if (seen.has(key)) continue
      seen.add(key)
      open.push({ snapshot: after, book: result.book, way: { event, way } })
    }
  }
  return { configurations: seen.size, taken, broken, kinds, ends }
}

function keyOf({ at: _, locks, crew: __, ...rest }: Snapshot, { fresh }: Book): string {
  const hung = locks.map(({ person, point }) => `${person} ${point}`).toSorted()
  return JSON.stringify([rest, hung, [...new Set(fresh)].toSorted()])
}

/**
 * All that two people can do at a machine with two devices, in any order: 29 CFR 1910.147(d)(6), (e)(3), (f)(3) and
 * (f)(4) hold after every event that is taken. Two are enough for each rule here: each is about one person and another.
 */
describe('two people at two devices, whatever they try', () => {
  it.each([
    ['as it was proved', twoValves],
    ['with a way out of an unlocking that was begun', twoValvesInTime]
  ] as const)('%s', (_, machine) => {
    const { configurations, broken, kinds, ends } = explore(machine(), ['odd', 'runa', 'liv'])
    expect([...broken].map(([rule, way]) => `${rule}:\n${way}`)).toEqual([])
    // The search is none that finds nothing to do.
    expect(configurations).toBeGreaterThan(1000)
    expect([...kinds]).toEqual(
      expect.arrayContaining(['joined', 'left', 'handed-over', 'lock-removed', 'paused', 'resumed', 'proven-again'])
    )
    expect([...ends]).toEqual(['finished'])
  })
})
