import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { layout, makeFolders, type Site } from '../site.js'
import { fileOf, finished, note, sampleLines } from './conformance/sample-records.js'
import { memoryStore } from './memory-store.js'
import { syncSite } from './sync.js'

const runs = ['a', 'b', 'c'] as const
const longest = 5

/** How far a bench has each run, and from which line on it has lines of its own; 0: it has none of the run. */
const bench = fc.array(
  fc.record({ length: fc.integer({ min: 0, max: longest }), own: fc.integer({ min: 2, max: longest + 1 }) }),
  { minLength: runs.length, maxLength: runs.length }
)
const history = fc.record({
  benches: fc.array(bench, { minLength: 2, maxLength: 3 }),
  order: fc.array(fc.nat({ max: 2 }), { minLength: 1, maxLength: 6 })
})

const linesOf = (run: string, number: number, { length, own }: { length: number; own: number }): readonly string[] => {
  const events = Array.from({ length: longest - 1 }, (_, n) =>
    n === longest - 2 ? finished : note(`${n + 2 < own ? 'same' : number} ${n}`)
  )
  return sampleLines({ run, events }).slice(0, length)
}

describe('benches that sync in any order, from whatever they have of whatever runs', () => {
  it('leave the store with the longest of what agrees with what came first, and are told of everything else', async () => {
    const root = mkdtempSync(join(tmpdir(), 'lockwright-benches-'))
    let folders = 0
    try {
      await fc.assert(
        fc.asyncProperty(history, async ({ benches, order }) => {
          const sites: Site[] = benches.map((all, number) => {
            folders += 1
            const site = makeFolders(join(root, String(folders)))
            for (const [index, run] of runs.entries()) {
              const lines = linesOf(run, number, all[index] ?? { length: 0, own: 2 })
              if (lines.length > 0) writeFileSync(layout.journal(site, run), fileOf(lines))
            }
            return site
          })
          const store = memoryStore()
          const expected = new Map<string, readonly string[]>()
          for (const turn of order) {
            const number = turn % sites.length
            const report = await syncSite(sites[number] as Site, store)
            const told = new Set(report.findings.map(({ file }) => file))
            expect(report.stopped).toBeNull()
            for (const [index, run] of runs.entries()) {
              const here = linesOf(run, number, benches[number]?.[index] ?? { length: 0, own: 2 })
              const there = expected.get(run) ?? []
              const agrees = here.every((line, at) => at >= there.length || line === there[at])
              if (agrees && here.length > there.length) expected.set(run, here)
              expect(told.has(`runs/${run}.jsonl`)).toBe(here.length > 0 && (!agrees || here.length < there.length))
            }
          }
          for (const run of runs) {
            const lines = expected.get(run)
            const journal = await store.journal(run)
            expect(journal === null ? null : Buffer.from(journal)).toEqual(lines === undefined ? null : fileOf(lines))
          }
        }),
        { seed: 20261126, numRuns: 40 }
      )
    } finally {
      rmSync(root, { recursive: true, force: true })
    }
  })
})
