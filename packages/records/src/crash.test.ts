import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { appendFileSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { describe, expect, it } from 'vitest'
import { bundleProgram } from '../fixtures/bundle-program.js'
import { fanMachine } from '../fixtures/fan-machine.js'
import { unsyncedDisk } from '../fixtures/faulty-disk.js'
import { inFolder, person, scriptedClock } from '../fixtures/plant.js'
import { type Disk, realDisk } from './disk/disk.js'
import { onDisk } from './disk/disk-in-use.js'
import type { RunId } from './entry.js'
import { createJournal, openJournal } from './journal.js'
import { resumeRun, startRun } from './run.js'
import { layout } from './site.js'

async function inFolderLater(body: (folder: string) => Promise<void>): Promise<void> {
  const { mkdtempSync, rmSync } = await import('node:fs')
  const { tmpdir } = await import('node:os')
  const folder = mkdtempSync(join(tmpdir(), 'lockwright-crash-'))
  try {
    await body(folder)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** A process of its own that steps a run; see the script. */
function appender(folder: string, id: string, ...more: string[]): ChildProcess {
  const script = join(folder, 'appender.mjs')
  bundleProgram(join(import.meta.dirname, '..', 'fixtures', 'appender.ts'), script)
  return spawn(process.execPath, [script, folder, id, ...more], { stdio: ['ignore', 'pipe', 'inherit'] })
}

/** Kills the child once it has acknowledged that many entries; gives the number of the last one acknowledged. */
async function killAfter(child: ChildProcess, amount: number): Promise<number> {
  let acknowledged = 0
  if (child.stdout === null) throw new Error('no standard output')
  for await (const line of createInterface({ input: child.stdout })) {
    acknowledged = Number(line)
    if (acknowledged === amount) child.kill('SIGKILL')
  }
  if (child.exitCode === null && child.signalCode === null) await once(child, 'exit')
  return acknowledged
}

describe('a runner that is killed', () => {
  it.each([1, 2, 40])('has every entry on the disk that it acknowledged: %i', async (amount) => {
    await inFolderLater(async (folder) => {
      const acknowledged = await killAfter(appender(folder, 'killed'), amount)
      expect(acknowledged).toBeGreaterThanOrEqual(amount)
      const clock = scriptedClock('2026-03-02T09:00:00.000Z')
      const resumed = resumeRun({ site: { folder }, run: 'killed' as RunId, machine: fanMachine, clock })
      if (!resumed.ok) return expect.fail(JSON.stringify(resumed.faults))
      expect(resumed.value.entries.length).toBeGreaterThanOrEqual(acknowledged)
      const taken = resumed.value.take({ kind: 'note', text: 'after the crash', by: person('odd') })
      expect(taken.ok && taken.entry.session).toBe(2)
      resumed.value.close()
    })
  })

  it('holds its journal while it lives, and not a moment longer', async () => {
    await inFolderLater(async (folder) => {
      const child = appender(folder, 'held', 'hold')
      if (child.stdout === null) throw new Error('no standard output')
      await once(child.stdout, 'data')
      const open = () => openJournal(layout.journal({ folder }, 'held'))
      const during = open()
      expect(during).toMatchObject({ ok: false, faults: [{ id: 'in-use' }] })
      expect(!during.ok && during.faults[0].what).toContain(String(child.pid))
      child.kill('SIGKILL')
      await once(child, 'exit')
      const after = open()
      expect(after.ok).toBe(true)
      if (after.ok) after.value.close()
      expect(readdirSync(join(folder, 'runs'))).toEqual(['held.jsonl'])
    })
  })
})

describe('a journal that was cut off', () => {
  const begin = (folder: string): { readonly file: string; readonly bytes: Buffer } => {
    const clock = scriptedClock()
    const run = startRun({ site: { folder }, machine: fanMachine, mode: 'draft', by: person('odd'), clock, id: 'cut' })
    if (!run.ok) throw new Error(JSON.stringify(run.faults))
    clock.pass(5)
    run.value.take({ kind: 'note', text: 'the first ü', by: person('odd') })
    clock.pass(5)
    run.value.take({ kind: 'note', text: 'the last ü', by: person('odd') })
    run.value.close()
    return { file: run.value.file, bytes: readFileSync(run.value.file) }
  }

  it('loses no whole line, and keeps the rest, wherever in its last line it was cut', () => {
    inFolder((folder) => {
      const { file, bytes } = begin(folder)
      const whole = bytes.lastIndexOf(0x0a, bytes.length - 2) + 1
      let torn = 0
      for (let end = whole + 1; end < bytes.length; end += 1) {
        writeFileSync(file, bytes.subarray(0, end))
        const journal = onDisk(unsyncedDisk, () => openJournal(file))
        if (!journal.ok) return expect.fail(JSON.stringify(journal.faults))
        journal.value.close()
        torn += 1
        const kept = journal.value.setAside
        expect(kept?.file).toBe(layout.tornLine({ folder }, 'cut', torn))
        expect(readFileSync(kept?.file ?? '')).toEqual(bytes.subarray(whole, end))
        expect(readFileSync(file)).toEqual(bytes.subarray(0, whole))
        expect(journal.value.reading.lines.length).toBe(2)
      }
      expect(torn).toBe(bytes.length - whole - 1)
    })
  })

  it('has a last line set aside whose middle never reached the disk', () => {
    inFolder((folder) => {
      const { file, bytes } = begin(folder)
      const whole = bytes.lastIndexOf(0x0a, bytes.length - 2) + 1
      const holed = Buffer.from(bytes)
      holed.fill(0, whole + 10, whole + 60)
      writeFileSync(file, holed)
      const resumed = resumeRun({ site: { folder }, run: 'cut' as RunId, machine: fanMachine, clock: scriptedClock() })
      if (!resumed.ok) return expect.fail(JSON.stringify(resumed.faults))
      expect(resumed.value.setAside?.bytes).toBe(bytes.length - whole)
      expect(resumed.value.entries.length).toBe(2)
      resumed.value.close()
    })
  })

  it('loses nothing of the lines before it wherever the hole begins, in the middle of a character too', () => {
    inFolder((folder) => {
      const { file, bytes } = begin(folder)
      const whole = bytes.lastIndexOf(0x0a, bytes.length - 2) + 1
      for (let from = whole; from < bytes.length - 1; from += 1) {
        const holed = Buffer.from(bytes)
        holed.fill(0, from, bytes.length - 1)
        writeFileSync(file, holed)
        const journal = onDisk(unsyncedDisk, () => openJournal(file))
        if (!journal.ok) return expect.fail(JSON.stringify(journal.faults))
        journal.value.close()
        expect(journal.value.setAside?.bytes).toBe(bytes.length - whole)
        expect(readFileSync(file).equals(bytes.subarray(0, whole)), `from byte ${from}`).toBe(true)
      }
    })
  })

  it('is not repaired where an earlier line is damaged', () => {
    inFolder((folder) => {
      const { file, bytes } = begin(folder)
      const damaged = Buffer.from(bytes)
      damaged.fill(0, 10, 60)
      writeFileSync(file, damaged)
      const resumed = resumeRun({ site: { folder }, run: 'cut' as RunId, machine: fanMachine, clock: scriptedClock() })
      expect(resumed).toMatchObject({
        ok: false,
        faults: [{ id: 'chain-broken', line: 1 }]
      })
      expect(readFileSync(file)).toEqual(damaged)
    })
  })
})

describe('a disk that fails', () => {
  it('leaves nothing of the entry behind, and takes the next one once it works again', () => {
    inFolder((folder) => {
      const file = join(folder, 'full.jsonl')
      let full = false
      const filling: Disk = {
        ...realDisk,
        write: (handle, bytes, position) => {
          realDisk.write(handle, full ? bytes.subarray(0, 5) : bytes, position)
          if (full) throw Object.assign(new Error('no space'), { code: 'ENOSPC', syscall: 'write' })
        }
      }
      const journal = onDisk(filling, () => createJournal(file))
      if (!journal.ok) return expect.fail('not created')
      full = true
      expect(journal.value.append('{"a":1}')).toBe('there is no space left on the disk (ENOSPC)')
      expect(readFileSync(file, 'utf8')).toBe('')
      full = false
      expect(journal.value.append('{"a":1}')).toBeNull()
      expect(readFileSync(file, 'utf8')).toBe('{"a":1}\n')
      appendFileSync(file, 'x')
      expect(journal.value.append('{"a":2}')).toBe('something else wrote into the journal')
      journal.value.close()
      expect(journal.value.append('{"a":2}')).toBe('the journal was closed')
    })
  })

  it('is written and synced before the entry counts', () => {
    inFolder((folder) => {
      const calls: string[] = []
      const telling: Disk = {
        ...realDisk,
        write: (...asked) => {
          calls.push('write')
          realDisk.write(...asked)
        },
        sync: (handle) => {
          calls.push('sync')
          realDisk.sync(handle)
        }
      }
      const journal = onDisk(telling, () => createJournal(join(folder, 'a.jsonl')))
      if (!journal.ok) return expect.fail('not created')
      calls.length = 0
      journal.value.append('{}')
      expect(calls).toEqual(['write', 'sync'])
      journal.value.close()
    })
  })
})
