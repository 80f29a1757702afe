import { appendFileSync, copyFileSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { fanMachine } from '../../fixtures/fan-machine.js'
import {
  fanJob,
  inFolder,
  keyOf,
  person,
  plantSite,
  type Step,
  scriptedClock,
  signerOf,
  walk
} from '../../fixtures/plant.js'
import { type Disk, realDisk } from '../disk/disk.js'
import { onDisk } from '../disk/disk-in-use.js'
import { issue } from '../issue.js'
import { publicBytesOf } from '../public-key.js'
import type { RecordsResult } from '../result.js'
import { startRun } from '../run.js'
import type { Run, RunMode } from '../run-types.js'
import { layout, type Site } from '../site.js'
import { type CheckLog, checkLog } from './check-log.js'
import { completeLog } from './complete-log.js'
import { logFolder } from './log-folder.js'
import { checkProofFile } from './proof-file.js'
import { proveRun } from './prove-run.js'
import { findLeaf, leavesAfter, readLog } from './read-log.js'
import { signLog } from './sign-log.js'

const stopped: readonly Step[] = [
  ...fanJob.slice(0, 3),
  {
    seconds: 30,
    by: 'odd',
    event: { kind: 'stopped', reason: 'No spare bearing in the store', left: 'Locked' },
    signed: true
  }
]

function value<Value>(result: RecordsResult<Value>): Value {
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

function withSite(body: (site: Site, add: (id: string, steps?: readonly Step[], mode?: RunMode) => Run) => void): void {
  inFolder((folder) => {
    const site = plantSite(folder)
    const clock = scriptedClock()
    value(issue({ site, machine: fanMachine, signer: signerOf('birk'), clock }))
    body(site, (id, steps = stopped, mode = 'issued') => {
      clock.pass(60)
      const run = value(startRun({ site, machine: fanMachine, mode, by: person('odd'), clock, id }))
      const last = walk(run, clock, steps)
      run.close()
      if (last?.ok !== true) throw new Error(JSON.stringify(last))
      return run
    })
  })
}

const found = (request: CheckLog): readonly string[] =>
  value(checkLog(request)).findings.map(({ id, run, number }) => `${id} ${run ?? '-'} ${number ?? '-'}`)

describe('the log of a site', () => {
  it('has a leaf for each run that was closed, issued or draft, and none for a rehearsal or an open run', () => {
    withSite((site, add) => {
      add('first')
      add('second', fanJob)
      add('rehearsed', stopped, 'rehearsal')
      add(
        'draft',
        stopped.map((step) => ({ ...step, signed: false })),
        'draft'
      )
      const open = add('open', fanJob.slice(0, 2))
      expect(open.snapshot.status).toBe('running')
      const leaves = value(leavesAfter(site, 0))
      expect(leaves.map(({ number, leaf }) => [number, leaf.run, leaf.status, leaf.mode])).toEqual([
        [0, 'first', 'stopped', 'issued'],
        [1, 'second', 'finished', 'issued'],
        [2, 'draft', 'stopped', 'draft']
      ])
      expect(leaves[0]?.leaf.locks).toEqual([{ point: 'Q1', lock: '17', by: 'odd', since: '2026-03-02T08:02:15.000Z' }])
      expect(leaves[1]?.leaf.locks).toEqual([])
      expect(value(findLeaf(site, 'second'))?.number).toBe(1)
      expect(value(findLeaf(site, 'rehearsed'))).toBeNull()
      expect(found({ site })).toEqual([])
    })
  })

  it('takes in runs that were closed before there was a log, in the order in which they were closed, once', () => {
    withSite((site, add) => {
      for (const id of ['c', 'a', 'b']) add(id)
      rmSync(logFolder.folder(site), { recursive: true })
      expect(found({ site })).toEqual(['run-not-in-log a -', 'run-not-in-log b -', 'run-not-in-log c -'])
      expect(value(completeLog(site)).added.map(({ leaf }) => leaf.run)).toEqual(['c', 'a', 'b'])
      expect(value(completeLog(site))).toEqual({ added: [], size: 3, repaired: [] })
      rmSync(join(logFolder.folder(site), 'numbers'), { recursive: true })
      expect(value(completeLog(site)).added).toEqual([])
      rmSync(join(logFolder.folder(site), 'tile'), { recursive: true })
      expect(value(completeLog(site)).repaired).toEqual([
        'Tiles of the log were gone or cut off; all were made anew from the leaves.'
      ])
      expect(found({ site })).toEqual([])
    })
  })

  it('closes a run also where the log cannot be written, and takes it in when the next one is opened', () => {
    withSite((site, add) => {
      add('one')
      const full = Object.assign(new Error('no space left'), { code: 'ENOSPC', syscall: 'write' })
      const disk: Disk = {
        ...realDisk,
        open: (file, how, permissions) => {
          if (file.startsWith(logFolder.folder(site))) throw full
          return realDisk.open(file, how, permissions)
        }
      }
      const lost = onDisk(disk, () => add('two'))
      expect(lost.snapshot.status).toBe('stopped')
      expect(found({ site })).toEqual(['run-not-in-log two -'])
      add('three', fanJob.slice(0, 1))
      expect(value(leavesAfter(site, 0)).map(({ leaf }) => leaf.run)).toEqual(['one', 'two'])
      expect(found({ site })).toEqual([])
    })
  })

  it('is signed, and a kept checkpoint tells what was done to it since', () => {
    withSite((site, add) => {
      for (const id of ['one', 'two', 'three']) add(id)
      const { note } = value(signLog(site, keyOf('root')))
      add('four')
      for (const runs of ['all', 'new'] as const) {
        expect(found({ site, kept: note, runs })).toEqual([])
        expect(value(checkLog({ site, kept: note, runs })).from).toBe(runs === 'all' ? 0 : 3)
      }
      const leaves = readFileSync(logFolder.leaves(site), 'utf8')
      const swap = (change: (lines: string[]) => string[]): readonly string[] => {
        writeFileSync(logFolder.leaves(site), `${change(leaves.trimEnd().split('\n')).join('\n')}\n`)
        const told = found({ site, kept: note })
        writeFileSync(logFolder.leaves(site), leaves)
        return told
      }
      expect(swap(([a = '', b = '', ...more]) => [b, a, ...more])).toContain('log-forked - -')
      expect(swap((lines) => lines.map((line, at) => (at === 1 ? line.replace('"Q1"', '"Q2"') : line)))).toEqual([
        'log-forked - -',
        'log-tiles - -',
        'leaf-misstates two 1'
      ])
      expect(swap((lines) => lines.map((line, at) => (at === 3 ? line.replace('"Q1"', '"Q2"') : line)))).toEqual([
        'log-tiles - -',
        'leaf-misstates four 3'
      ])
    })
  })

  it('finds a journal that was removed, cut back or rewritten, and says what hung', () => {
    withSite((site, add) => {
      for (const id of ['one', 'two', 'three', 'four']) add(id)
      const lines = readFileSync(layout.journal(site, 'two'), 'utf8').trimEnd().split('\n')
      rmSync(layout.journal(site, 'one'))
      writeFileSync(layout.journal(site, 'two'), `${lines.slice(0, -1).join('\n')}\n`)
      const three = readFileSync(layout.journal(site, 'three'), 'utf8')
      writeFileSync(layout.journal(site, 'three'), three.replace('No spare', 'No  spare'))
      const four = readFileSync(layout.journal(site, 'four'), 'utf8')
      writeFileSync(layout.journal(site, 'four'), four.replace('"lock":"17"', '"lock":"18"'))
      expect(found({ site })).toEqual([
        'run-removed one 0',
        'run-rewritten two 1',
        'run-rewritten three 2',
        'run-rewritten four 3'
      ])
      const told = value(checkLog({ site })).findings.map(({ what }) => what)
      expect(told[0]).toContain('lock 17 of odd on Q1 since 2026-03-02T08:02:15.000Z')
      expect(told[1]).toContain('was cut back: it has 4 lines, and had 5')
      expect(told[2]).toContain('another hash')
      expect(told[3]).toContain('before its last one was changed')
    })
  })

  it('tells a log that is shorter than the checkpoint, one of another site and one that nobody signed', () => {
    withSite((site, add) => {
      add('one')
      const early = value(signLog(site, keyOf('root'))).note
      const folder = join(site.folder, 'early')
      mkdirSync(folder)
      for (const name of ['leaves.jsonl', 'leaves.ends'])
        copyFileSync(join(logFolder.folder(site), name), join(folder, name))
      add('two')
      const late = value(signLog(site, keyOf('root'))).note
      for (const name of ['leaves.jsonl', 'leaves.ends'])
        copyFileSync(join(folder, name), join(logFolder.folder(site), name))
      expect(found({ site, kept: late })).toEqual(['log-shortened - -', 'run-not-in-log two -'])
      expect(found({ site, kept: early })).toEqual(['run-not-in-log two -'])
      expect(signLog(site, keyOf('root'))).toMatchObject({ ok: true })
      expect(signLog(site, keyOf('odd'))).toMatchObject({ ok: false, faults: [{ id: 'not-the-root-key' }] })
      const bad = (note: string) => checkLog({ site, kept: note })
      expect(bad(late.replace('sandholm', 'elsewhere'))).toMatchObject({
        faults: [{ id: 'checkpoint-of-another-site' }]
      })
      expect(bad(late.replace('\n2\n', '\n3\n'))).toMatchObject({ faults: [{ id: 'checkpoint-unsound' }] })
      expect(bad(late.slice(0, 40))).toMatchObject({ faults: [{ id: 'no-checkpoint' }] })
    })
  })

  it('proves a run to somebody who has nothing but the key of the site', () => {
    withSite((site, add) => {
      for (let n = 1; n <= 5; n += 1) add(`run-${n}`)
      expect(proveRun(site, 'run-2')).toMatchObject({ ok: false, faults: [{ id: 'not-covered' }] })
      value(signLog(site, keyOf('root')))
      add('later')
      expect(proveRun(site, 'later')).toMatchObject({ ok: false, faults: [{ id: 'not-covered' }] })
      expect(proveRun(site, 'never')).toMatchObject({ ok: false, faults: [{ id: 'run-not-in-log' }] })
      const proof = value(proveRun(site, 'run-2'))
      const key = publicBytesOf(keyOf('root'))
      const proven = value(checkProofFile(proof, 'run-2.tlog-proof', key))
      expect([proven.number, proven.leaf.run, proven.checkpoint.size]).toEqual([1, 'run-2', 5])
      expect(checkProofFile(proof, '', publicBytesOf(keyOf('odd')))).toMatchObject({
        faults: [{ id: 'checkpoint-unsound' }]
      })
      const [head = '', extra = '', ...rest] = proof.split('\n')
      const forged = Buffer.from(Buffer.from(extra.slice(6), 'base64').toString().replace('"17"', '"18"')).toString(
        'base64'
      )
      expect(checkProofFile([head, `extra ${forged}`, ...rest].join('\n'), '', key)).toMatchObject({
        faults: [{ id: 'proof-unsound' }]
      })
    })
  })

  it('is not changed by whoever only reads', () => {
    withSite((site, add) => {
      add('one')
      appendFileSync(logFolder.leaves(site), '{"half"')
      const before = readdirSync(site.folder, { recursive: true }).toSorted()
      expect(value(readLog(site)).size).toBe(1)
      expect(found({ site })).toEqual(['log-unfinished - -'])
      expect(readdirSync(site.folder, { recursive: true }).toSorted()).toEqual(before)
    })
  })
})
