import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import {
  type AuditReport,
  type AuditRequest,
  audit,
  type BareEvent,
  folderStore,
  issue,
  type RunMode,
  type Site,
  startRun
} from '@lockwright/records'
import { fanMachine } from '../../packages/records/fixtures/fan-machine.js'
import { forge } from '../../packages/records/fixtures/forge.js'
import { keyFor, seqOf } from '../../packages/records/fixtures/on-record.js'
import {
  fanJob,
  person,
  plantSite,
  type ScriptedClock,
  type Step,
  scriptedClock,
  signerOf,
  walk
} from '../../packages/records/fixtures/plant.js'

const day = 86_400

export interface EventfulSite {
  readonly site: Site
  readonly clock: ScriptedClock
  readonly audited: (request?: Partial<AuditRequest>) => Promise<AuditReport>
  readonly put: (id: string, steps?: readonly Step[], mode?: RunMode) => void
}

/** A site after a year with something of everything that an audit tells: invented people and equipment. */
export async function inEventfulSite(body: (site: EventfulSite) => Promise<void>): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'lockwright-eventful-'))
  try {
    const site = plantSite(folder)
    const clock = scriptedClock('2026-01-05T08:00:00.000Z')
    const issued = issue({ site, machine: fanMachine, signer: signerOf('birk'), clock })
    if (!issued.ok) throw new Error(JSON.stringify(issued.faults))
    const put = (id: string, steps: readonly Step[] = fanJob, mode: RunMode = 'issued'): void => {
      clock.pass(600)
      const run = startRun({ site, machine: fanMachine, mode, by: person('odd'), clock, id })
      if (!run.ok) throw new Error(JSON.stringify(run.faults))
      const last = walk(run.value, clock, steps)
      run.value.close()
      if (last?.ok === false) throw new Error(`${id}: ${JSON.stringify(last)}`)
    }
    fill(site, clock, put)
    await body({ site, clock, put, audited: (request = {}) => audit({ store: folderStore(site), clock, ...request }) })
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

const note = (text: string): Step => ({ seconds: 20, by: 'odd', event: { kind: 'note', text } })
const stop = (reason: string): Step => ({
  seconds: 30,
  by: 'odd',
  event: { kind: 'stopped', reason } as BareEvent,
  signed: true
})

function fill(site: Site, clock: ScriptedClock, put: EventfulSite['put']): void {
  for (let month = 0; month < 6; month += 1) {
    for (let n = 0; n <= month % 3; n += 1) put(`routine-${month + 1}-${n + 1}`)
    clock.pass(28 * day)
  }
  put('practice', fanJob, 'rehearsal')
  put('draft-job', fanJob, 'draft')
  clock.pass(60 * day)
  put('hasty', [note('=HYPERLINK("x";"look, here")'), ...fanJob])
  hurry(site, 'hasty')
  put('touched')
  const touched = join(site.folder, 'runs', 'touched.jsonl')
  writeFileSync(touched, readFileSync(touched, 'utf8').replace('"3.2 V"', '"0.2 V"'))
  clock.pass(120 * day)
  put('stopped-locked', [...fanJob.slice(0, 4), stop('No spare bearing in the store')])
  clock.pass(25 * day)
  put('left-open', [...fanJob.slice(0, 4), note('Waiting for "the other" fitter, Ærø <b>')])
  clock.pass(3 * 3600)
}

/** A wait that was ended early: forged with the keys of those who signed, since no runner would take it. */
function hurry(site: Site, run: string): void {
  const file = join(site.folder, 'runs', `${run}.jsonl`)
  const early = (at: string): string => new Date(Date.parse(at) - 200_000).toISOString()
  const from = seqOf('wait-over') + 1
  const journal = forge(
    readFileSync(file, 'utf8'),
    (entry) =>
      entry.seq < from
        ? entry
        : {
            ...entry,
            at: early(entry.at),
            elapsed: entry.elapsed - 200_000,
            ...(entry.signature === undefined
              ? {}
              : { signature: { ...entry.signature, at: early(entry.signature.at) } })
          },
    keyFor
  )
  writeFileSync(file, journal)
}
