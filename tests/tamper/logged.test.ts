import { readFileSync, rmSync, writeFileSync } from 'node:fs'
import { audit, checkLog, type Entry, folderStore, type Site } from '@lockwright/records'
import { describe, expect, it } from 'vitest'
import { forge } from '../../packages/records/fixtures/forge.js'
import { goldenSites } from '../../packages/records/fixtures/golden-sites.js'
import { keyOf, scriptedClock } from '../../packages/records/fixtures/plant.js'
import { logFolder } from '../../packages/records/src/log/log-folder.js'
import { layout } from '../../packages/records/src/site.js'
import { goldenJournals, inCopyOf } from './tampering.js'

// What the journals of closed runs cannot show by themselves, and their leaves in the site log do.

const golden = goldenSites.find(({ version }) => version === 2) ?? expect.fail('no second golden site')
const runs = ['fan', 'stopped'] as const
const clock = scriptedClock('2026-03-02T18:00:00.000Z')
const kept = readFileSync(logFolder.checkpoint(golden.site), 'utf8')

async function told(site: Site): Promise<readonly string[]> {
  const report = await audit({ store: folderStore(site), clock, stories: false })
  const general = report.general.filter(({ question }) => question === 'whole')
  return [...general, ...report.runs.flatMap(({ verdicts }) => verdicts)].flatMap(({ findings }) =>
    findings.map(({ id }) => id)
  )
}

const keyFor = (entry: Entry) =>
  entry.signature === undefined
    ? null
    : keyOf(entry.signature.by === 'runa' && entry.at >= '2026-03-02T12' ? 'runa, second key' : entry.signature.by)

describe.each(runs)('a closed run in the log, %s', (run) => {
  const lines = goldenJournals.find(({ title }) => title === `format 2, ${run}`)?.lines ?? []

  it('is told when it is removed, or cut back to any line', async () => {
    await inCopyOf(golden, async (site) => {
      const file = layout.journal(site, run)
      for (let end = 1; end < lines.length; end += 1) {
        writeFileSync(file, lines.slice(0, end).join(''))
        expect(await told(site), `cut back to line ${end}`).toContain('run-rewritten')
      }
      rmSync(file)
      expect(await told(site)).toContain('run-removed')
    })
  })

  it('is told when any entry of it is written anew, chained anew, and signed anew by the same people', async () => {
    await inCopyOf(golden, async (site) => {
      for (let seq = 1; seq <= lines.length; seq += 1) {
        const changed = forge(
          lines.join(''),
          (entry) => (entry.seq === seq ? { ...entry, elapsed: entry.elapsed + 1 } : entry),
          keyFor
        )
        writeFileSync(layout.journal(site, run), changed)
        expect(await told(site), `entry ${seq}`).toContain('run-rewritten')
      }
    })
  })
})

describe('the leaves of the log', () => {
  it('are told, by whoever kept the checkpoint, when one is dropped, repeated or moved', async () => {
    await inCopyOf(golden, (site) => {
      const file = logFolder.leaves(site)
      const [one = '', other = ''] = readFileSync(file, 'utf8').split(/(?<=\n)/)
      const ends = (leaves: readonly string[]): Buffer => {
        const buffer = Buffer.alloc(8 * leaves.length)
        leaves.reduce((end, leaf, index) => {
          buffer.writeBigUInt64BE(BigInt(end + leaf.length), 8 * index)
          return end + leaf.length
        }, 0)
        return buffer
      }
      for (const leaves of [[], [one], [other], [other, one], [one, one], [other, other], [one, other, one]]) {
        writeFileSync(file, leaves.join(''))
        writeFileSync(logFolder.ends(site), ends(leaves))
        const checked = checkLog({ site, kept })
        expect(checked.ok && checked.value.findings.length === 0, `${leaves.length} leaves`).toBe(false)
      }
      writeFileSync(file, one + other)
      writeFileSync(logFolder.ends(site), ends([one, other]))
      const checked = checkLog({ site, kept })
      expect(checked.ok && checked.value.findings).toEqual([])
    })
  })
})
