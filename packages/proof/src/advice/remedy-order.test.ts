import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bestOrder, expectedMinutes, type RemedyFacts, type SharedCost, writtenOrder } from './remedy-order.js'

const seed = 20_260_421
const nothing: SharedCost = { retest: 0, relock: 0 }

function facts(...pairs: readonly (readonly [number, number])[]): readonly RemedyFacts[] {
  return pairs.map(([chance, minutes]) => ({ chance, minutes, live: false }))
}

/** Every order of 0 .. count - 1. */
function* orders(count: number): Iterable<readonly number[]> {
  if (count === 0) {
    yield []
    return
  }
  for (const rest of orders(count - 1)) {
    for (let place = 0; place < count; place += 1) yield [...rest.slice(0, place), count - 1, ...rest.slice(place)]
  }
}

/** No remedy with power on comes before one that was written before it. */
function isLawful(some: readonly RemedyFacts[], order: readonly number[]): boolean {
  return order.every((index, place) => !some[index]?.live || order.slice(place).every((later) => later >= index))
}

describe('the order of remedies', () => {
  // Section 9 of the project's standards page, Q1 to Q3: worked examples, computed there by brute force over all orders.
  it('gives the four causes of Q1 in the order C, A, B, D', () => {
    const four = facts([0.25, 5], [0.3, 10], [0.15, 2], [0.3, 60])
    expect(bestOrder(four, nothing)).toEqual({ order: [2, 0, 1, 3], minutes: 30.25 })
    expect(writtenOrder(four, nothing).minutes).toBe(31.4)
    expect(expectedMinutes(four, nothing, [1, 3, 0, 2])).toBe(54.3)
    expect(expectedMinutes(four, nothing, [3, 1, 0, 2])).toBe(69.3)
  })

  it('gives the cheap one of the two causes of Q2 first, although it is the less likely', () => {
    const two = facts([0.6, 50], [0.4, 10])
    expect(bestOrder(two, nothing)).toEqual({ order: [1, 0], minutes: 40 })
    expect(writtenOrder(two, nothing).minutes).toBe(54)
  })

  it('leaves the tie of Q3 as it was written', () => {
    const three = facts([0.5, 10], [0.3, 2], [0.2, 4])
    expect(bestOrder(three, nothing)).toEqual({ order: [1, 0, 2], minutes: 9.8 })
    expect(expectedMinutes(three, nothing, [1, 2, 0])).toBe(9.8)
    expect(expectedMinutes(three, nothing, [0, 1, 2])).toBe(11.8)
    expect(expectedMinutes(three, nothing, [0, 2, 1])).toBe(12.6)
    expect(expectedMinutes(three, nothing, [2, 0, 1])).toBe(12.6)
    expect(expectedMinutes(three, nothing, [2, 1, 0])).toBe(10.6)
    const swapped = facts([0.2, 4], [0.3, 2], [0.5, 10])
    expect(bestOrder(swapped, nothing).order).toEqual([1, 0, 2])
  })

  it('charges re-test and re-lock, which make a likely remedy worth its time', () => {
    const two = facts([0.6, 50], [0.4, 10])
    const shared = { retest: 20, relock: 70 }
    // By hand: 70 + 0.4 (70 + 10 + 20) against 10 + 20 + 0.6 (70 + 50 + 20), nothing left for a last re-lock.
    expect(writtenOrder(two, shared)).toEqual({ order: [0, 1], minutes: 110 })
    expect(expectedMinutes(two, shared, [1, 0])).toBe(114)
    expect(bestOrder(two, shared)).toEqual({ order: [0, 1], minutes: 110 })
  })

  it('counts the re-lock behind the last remedy that did not cure', () => {
    expect(writtenOrder(facts([0.3, 10]), { retest: 5, relock: 40 }).minutes).toBe(10 + 5 + 0.7 * 40)
  })

  it('never brings work with power on forward', () => {
    const two: readonly RemedyFacts[] = [
      { chance: 0.2, minutes: 60, live: false },
      { chance: 0.7, minutes: 5, live: true }
    ]
    expect(bestOrder(two, nothing).order).toEqual([0, 1])
    expect(bestOrder([...two, { chance: 0.1, minutes: 1, live: false }], nothing).order).toEqual([2, 0, 1])
  })

  it(`is as good as the best of all lawful orders of up to seven remedies (seed ${seed})`, () => {
    const remedy = fc.record({
      share: fc.integer({ min: 0, max: 12 }),
      minutes: fc.integer({ min: 0, max: 12 }),
      live: fc.integer({ min: 0, max: 3 }).map((chance) => chance === 0)
    })
    const shared = fc.record({ retest: fc.integer({ min: 0, max: 9 }), relock: fc.integer({ min: 0, max: 9 }) })
    fc.assert(
      fc.property(fc.array(remedy, { minLength: 1, maxLength: 7 }), shared, (shapes, cost) => {
        const some = shapes.map(({ share, minutes, live }): RemedyFacts => ({ chance: share / 84, minutes, live }))
        const best = bestOrder(some, cost)
        expect(isLawful(some, best.order)).toBe(true)
        let least = Number.POSITIVE_INFINITY
        for (const order of orders(some.length)) {
          if (isLawful(some, order)) least = Math.min(least, expectedMinutes(some, cost, order))
        }
        expect(best.minutes).toBeCloseTo(least, 6)
      }),
      { seed, numRuns: 200 }
    )
  })

  it(`keeps equals as they were written (seed ${seed})`, () => {
    const remedy = fc.record({ tenths: fc.integer({ min: 1, max: 3 }), factor: fc.integer({ min: 1, max: 3 }) })
    fc.assert(
      fc.property(fc.array(remedy, { minLength: 2, maxLength: 6 }), (shapes) => {
        // Ratios are 0.1, 0.2 or 0.3 to one, whatever the size: equal ones may not change places.
        const some = shapes.map(
          ({ tenths, factor }): RemedyFacts => ({
            chance: (tenths * factor) / 100,
            minutes: factor / 10,
            live: false
          })
        )
        const { order } = bestOrder(some, nothing)
        order.forEach((index, place) => {
          for (const later of order.slice(place)) {
            if (shapes[index]?.tenths === shapes[later]?.tenths) expect(later).toBeGreaterThanOrEqual(index)
          }
        })
      }),
      { seed, numRuns: 300 }
    )
  })
})
