import { copyFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { nothing, onRecord, signedSeq } from '../../fixtures/on-record.js'
import { inFolder, keyOf, plantSite, scriptedClock } from '../../fixtures/plant.js'
import { publicBytesOf, thumbprint } from '../public-key.js'
import { allGood, audit } from './audit.js'

describe('an audit of a run that went well', () => {
  it('finds nothing, and says what it looked at and whose root key it went by', () => {
    onRecord(({ findings, report }) => {
      expect(findings()).toEqual(nothing)
      expect(allGood(report())).toBe(true)
      expect(report().root).toEqual({ thumbprint: thumbprint(publicBytesOf(keyOf('root'))), from: 'site folder' })
      expect(report(thumbprint(publicBytesOf(keyOf('root')))).root?.from).toBe('auditor')
      expect(report().runs[0]?.verdicts.map((verdict) => verdict.checked.length > 0)).toEqual([true, true, true, true])
      expect(report().runs[0]?.entries[signedSeq - 1]?.signature).toMatchObject({ name: 'Runa Solvik', good: true })
    })
  })

  it('goes the same for a copy of the journal that lies elsewhere', () => {
    onRecord(({ site, file }) => {
      const copy = join(site.folder, 'fan.jsonl')
      copyFileSync(file, copy)
      expect(allGood(audit({ site, run: copy, clock: scriptedClock() }))).toBe(true)
    })
  })

  it('is not well because there is no run', () => {
    inFolder((folder) => expect(allGood(audit({ site: plantSite(folder), clock: scriptedClock() }))).toBe(false))
  })

  it('says cannot tell of a run that does not exist', () => {
    onRecord(({ site }) => {
      const report = audit({ site, run: 'nothing', clock: scriptedClock() })
      expect(report.runs[0]?.verdicts.map((verdict) => verdict.answer)).not.toContain('good')
    })
  })
})
