import { rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { type AuditedPlant, findingsOf, generalOf, inAuditedPlant } from '../../fixtures/audited-plant.js'
import { fanJob, keyOf, plantPeople, type Step, writeRoster } from '../../fixtures/plant.js'
import { signLog } from '../log/sign-log.js'
import type { RecordsResult } from '../result.js'
import { layout } from '../site.js'
import { folderStore } from '../store/folder-store.js'
import { memoryStore } from '../store/memory-store.js'
import { signStoreLog } from '../store/sign-store-log.js'
import type { Store } from '../store/store.js'
import { syncSite } from '../store/sync.js'
import { type AuditRequest, audit, auditAndKeep } from './audit.js'
import { formatKept, type KeptAudit } from './kept.js'

const stop: Step = { seconds: 30, by: 'odd', event: { kind: 'stopped', reason: 'No bearing' }, signed: true }
/** With a padlock of its own, which no later run takes off. */
const left = fanJob
  .slice(0, 4)
  .map((step) =>
    step.event.kind === 'lock-hung' ? { ...step, event: { ...step.event, lock: '21' as typeof step.event.lock } } : step
  )

/** As far as Runa's sign-off; while a lock of another run hangs, none goes on to its end. */
const signedOff = [...fanJob.slice(0, 12), stop]

function must<Value>(result: RecordsResult<Value>): Value {
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

async function kept(plant: AuditedPlant, request: Partial<AuditRequest> = {}): Promise<string> {
  const asked = { store: folderStore(plant.site), clock: plant.clock, ...request }
  return formatKept(must((await auditAndKeep(asked)).kept))
}

/** Three runs, one of them with a lock left, a checkpoint over them and an audit kept; then two more. */
async function withKept(body: (plant: AuditedPlant, file: string) => Promise<void>): Promise<void> {
  await inAuditedPlant(async (plant) => {
    plant.put('a')
    plant.put('c')
    plant.put('b', [...left, stop])
    must(signLog(plant.site, keyOf('root')))
    const file = await kept(plant)
    plant.put('d', signedOff)
    plant.put('open', fanJob.slice(0, 4))
    await body(plant, file)
  })
}

/** The store, and the leaves of it that were read. */
function watched(store: Store): { readonly store: Store; readonly read: number[] } {
  const read: number[] = []
  return {
    store: {
      ...store,
      leaves: async (from = 0, most) => {
        const lines = await store.leaves(from, most)
        read.push(...lines.map((_, at) => from + at))
        return lines
      }
    },
    read
  }
}

describe('what an auditor takes home from an audit', () => {
  it('is the checkpoint, the runs that it covers, and what they left', async () => {
    await withKept(async ({ clock }, file) => {
      const read = JSON.parse(file) as KeptAudit
      expect(read).toMatchObject({
        format: 'lockwright-kept/1',
        answers: { good: 2, findings: 1, cannotTell: 0 },
        runs: ['a', 'b', 'c'],
        locks: [{ run: 'b', equipment: 'F-12', status: 'stopped', by: 'odd' }],
        sheets: []
      })
      expect(read.checkpoint.split('\n')[1]).toBe('3')
      expect(Date.parse(read.at)).toBeLessThan(Date.parse(clock.now().at))
    })
  })

  it('stands for the older runs next time: no leaf of them is read, and the answers are the same', async () => {
    await withKept(async ({ site, audited }, file) => {
      const { store, read } = watched(folderStore(site))
      const bare = await audited({ checkpoint: JSON.parse(file).checkpoint, newOnly: true })
      const quick = await audited({ store, checkpoint: file, newOnly: true })
      expect(read).toEqual([3])
      expect(quick.runs).toEqual(bare.runs)
      expect(quick.open).toEqual(bare.open)
      expect(quick.hanging.map(({ run, lock, since, from }) => [run, lock, since, from])).toEqual(
        bare.hanging.map(({ run, lock, since, from }) => [run, lock, since, from === 'log' ? 'kept' : from])
      )
      expect(quick.general.map(({ answer }) => answer)).toEqual(bare.general.map(({ answer }) => answer))
      expect(quick.asked.covered).toMatchObject({ runs: 3, kept: JSON.parse(file).at })
      expect(quick.notAnswered.join(' ')).toContain('1 lock that hung')
    })
  })

  it('can be kept again and again, and says the same as one kept of all at once', async () => {
    await withKept(async (plant, file) => {
      must(signLog(plant.site, keyOf('root')))
      const again = await kept(plant, { checkpoint: file, newOnly: true })
      expect(JSON.parse(again).runs).toEqual(['a', 'b', 'c', 'd'])
      expect(again).toBe(await kept(plant))
    })
  })

  it('still tells a run of then whose journal is gone, and one that has a second leaf now', async () => {
    await withKept(async ({ site, audited }, file) => {
      rmSync(layout.journal(site, 'a'))
      expect(generalOf(await audited({ checkpoint: file, newOnly: true }), 'whole')).toEqual(['fault run-removed'])
      const real = folderStore(site)
      // As whoever can write the log might have it: run b closed a second time.
      const [again = ''] = await real.leaves(1, 1)
      const store = { ...real, leaves: async (from = 0, most?: number) => [...(await real.leaves(from, most)), again] }
      const told = generalOf(await audited({ store, checkpoint: file, newOnly: true }), 'whole')
      expect(told).toContain('fault run-twice-in-log')
    })
  })

  it('is not gone by where the log was made anew, or its hashes are gone: then every leaf is read', async () => {
    await withKept(async ({ site, audited }, file) => {
      rmSync(join(site.folder, 'log', 'tile'), { recursive: true })
      const whole = watched(folderStore(site))
      const report = await audited({ store: whole.store, checkpoint: file, newOnly: true })
      expect(whole.read).toEqual([0, 1, 2, 3])
      expect(generalOf(report, 'whole')).toEqual([])
      expect(report.asked.covered).toMatchObject({ runs: 3, kept: null })
      rmSync(join(site.folder, 'log'), { recursive: true })
      rmSync(layout.journal(site, 'c'))
      must(signLog(site, keyOf('root')))
      const forked = await audited({ checkpoint: file, newOnly: true })
      // Which run is gone a bare checkpoint cannot tell.
      expect(generalOf(forked, 'whole')).toEqual(['fault log-forked', 'fault run-taken-from-log'])
      expect(forked.general[0]?.findings[1]?.what).toContain('Run c stood in the log')
      expect(forked.asked.covered).toBeNull()
    })
  })

  it('tells a roster that was put back to an older signed one, or is another under the same number', async () => {
    await withKept(async (plant) => {
      const [everyone, withoutRuna] = [plantPeople, plantPeople.filter(({ id }) => id !== 'runa')]
      writeRoster(plant.site, everyone, 2)
      const file = await kept(plant)
      const told = async () => generalOf(await plant.audited({ checkpoint: file }), 'whole')
      expect(await told()).toEqual([])
      writeRoster(plant.site, everyone, 1)
      expect(await told()).toEqual(['fault put-back'])
      writeRoster(plant.site, withoutRuna, 2)
      expect(await told()).toEqual(['fault put-back'])
      writeRoster(plant.site, everyone, 3)
      expect(await told()).toEqual([])
    })
  })

  it.each([
    ['cut off', (file: string) => file.slice(0, -9)],
    ['spelled otherwise', (file: string) => file.replace('{', '{ ')],
    ['without one of the runs', (file: string) => file.replace('"a",', '')],
    ['with a run twice', (file: string) => file.replace('"a","b"', '"a","a"')],
    ['with a changed checkpoint', (file: string) => file.replace(/\\n3\\n./, String.raw`\n3\n_`)]
  ])('is refused where it is %s, and everything is read', async (_, spoil) => {
    await withKept(async ({ audited }, file) => {
      const report = await audited({ checkpoint: spoil(file), newOnly: true })
      expect(generalOf(report, 'whole')).toHaveLength(1)
      expect(report.runs).toHaveLength(5)
    })
  })

  it('is nothing where no checkpoint was signed, the log has findings, or runs were left out', async () => {
    await inAuditedPlant(async (plant) => {
      const why = async (request: Partial<AuditRequest> = {}): Promise<string> => {
        const asked = { store: folderStore(plant.site), clock: plant.clock, ...request }
        const { kept: result } = await auditAndKeep(asked)
        return result.ok ? '' : result.faults[0].what
      }
      plant.put('a')
      expect(await why()).toContain('no checkpoint was ever signed')
      must(signLog(plant.site, keyOf('root')))
      expect(await why()).toBe('')
      expect(await why({ person: 'liv' })).toContain('only some of the runs')
      expect(await why({ run: 'a' })).toContain('only some of the runs')
      writeFileSync(join(plant.site.folder, 'log', 'leaves.jsonl'), 'x\n')
      expect(await why()).toContain('the site log has findings')
    })
  })
})

describe('a checkpoint of a shared store', () => {
  it('is held against that store, and one of a folder is told to be of another log', async () => {
    await inAuditedPlant(async ({ site, clock, put }) => {
      put('a')
      const shared = memoryStore()
      const one = folderStore(site)
      await syncSite(site, shared)
      put('b')
      const own = must(signLog(site, keyOf('root'))).note
      await syncSite(site, shared)
      const note = must(await signStoreLog(shared, keyOf('root'))).note
      const report = await audit({ store: shared, clock, checkpoint: note })
      expect(generalOf(report, 'whole')).toEqual([])
      expect(report.general[0]?.checked.join(' ')).toContain('the 2 leaves of the checkpoint')
      // One folder alone handed in: both have the same leaves.
      expect(generalOf(await audit({ store: shared, clock, checkpoint: own }), 'whole')).toEqual([])
      rmSync(join(site.folder, 'log'), { recursive: true })
      rmSync(layout.journal(site, 'a'))
      must(signLog(site, keyOf('root')))
      expect(generalOf(await audit({ store: one, clock, checkpoint: note }), 'whole')).toEqual([
        'fault checkpoint-of-another-log'
      ])
    })
  })
})

describe('a signature of a key that was stolen afterwards', () => {
  /** Runa's key is known to have been stolen on 1 April. */
  const stolen = plantPeople.map((one) =>
    one.id === 'runa' ? { ...one, revokedAt: '2026-04-01T00:00:00.000Z', revokedBecause: 'stolen' as const } : one
  )
  const noted = ['doubt key-stolen-later']

  it('counts as made in time where a checkpoint of before the theft covers its run', async () => {
    await withKept(async ({ site, audited }, file) => {
      writeRoster(site, stolen, 2)
      const { checkpoint } = JSON.parse(file) as KeptAudit
      expect(findingsOf(await audited(), 'a', 'fit')).toEqual(noted)
      // A checkpoint says nothing of when it was made; that is the auditor's word.
      expect(findingsOf(await audited({ checkpoint }), 'a', 'fit')).toEqual(noted)
      for (const request of [{ checkpoint: file }, { checkpoint, keptSince: '2026-03-31' }]) {
        const report = await audited(request)
        expect(findingsOf(report, 'a', 'fit')).toEqual([])
        expect(report.runs[0]?.verdicts[2].checked.join(' ')).toContain('before the theft')
        // Closed after the checkpoint: it shows nothing of that.
        expect(findingsOf(report, 'd', 'fit')).toEqual(noted)
      }
      expect(findingsOf(await audited({ checkpoint, keptSince: '2026-04-01' }), 'a', 'fit')).toEqual(noted)
    })
  })

  it('does not where the checkpoint does not hold, or the journal is another than was closed', async () => {
    await withKept(async ({ site, audited }, file) => {
      writeRoster(site, stolen, 2)
      const spoilt = file.replace(/\\n3\\n./, String.raw`\n3\n_`)
      expect(findingsOf(await audited({ checkpoint: spoilt }), 'a', 'fit')).toEqual(noted)
      rmSync(layout.journal(site, 'a'))
      const { put } = { put: () => writeFileSync(layout.journal(site, 'a'), '') }
      put()
      expect(findingsOf(await audited({ checkpoint: file }), 'a', 'whole')).toContain('fault run-rewritten')
    })
  })
})
