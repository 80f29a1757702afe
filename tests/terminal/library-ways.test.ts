import { describe, expect, it } from 'vitest'
import { walkWay } from '../../packages/runner-terminal/fixtures/walk-way.js'
import { numberedWays } from '../../packages/runner-terminal/src/rehearsal/numbered-ways.js'
import { libraryMachines } from './machines.js'

describe.each([...libraryMachines()])('%s', (_, machine) => {
  const ways = numberedWays(machine)

  it('has a way to rehearse for each of its generations', () => {
    expect(ways.length).toBeGreaterThan(0)
    expect(ways.map(({ number, of }) => `${number} of ${of}`)).toEqual(
      ways.map((_, index) => `${index + 1} of ${ways.length}`)
    )
  })

  it.each(ways.map((way) => [way.number, way] as const))('is rehearsed along way %i to its end', (_, way) => {
    const { run, guides, refused } = walkWay(machine, way)
    expect(refused).toEqual([])
    expect(guides.filter((said) => /was left|ended before/.test(said))).toEqual([])
    expect(run.snapshot.state).toBe(way.way.steps.at(-1)?.state)
    expect(run.snapshot.status).not.toBe('running')
  })
})
