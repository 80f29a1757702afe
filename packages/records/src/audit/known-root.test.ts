import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { scriptedClock } from '../../fixtures/plant.js'
import { leastScryptCost } from '../key-file.js'
import { unlockKey } from '../key-store.js'
import { initSite } from '../people.js'
import { rotateRoot } from '../people-root.js'
import { thumbprint } from '../public-key.js'
import { formatAuditText } from '../report/format-audit-text.js'
import type { RecordsResult } from '../result.js'
import { readRoster } from '../roster-file.js'
import { folderStore } from '../store/folder-store.js'
import { audit } from './audit.js'

const cost = leastScryptCost

function must<Value>(result: RecordsResult<Value>): Value {
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

const folder = mkdtempSync(join(tmpdir(), 'lockwright-root-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

describe('the root key that the auditor knows', () => {
  it('is named, with every signed handover from it to the one that signs now', async () => {
    const clock = scriptedClock('2026-03-01T08:00:00.000Z')
    const site = must(initSite({ folder, name: 'Sandholm waterworks', passphrase: 'root words 0', clock, cost }))
    const now = () => thumbprint(must(readRoster(site)).root)
    const keys = [now()]
    const times: string[] = []
    for (const number of [1, 2]) {
      clock.pass(3600)
      const root = must(unlockKey(site, 'site-root', `root words ${number - 1}`))
      must(rotateRoot({ site, root, passphrase: `root words ${number}`, clock, cost }))
      keys.push(now())
      times.push(clock.now().at)
    }
    const [first = '', second = '', third = ''] = keys
    const told = async (trusted?: string) =>
      audit({ store: folderStore(site), clock, ...(trusted === undefined ? {} : { trusted }) })
    expect((await told()).root).toMatchObject({ thumbprint: third, from: 'site folder', handedOver: [] })
    expect((await told(third)).root).toMatchObject({ thumbprint: third, from: 'auditor', handedOver: [] })
    expect((await told(second)).root?.handedOver).toEqual([{ from: second, to: third, at: times[1] }])
    const followed = await told(first)
    expect(followed.root?.handedOver).toEqual([
      { from: first, to: second, at: times[0] },
      { from: second, to: third, at: times[1] }
    ])
    expect(formatAuditText(followed)).toContain(
      `Root key ${third} (follows from ${first}, given by the auditor, by 2 signed handovers: to ${second} on ${times[0]}, to ${third} on ${times[1]})`
    )
    expect((await told('x'.repeat(43))).root).toBeNull()
  })
})
