import type { PersonId } from '@lockwright/machine'
import type { LockElsewhere } from '@lockwright/records'
import { describe, expect, it } from 'vitest'
import { stepLines } from '../../fixtures/plain-run.js'
import { eventsOf, sessionAt } from '../../fixtures/session-at.js'
import { openSession } from '../session/session.js'

const left: LockElsewhere = {
  point: 'V1',
  lock: '41',
  person: 'liv' as PersonId,
  since: '2026-03-01T08:00:00.000Z',
  run: 'before' as LockElsewhere['run'],
  status: 'stopped',
  closedAt: '2026-03-01T09:00:00.000Z'
}
const open: LockElsewhere = {
  ...left,
  lock: '52',
  run: 'beside' as LockElsewhere['run'],
  status: 'paused',
  closedAt: null
}

/** The same run, with what the records say hangs besides; a lock that came off is gone from it. */
function beside(...elsewhere: readonly LockElsewhere[]) {
  const before = sessionAt('told')
  const run = {
    ...before.run,
    get snapshot() {
      return before.run.snapshot
    },
    get elsewhere() {
      const off = before.run.entries.flatMap(({ event }) => (event.kind === 'lock-removed' ? [event.from?.lock] : []))
      return elsewhere.filter(({ lock }) => !off.includes(lock as never))
    }
  }
  return openSession(run, { ...before.options })
}

describe('locks that other runs left on this equipment', () => {
  it('stand on every screen of both shells, with what to do about each', async () => {
    const warnings = beside(left, open).screen().warnings.join('\n')
    expect(warnings).toContain('lock 41 of liv on V1')
    expect(warnings).toContain('`off 41`')
    expect(warnings).toMatch(/lock 52 of liv on V1.*paused.*goes on/)
    const { out } = await stepLines([], { run: beside(left).run })
    expect(out.join('\n')).toContain('lock 41 of liv on V1')
  })

  it('come off by their owners, where the run that left them is closed', () => {
    const session = beside(left, open)
    expect(session.answer('off 52').said.join(' ')).toContain('in its own run')
    expect(session.answer('off 99').refused).toBe(true)
    expect(session.answer('off 41').said.join(' ')).toContain('`absent 41`')
    session.answer('as liv')
    expect(session.answer('off 41').refused).toBe(false)
    expect(eventsOf(session).at(-1)).toMatchObject({
      kind: 'lock-removed',
      owner: 'liv',
      by: 'liv',
      point: 'V1',
      from: { run: 'before', lock: '41' }
    })
    expect(session.screen().warnings.join(' ')).not.toContain('lock 41')
  })

  it('come off without their owner under the direction of the employer', () => {
    const session = beside(left)
    for (const line of ['absent 41', 'lind', 'the gate log', 'called twice', 'a note at the gate']) session.answer(line)
    expect(eventsOf(session).at(-1)).toMatchObject({
      kind: 'lock-removed',
      owner: 'liv',
      by: 'm.vega',
      from: { run: 'before', lock: '41' },
      absent: { directedBy: 'lind' }
    })
  })
})
