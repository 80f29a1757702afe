import { cpSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { type AuditedPlant, findingsOf, generalOf, inAuditedPlant } from '../../fixtures/audited-plant.js'
import { forge } from '../../fixtures/forge.js'
import { keyFor } from '../../fixtures/on-record.js'
import { fanJob, keyOf, type Step } from '../../fixtures/plant.js'
import { signLog } from '../log/sign-log.js'
import { layout, type Site } from '../site.js'

const stop: Step = { seconds: 30, by: 'odd', event: { kind: 'stopped', reason: 'No bearing' }, signed: true }
/** With a padlock of its own, which no later run takes off. */
const left = fanJob
  .slice(0, 4)
  .map((step) =>
    step.event.kind === 'lock-hung' ? { ...step, event: { ...step.event, lock: '21' as typeof step.event.lock } } : step
  )

function checkpointOf(site: Site): string {
  const signed = signLog(site, keyOf('root'))
  if (!signed.ok) throw new Error(JSON.stringify(signed.faults))
  return signed.value.note
}

/** Three runs and a checkpoint over them, then two more. */
async function withCheckpoint(body: (plant: AuditedPlant, checkpoint: string) => Promise<void>): Promise<void> {
  await inAuditedPlant(async (plant) => {
    plant.put('a')
    plant.put('c')
    plant.put('b', [...left, stop])
    const checkpoint = checkpointOf(plant.site)
    plant.put('d', [...fanJob.slice(0, 12), stop])
    plant.put('open', fanJob.slice(0, 4))
    await body(plant, checkpoint)
  })
}

describe('the log in an audit', () => {
  it('is worked out anew from its leaves and held against the kept checkpoint', async () => {
    await withCheckpoint(async ({ audited }, checkpoint) => {
      const report = await audited({ checkpoint })
      expect(generalOf(report, 'whole')).toEqual([])
      expect(report.general[0]?.checked.join(' ')).toContain('begins with the 3 leaves of the checkpoint')
      expect(report.notAnswered.join(' ')).not.toContain('checkpoint')
      expect((await audited()).notAnswered.join(' ')).toContain('needs a checkpoint')
    })
  })

  it('tells a run that was removed, one that was rewritten, and one that is in no leaf', async () => {
    await withCheckpoint(async ({ site, audited }, checkpoint) => {
      rmSync(layout.journal(site, 'a'))
      const file = layout.journal(site, 'c')
      const journal = readFileSync(file, 'utf8')
      // With every key at hand: nothing but the log can tell.
      writeFileSync(
        file,
        forge(journal, (entry) => (entry.seq === 7 ? null : entry), keyFor)
      )
      cpSync(layout.journal(site, 'd'), join(site.folder, 'd.jsonl'))
      const report = await audited({ checkpoint })
      expect(generalOf(report, 'whole')).toEqual(['fault run-removed'])
      expect(findingsOf(report, 'c', 'whole')).toContain('fault run-rewritten')
      const put = (run: string, text: string) => writeFileSync(layout.journal(site, run), text)
      put(
        'smuggled',
        forge(
          readFileSync(layout.journal(site, 'd'), 'utf8'),
          (entry) => ({ ...entry, run: 'smuggled' as typeof entry.run }),
          keyFor
        )
      )
      expect(findingsOf(await audited({ checkpoint }), 'smuggled', 'whole')).toEqual(['doubt run-not-in-log'])
    })
  })

  it('tells a log that was rewritten from the kept checkpoint alone', async () => {
    await withCheckpoint(async ({ site, audited, put }, checkpoint) => {
      rmSync(join(site.folder, 'log'), { recursive: true })
      rmSync(layout.journal(site, 'a'))
      checkpointOf(site)
      put('later', [...fanJob.slice(0, 2), stop])
      expect(generalOf(await audited(), 'whole')).toEqual([])
      expect(generalOf(await audited({ checkpoint }), 'whole')).toEqual(['fault log-forked'])
      rmSync(layout.journal(site, 'b'))
      rmSync(layout.journal(site, 'c'))
      rmSync(layout.journal(site, 'later'))
      rmSync(join(site.folder, 'log'), { recursive: true })
      checkpointOf(site)
      expect(generalOf(await audited({ checkpoint }), 'whole')).toEqual(['fault log-shortened'])
    })
  })

  it.each([
    ['of another site', (text: string) => text.replace('lockwright/', 'lockwright/other-')],
    ['changed', (text: string) => text.replace('\n3\n', '\n2\n')],
    ['unsigned', (text: string) => text.split('\n\n')[0] ?? ''],
    ['nothing', () => '']
  ])('believes no checkpoint that is %s', async (_, spoil) => {
    await withCheckpoint(async ({ audited }, checkpoint) => {
      const report = await audited({ checkpoint: spoil(checkpoint), newOnly: true })
      expect(generalOf(report, 'whole')).toHaveLength(1)
      expect(report.runs.length).toBe(5)
      expect(report.asked.covered).toBeNull()
    })
  })
})

describe('an audit of what is new since a kept checkpoint', () => {
  it('reads the runs since alone, and still tells what hangs by the older ones', async () => {
    await withCheckpoint(async ({ audited }, checkpoint) => {
      const all = await audited({ checkpoint })
      const fresh = await audited({ checkpoint, newOnly: true })
      expect(fresh.runs.map(({ run }) => run)).toEqual(['d', 'open'])
      expect(fresh.asked.covered?.runs).toBe(3)
      const told = ({ hanging }: typeof all) =>
        hanging.map(({ run, lock, by, since, from }) => [run, lock, by, since, from].join(' ')).toSorted()
      const fromLog = all.hanging.map((one) => (one.run === 'b' ? { ...one, from: 'log' as const } : one))
      expect(told(fresh)).toEqual(told({ ...all, hanging: fromLog }))
      expect(fresh.open).toEqual(all.open)
      expect(fresh.notAnswered.join(' ')).toContain('Of 3 runs that the kept checkpoint covers')
      for (const run of ['d', 'open']) {
        expect(fresh.runs.find((one) => one.run === run)).toEqual(all.runs.find((one) => one.run === run))
      }
    })
  })

  it('still tells a covered run whose journal is gone', async () => {
    await withCheckpoint(async ({ site, audited }, checkpoint) => {
      rmSync(layout.journal(site, 'a'))
      expect(generalOf(await audited({ checkpoint, newOnly: true }), 'whole')).toEqual(['fault run-removed'])
    })
  })
})
