import { readdirSync, readFileSync } from 'node:fs'
import { basename, join, relative } from 'node:path'
import { describe, expect, it } from 'vitest'
import { goldenSites } from '../fixtures/golden-sites.js'
import { inFolder } from '../fixtures/plant.js'
import { auditRun } from './audit/audit-run.js'
import { readGrounds } from './audit/evidence.js'
import { journalFiles } from './list-runs.js'

function filesBelow(root: string): readonly string[] {
  return readdirSync(root, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(root, join(entry.parentPath, entry.name)))
    .toSorted()
}

describe.each(goldenSites)('the golden site of format version $version', ({ version, site, parts, make, write }) => {
  if (process.env['LOCKWRIGHT_WRITE_GOLDEN'] === String(version)) {
    inFolder((made) => {
      make(made)
      write(made)
    })
  }

  it('is audited good in every question', () => {
    const grounds = readGrounds(site)
    const runs = journalFiles(site).map((file) => auditRun(grounds, file, readFileSync(file)))
    expect(runs.flatMap(({ verdicts }) => verdicts.flatMap(({ findings }) => findings))).toEqual([])
    expect(runs.map(({ answer }) => answer)).toEqual(['good', 'good'])
    for (const { file, entries } of runs) {
      const lines = readFileSync(join(site.folder, 'runs', basename(file)), 'utf8').split('\n').length - 1
      expect(entries.length).toBe(lines)
    }
  })

  it('is what its script makes, byte for byte', () => {
    inFolder((made) => {
      make(made)
      const kept = filesBelow(site.folder)
      // What came into a site folder after this format is left out: the script is run by today's code.
      expect(kept).toEqual(filesBelow(made).filter((name) => parts.includes(name.split('/')[0] ?? '')))
      for (const name of kept) {
        expect(readFileSync(join(site.folder, name)).equals(readFileSync(join(made, name))), name).toBe(true)
      }
    })
  })
})
