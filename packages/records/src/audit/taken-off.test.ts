import { describe, expect, it } from 'vitest'
import { type AuditedPlant, findingsOf, inAuditedPlant } from '../../fixtures/audited-plant.js'
import { fanJob, keyOf, type Step } from '../../fixtures/plant.js'
import { signLog } from '../log/sign-log.js'
import { formatAuditText } from '../report/format-audit-text.js'
import { folderStore } from '../store/folder-store.js'
import { auditAndKeep } from './audit.js'
import { formatKept } from './kept.js'
import type { AuditReport } from './report.js'

const stop: Step = { seconds: 30, by: 'odd', event: { kind: 'stopped', reason: 'No bearing' }, signed: true }
const withLock = (steps: readonly Step[], lock: string): readonly Step[] =>
  steps.map((step) =>
    step.event.kind === 'lock-hung' ? { ...step, event: { ...step.event, lock: lock as typeof step.event.lock } } : step
  )
const leaves = [...fanJob.slice(0, 4), stop]

const hanging = ({ hanging: locks }: AuditReport): readonly string[] => locks.map(({ run, lock }) => `${run} ${lock}`)

async function afterA(body: (plant: AuditedPlant) => Promise<void>): Promise<void> {
  await inAuditedPlant(async (plant) => {
    plant.put('a', leaves)
    await body(plant)
  })
}

describe('a lock that a closed run left on', () => {
  it('hangs, until a later issued run has the same one on record and takes it off; that run is named', async () => {
    await afterA(async ({ audited, put }) => {
      const before = await audited()
      expect(hanging(before)).toEqual(['a 17'])
      expect(findingsOf(before, 'a', 'due')).toEqual(['fault lock-left'])
      put('b')
      const after = await audited()
      expect(hanging(after)).toEqual([])
      expect(findingsOf(after, 'a', 'due')).toEqual([])
      const told = after.runs[0]
      expect(told?.answer).toBe('good')
      expect(told?.locks).toEqual([])
      expect(told?.verdicts[4].checked.join(' ')).toContain('it came off in run b on')
      expect(formatAuditText(after)).toContain('Left on by a closed run, and taken off in a later one: 1 lock')
      expect(after.takenOffLater).toMatchObject([
        { lock: '17', point: 'Q1', by: 'Odd Teig (odd)', equipment: 'F-12', run: 'a', offIn: { run: 'b', seq: 21 } }
      ])
    })
  })

  it.each([
    ['has another padlock', (plant: AuditedPlant) => plant.put('b', withLock(leaves, '18'))],
    ['has not taken it off', (plant: AuditedPlant) => plant.put('b', leaves)],
    ['is a draft', (plant: AuditedPlant) => plant.put('b', fanJob, 'draft')],
    ['is a rehearsal', (plant: AuditedPlant) => plant.put('b', fanJob, 'rehearsal')]
  ])('hangs on where the later run %s', async (_, put) => {
    await afterA(async (plant) => {
      put(plant)
      expect(hanging(await plant.audited())).toContain('a 17')
    })
  })

  it('hangs on where the run with that padlock was before it', async () => {
    await inAuditedPlant(async ({ put, audited }) => {
      put('before')
      put('later', leaves)
      expect(hanging(await audited())).toEqual(['later 17'])
    })
  })

  it('is not kept for the next audit once a covered run took it off; one that only a newer run took off is', async () => {
    await afterA(async ({ site, clock, put }) => {
      const kept = async (request = {}) => {
        const { kept: result, report } = await auditAndKeep({ store: folderStore(site), clock, ...request })
        if (!result.ok) throw new Error(JSON.stringify(result.faults))
        return { file: formatKept(result.value), locks: result.value.locks.map(({ run }) => run), report }
      }
      const sign = () => expect(signLog(site, keyOf('root')).ok).toBe(true)
      sign()
      put('b')
      const first = await kept()
      expect(first.locks).toEqual(['a'])
      expect(hanging(first.report)).toEqual([])
      sign()
      const second = await kept({ checkpoint: first.file, newOnly: true })
      expect(second.report.takenOffLater).toMatchObject([{ run: 'a', offIn: { run: 'b' } }])
      expect(second.locks).toEqual([])
      expect((await kept({ checkpoint: second.file, newOnly: true })).report.hanging).toEqual([])
    })
  })
})
