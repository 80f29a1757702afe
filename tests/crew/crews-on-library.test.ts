import { readdirSync, readFileSync } from 'node:fs'
import { advance, type Event, type Machine, type Snapshot, start } from '@lockwright/machine'
import { describe, expect, it } from 'vitest'
import { machineOf } from '../end-to-end/compile-text.js'
import { answersAt, chance } from '../end-to-end/walk.js'
import { emptyBook, entered } from './crew-book.js'
import { triesAt } from './crew-events.js'

const folder = new URL('../../procedures/', import.meta.url)
const files = readdirSync(folder).filter((name) => name.endsWith('.md') && name !== 'README.md')
const people = ['odd', 'runa', 'liv', 'ida']

interface Ran {
  readonly broken: readonly string[]
  readonly kinds: readonly Event['kind'][]
  readonly status: Snapshot['status']
  readonly most: number
}

/** One run in which people answer what is asked, and besides that come, go, hand over and break off as they like. */
function run(machine: Machine, seed: number): Ran {
  const random = chance(seed)
  const pick = <One>(from: readonly One[]): One | undefined => from[Math.floor(random() * from.length)]
  let [snapshot, book, at] = [start(machine), emptyBook, '2026-03-02T06:00:00.000Z']
  const broken: string[] = []
  const kinds: Event['kind'][] = []
  let most = 0
  for (let count = 0; count < 1500 && snapshot.status !== 'finished' && snapshot.status !== 'stopped'; count += 1) {
    const by = pick(people) as Event['by']
    const lawful = answersAt(machine, snapshot, at).map((event) => answeredBy(event, by))
    const event = pick(random() < 0.6 ? lawful : triesAt(machine, snapshot, people, at))
    const advanced = event === undefined || event.kind === 'stopped' ? null : advance(machine, snapshot, event)
    if (event === undefined || advanced === null || !advanced.ok) continue
    const after = advanced.snapshot
    const result = entered({ machine, before: snapshot, event, after, book })
    broken.push(...result.broken.map((rule) => `seed ${seed}: ${rule}`))
    kinds.push(event.kind)
    most = Math.max(most, after.crew.length)
    ;[snapshot, book, at] = [after, result.book, new Date(Date.parse(after.at) + 1000).toISOString()]
  }
  return { broken, kinds, status: snapshot.status, most }
}

/** The answer as this person gives it: with their own padlock, and taking off their own. */
function answeredBy(event: Event, by: Event['by']): Event {
  if (event.kind === 'lock-hung') return { ...event, by, lock: `${by}-${event.point}` as typeof event.lock }
  return { ...event, by }
}

describe.each(files)('four people at %s', (file) => {
  const machine = machineOf(readFileSync(new URL(file, folder), 'utf8'), file)

  // 29 CFR 1910.147(d)(6), (e)(3), (f)(3)(ii)(D) and (f)(4), as `crew-book.ts` keeps them.
  it('keep every rule of a crew, whatever they try, on 50 seeded runs', () => {
    const runs = Array.from({ length: 50 }, (_, index) => run(machine, index + 1))
    expect(runs.flatMap(({ broken }) => broken)).toEqual([])
    const kinds = new Set(runs.flatMap((one) => one.kinds))
    expect([...kinds]).toEqual(
      expect.arrayContaining(['joined', 'left', 'handed-over', 'lock-removed', 'paused', 'resumed', 'proven-again'])
    )
    // The runs come somewhere, and with several people on the crew.
    expect(runs.filter(({ status }) => status === 'finished').length).toBeGreaterThan(2)
    expect(Math.max(...runs.map(({ most }) => most))).toBeGreaterThanOrEqual(3)
  })
})
