import type { PersonId } from '@lockwright/machine'
import fc from 'fast-check'
import { expect, it } from 'vitest'
import type { RunId } from '../entry.js'
import { type LockStory, overLocksIn } from './over-lock.js'

const seed = 20261126
const at = (minute: number): string => new Date(Date.UTC(2026, 2, 2, 8, minute)).toISOString()
const point = fc.constantFrom('Q1', 'V1')
const minute = fc.integer({ min: 0, max: 40 })

const story = (n: number): fc.Arbitrary<LockStory> =>
  fc
    .record({
      equipment: fc.constantFrom('F-12', 'P-3'),
      hung: fc.array(fc.record({ point, since: minute, stays: fc.option(fc.integer({ min: 0, max: 20 })) }), {
        maxLength: 3
      }),
      on: fc.array(fc.record({ point, minute }), { maxLength: 3 })
    })
    .map(({ equipment, hung, on }) => ({
      run: `run-${n}`,
      equipment,
      cleared: [],
      hung: hung.map(({ point, since, stays }, index) => ({
        point,
        lock: `${n}${index}`,
        person: 'odd' as PersonId,
        since: at(since),
        until: stays === null ? null : at(since + stays),
        run: `run-${n}` as RunId,
        status: 'stopped' as const,
        closedAt: at(60)
      })),
      on: on.map((one, index) => ({ point: one.point, seq: index + 1, at: at(one.minute) }))
    }))

/** The same question asked of each pair, in no order at all. */
function pairByPair(stories: readonly LockStory[]): readonly string[] {
  return stories.flatMap((mine) =>
    mine.on.flatMap(({ point, seq, at }) =>
      stories
        .filter(({ run, equipment }) => run !== mine.run && equipment === mine.equipment)
        .flatMap(({ hung }) => hung)
        .filter((one) => one.point === point && one.since <= at && (one.until === null || one.until > at))
        .map(({ lock }) => `${mine.run}:${seq} lock ${lock}`)
    )
  )
}

it(`finds in one walk what a look at each pair finds (seed ${seed})`, () => {
  let found = 0
  fc.assert(
    fc.property(fc.tuple(...[0, 1, 2, 3, 4].map(story)), (stories) => {
      const walked = [...overLocksIn(stories)].flatMap(([run, findings]) =>
        findings.map(({ seq, what }) => `${run}:${seq} lock ${/lock (\d+) of/.exec(what)?.[1]}`)
      )
      found += walked.length
      expect(walked.toSorted()).toEqual(pairByPair(stories).toSorted())
    }),
    { seed, numRuns: 500 }
  )
  expect(found).toBeGreaterThan(200)
})
