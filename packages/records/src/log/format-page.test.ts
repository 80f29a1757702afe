import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { inFolder, keyOf, scriptedClock } from '../../fixtures/plant.js'
import { auditAndKeep } from '../audit/audit.js'
import { formatKept } from '../audit/kept.js'
import { publicBytesOf } from '../public-key.js'
import type { RecordsResult } from '../result.js'
import { registerSheet } from '../sheets/register-sheet.js'
import { formatSheetRecord, sheetFileName } from '../sheets/sheet-record.js'
import { makeFolders, type Site } from '../site.js'
import { folderStore } from '../store/folder-store.js'
import { formatLeaf } from './leaf.js'
import { proveRun } from './prove-run.js'
import { leavesAfter } from './read-log.js'
import { signLog } from './sign-log.js'
import { formatNoteKey } from './signed-note.js'

const page = readFileSync(join(import.meta.dirname, '../../FORMAT.md'), 'utf8')

function value<Value>(result: RecordsResult<Value>): Value {
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

// The log of the golden site: all of it follows from the journals and the test root key, so it is the same every time.
let site: Site
beforeAll(() => {
  site = { folder: mkdtempSync(join(tmpdir(), 'lockwright-page-')) }
  for (const part of ['people.yaml', 'issued', 'runs']) {
    cpSync(join(import.meta.dirname, '../../fixtures/golden-v1/site', part), join(site.folder, part), {
      recursive: true
    })
  }
})
afterAll(() => rmSync(site.folder, { recursive: true, force: true }))

describe('the page on the format', () => {
  it('shows the log of the golden site as it is', () => {
    const { note, origin } = value(signLog(site, keyOf('root')))
    const [leaf] = value(leavesAfter(site, 0))
    if (leaf === undefined) return expect.fail('no leaf')
    expect(page).toContain(`\n${formatLeaf(leaf.leaf)}\n`)
    expect(page).toContain(`\n${note}`)
    expect(page).toContain(formatNoteKey({ name: origin, key: publicBytesOf(keyOf('root')) }))
    expect(page).toContain(`\n${value(proveRun(site, 'example'))}`)
  })

  it('shows what an auditor keeps of it as it is', async () => {
    value(signLog(site, keyOf('root')))
    const { kept } = await auditAndKeep({ store: folderStore(site), clock: scriptedClock('2026-03-03T08:00:00.000Z') })
    expect(page).toContain(`\n${formatKept(value(kept))}`)
  })

  it('shows the record of a sheet as it is', () => {
    inFolder((folder) => {
      const sheet = value(
        registerSheet(
          makeFolders(folder),
          {
            machine: 'd79b66aa6fae7c9166fb2f347c9b549ac6ea69159642805b14fca46c28bfbd49',
            procedure: 'F12-BEARING',
            revision: 2,
            generations: {},
            languages: ['en'],
            printedAt: '2026-03-02T07:00:00.000Z',
            by: 'birk'
          },
          () => Uint8Array.of(7, 20, 2, 22, 25, 31)
        )
      )
      expect(page).toContain(`\n${formatSheetRecord(sheet)}\n`)
      expect(page).toContain(`sheets/${sheetFileName(sheet)}`)
    })
  })
})
