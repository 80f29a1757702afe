import { readdirSync, readFileSync } from 'node:fs'
import { advance, type Ledger, start } from '@lockwright/machine'
import { explore } from '@lockwright/proof'
import { describe, expect, it } from 'vitest'
import { machineOf } from './compile-text.js'
import { chance, walk } from './walk.js'

const folder = new URL('../../procedures/', import.meta.url)
const files = readdirSync(folder).filter((name) => name.endsWith('.md') && name !== 'README.md')
const walks = 100

describe.each(files)('%s', (file) => {
  const machine = machineOf(readFileSync(new URL(file, folder), 'utf8'), file)

  it(`is walked ${walks} times to an end, no lawful answer refused (seeds 1 to ${walks})`, () => {
    const exploration = explore(machine, 1_000_000)
    const reached = new Set(machine.states.filter((_, index) => exploration.reached[index]).map(({ id }) => id))
    const ended = new Set<string>()
    for (let seed = 1; seed <= walks; seed += 1) {
      const { snapshot, events } = walk(machine, chance(seed))
      ended.add(snapshot.status)
      expect(reached.has(snapshot.state)).toBe(true)
      if (snapshot.status === 'finished') expect(restored(snapshot.ledger)).toBe(true)
      // The same events from the start lead to the same place: nothing hides outside the snapshot.
      const replayed = events.reduce((at, event) => {
        const next = advance(machine, at, event)
        if (!next.ok) throw new Error(JSON.stringify(next.refusals))
        return next.snapshot
      }, start(machine))
      expect(replayed).toEqual(snapshot)
    }
    expect(ended.has('finished')).toBe(true)
  })
})

function restored(ledger: Ledger): boolean {
  return (
    Object.values(ledger.points).every((position) => position !== 'locked') &&
    Object.values(ledger.restraints).every((position) => position === 'off')
  )
}
