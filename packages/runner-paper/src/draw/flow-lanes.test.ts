import fc from 'fast-check'
import { expect, it } from 'vitest'
import { flowLanes } from './flow-lanes.js'

it('keeps the shorter jump inside', () => {
  expect(
    flowLanes([
      { from: 10, to: 90 },
      { from: 20, to: 40 }
    ])
  ).toEqual([1, 0])
  expect(
    flowLanes([
      { from: 10, to: 20 },
      { from: 30, to: 40 }
    ])
  ).toEqual([0, 0])
})

it('lets no two lines run on top of each other, unless they come in at the same step', () => {
  const jump = fc.record({ from: fc.nat(60), to: fc.nat(60) })
  fc.assert(
    fc.property(fc.array(jump, { maxLength: 30 }), (jumps) => {
      const lanes = flowLanes(jumps)
      jumps.forEach((one, at) =>
        jumps.slice(at + 1).forEach((other, rest) => {
          const apart =
            Math.max(one.from, one.to) < Math.min(other.from, other.to) ||
            Math.max(other.from, other.to) < Math.min(one.from, one.to)
          if (!apart && one.to !== other.to) expect(lanes[at]).not.toBe(lanes[at + 1 + rest])
        })
      )
    }),
    { seed: 20261126, numRuns: 300 }
  )
})
