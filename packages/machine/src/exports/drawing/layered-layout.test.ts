import fc from 'fast-check'
import { expect, it } from 'vitest'
import { type Item, type Layout, type Link, layeredLayout } from './layered-layout.js'

// Fixed, so that every run looks at the same drawings.
const seed = 4_711

interface Sketch {
  readonly items: readonly Item[]
  readonly links: readonly Link[]
}

/** Up to fourteen items, each with ways to some of the next five. */
const sketches: fc.Arbitrary<Sketch> = fc
  .array(
    fc.record({
      width: fc.integer({ min: 20, max: 300 }),
      height: fc.integer({ min: 20, max: 90 }),
      ahead: fc.uniqueArray(fc.integer({ min: 1, max: 5 }), { maxLength: 3 })
    }),
    { minLength: 1, maxLength: 14 }
  )
  .map((rows) => ({
    items: rows.map(({ width, height }) => ({ width, height, lineFrom: height - 5 })),
    links: rows.flatMap(({ width, ahead }, from) =>
      ahead.flatMap((step, index): Link[] => {
        const share = (index + 0.5) / ahead.length
        return from + step < rows.length ? [{ from, to: from + step, port: width * share, share }] : []
      })
    )
  }))

it(`places items apart, links downward, and says the same twice (seed ${seed})`, () => {
  fc.assert(
    fc.property(sketches, ({ items, links }) => {
      const layout = layeredLayout(items, links)
      expect(layeredLayout(items, links)).toEqual(layout)
      for (const [index, item] of items.entries()) {
        for (const other of items.keys()) if (other < index) expect(apart(items, layout, index, other)).toBe(true)
        const { x, y } = layout.places[index] as { x: number; y: number }
        expect(x).toBeGreaterThanOrEqual(-0.001)
        expect(x + item.width).toBeLessThanOrEqual(layout.width + 0.001)
        expect(y + item.height).toBeLessThanOrEqual(layout.height + 0.001)
      }
      for (const [index, { from, to, port }] of links.entries()) {
        const line = layout.lines[index] ?? []
        const start = layout.places[from] as { x: number; y: number }
        const end = layout.places[to] as { x: number; y: number }
        expect(line.at(0)?.x).toBeCloseTo(start.x + port)
        expect(line.at(0)?.y).toBeCloseTo(start.y + (items[from]?.lineFrom ?? 0))
        expect(line.at(-1)?.x).toBeCloseTo(end.x + (items[to]?.width ?? 0) / 2)
        expect(line.at(-1)?.y).toBeCloseTo(end.y)
        // Right angles alone, and never upward.
        for (const [at, corner] of line.entries()) {
          const before = line[at - 1]
          if (before === undefined) continue
          expect(before.x === corner.x || before.y === corner.y || Math.abs(before.x - corner.x) <= 0.5).toBe(true)
          expect(corner.y).toBeGreaterThanOrEqual(before.y - 0.001)
        }
      }
    }),
    { seed, numRuns: 300 }
  )
})

it('puts the answers of a question side by side as they stand', () => {
  const items = [0, 1, 2, 3].map(() => ({ width: 100, height: 30, lineFrom: 30 }))
  const links = [
    { from: 0, to: 1, port: 25, share: 0.25 },
    { from: 0, to: 2, port: 75, share: 0.75 },
    { from: 1, to: 3, port: 50, share: 0.5 },
    { from: 2, to: 3, port: 50, share: 0.5 }
  ]
  const { places } = layeredLayout(items, links)
  const [question, left, right, end] = places as readonly [Place, Place, Place, Place]
  expect(left.y).toBe(right.y)
  expect(left.x).toBeLessThan(right.x)
  expect(question.y).toBeLessThan(left.y)
  expect(end.y).toBeGreaterThan(left.y)
  expect(end.x).toBeCloseTo((left.x + right.x) / 2)
})

type Place = Layout['places'][number]

function apart(items: readonly Item[], { places }: Layout, one: number, other: number): boolean {
  const first = { ...(items[one] as Item), ...(places[one] as Place) }
  const second = { ...(items[other] as Item), ...(places[other] as Place) }
  return (
    first.x + first.width <= second.x + 0.001 ||
    second.x + second.width <= first.x + 0.001 ||
    first.y + first.height <= second.y + 0.001 ||
    second.y + second.height <= first.y + 0.001
  )
}
