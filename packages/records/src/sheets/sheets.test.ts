import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { bundleProgram } from '../../fixtures/bundle-program.js'
import { fanMachine } from '../../fixtures/fan-machine.js'
import { enterFromSheet, inFolder, person, plantSite, scriptedClock, signerOf } from '../../fixtures/plant.js'
import { canonicalJson } from '../canonical-json.js'
import { sha256Hex } from '../digest.js'
import { type Disk, realDisk } from '../disk/disk.js'
import { onDisk } from '../disk/disk-in-use.js'
import { issue } from '../issue.js'
import { leavesAfter } from '../log/read-log.js'
import type { RecordsResult } from '../result.js'
import { startRun } from '../run.js'
import { makeFolders, type Site } from '../site.js'
import { checkCharacter, hasCheckCharacter } from './check-character.js'
import { registerSheet, type SheetToPrint, sheetFiles, sheetsFolder, voidSheet } from './register-sheet.js'
import { newSerial, parseSerial } from './serial.js'
import { sheetForEntry } from './sheet-for-entry.js'
import { sheetsOf } from './sheets-of.js'

const machine = sha256Hex(canonicalJson(fanMachine))
const toPrint: SheetToPrint = {
  machine,
  procedure: 'F12-BEARING',
  revision: 2,
  generations: {},
  languages: ['en'],
  printedAt: '2026-03-02T07:00:00.000Z'
}

function value<Value>(result: RecordsResult<Value>): Value {
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}
const faultOf = (result: RecordsResult<unknown>): string => (result.ok ? '' : result.faults[0].id)

describe('the check character of a serial number', () => {
  it('is that of ISO/IEC 7064, MOD 37,36', () => {
    // The worked example of the Global Release Identifier (GRid) standard, which uses this system; from memory.
    expect(checkCharacter('A12425GABC1234002')).toBe('M')
    expect(hasCheckCharacter('A12425GABC1234002M')).toBe(true)
    expect(hasCheckCharacter('A12425GABC1234002N')).toBe(false)
    expect(hasCheckCharacter('')).toBe(false)
  })

  it('finds every single wrong character of a serial number, and nearly every exchange of two neighbours', () => {
    const serials = Array.from({ length: 40 }, (_, at) => newSerial(bytesOf(at)))
    let [exchanged, missed] = [0, 0]
    for (const serial of serials) {
      const signs = serial.replace('-', '')
      for (const [at, sign] of [...signs].entries()) {
        for (const other of '0123456789ABCDEFGHJKMNPQRSTVWXYZ') {
          if (other !== sign) expect(hasCheckCharacter([...signs].with(at, other).join(''))).toBe(false)
        }
        const next = signs[at + 1]
        if (next === undefined || next === sign) continue
        exchanged += 1
        if (
          hasCheckCharacter(
            [...signs]
              .with(at, next)
              .with(at + 1, sign)
              .join('')
          )
        )
          missed += 1
      }
    }
    expect(exchanged).toBeGreaterThan(200)
    expect(missed).toBeLessThan(exchanged / 20)
  })

  it('stands in a number that can be read aloud and typed in many ways', () => {
    const serial = newSerial(bytesOf(7))
    expect(serial).toMatch(/^[0-9A-HJKMNP-TV-Z]{3}-[0-9A-HJKMNP-TV-Z]{4}$/)
    for (const typed of [serial, serial.toLowerCase(), serial.replace('-', ''), ` ${serial.replace('-', ' ')} `]) {
      expect(parseSerial(typed)).toEqual({ ok: true, value: serial })
    }
    const tries = [
      [0, 1, 0, 1, 0, 1],
      [1, 0, 1, 0, 1, 0],
      [0, 0, 1, 1, 0, 0]
    ].values()
    const zero = newSerial(() => Uint8Array.from(tries.next().value ?? []))
    expect(parseSerial(zero.replaceAll('0', 'O').replaceAll('1', 'l'))).toEqual({ ok: true, value: zero })
    expect(faultOf(parseSerial(`${serial.slice(0, -1)}${serial.endsWith('7') ? '8' : '7'}`))).toBe('serial-mistyped')
    for (const wrong of ['', 'ABC', `${serial}0`, 'ÄBC-1234', '../../etc'])
      expect(faultOf(parseSerial(wrong))).toBe('not-a-serial')
  })
})

/** Bytes that look like chance and are the same every time; asked again, others. */
const bytesOf = (n: number): (() => Uint8Array) => {
  let asked = 0
  return () => {
    asked += 1
    return Buffer.from(sha256Hex(`${n} ${asked}`), 'hex').subarray(0, 6)
  }
}

function withPlant(body: (site: Site, clock: ReturnType<typeof scriptedClock>) => void): void {
  inFolder((folder) => {
    const site = plantSite(folder)
    const clock = scriptedClock()
    value(issue({ site, machine: fanMachine, signer: signerOf('birk'), clock }))
    body(site, clock)
  })
}

describe('the sheets of a site', () => {
  it('are out, partly entered, entered or void, and since when', () => {
    withPlant((site, clock) => {
      const [a, b, c, d] = [1, 2, 3, 4].map(() => value(registerSheet(site, toPrint)).serial)
      if (!a || !b || !c || !d) return expect.fail('not printed')
      clock.pass(86_400)
      const enter = (sheet: string, id: string) =>
        value(
          startRun({
            site,
            machine: fanMachine,
            mode: 'issued',
            by: person('odd'),
            clock,
            id,
            onPaper: { enteredBy: person('birk'), at: '2026-03-02T09:00:00.000Z', sheet }
          })
        )
      const whole = enter(a, 'whole')
      enterFromSheet(whole, clock, '2026-03-02T09:00:00.000Z')
      whole.close()
      enter(b, 'part').close()
      value(voidSheet(site, { serial: c, reason: 'Coffee', at: '2026-03-03T10:00:00.000Z', by: 'odd' }))
      expect(sheetsOf(site).sheets.map(({ state }) => state)).toEqual([
        { kind: 'entered', run: 'whole', since: '2026-03-02T09:25:52.000Z' },
        { kind: 'partly-entered', run: 'part', since: '2026-03-02T09:00:00.000Z' },
        { kind: 'void', reason: 'Coffee', since: '2026-03-03T10:00:00.000Z', by: 'odd' },
        { kind: 'out', since: '2026-03-02T07:00:00.000Z' }
      ])
      expect(sheetsOf(site).faults).toEqual([])
      expect(value(leavesAfter(site, 0)).map(({ leaf }) => leaf.sheet)).toEqual([a])

      expect(value(sheetForEntry(site, d.toLowerCase(), machine)).run).toBeNull()
      expect(value(sheetForEntry(site, b, machine)).run).toBe('part')
      expect(faultOf(sheetForEntry(site, a, machine))).toBe('sheet-entered')
      expect(faultOf(sheetForEntry(site, c, machine))).toBe('sheet-void')
      expect(faultOf(sheetForEntry(site, d, 'ab'.repeat(32)))).toBe('sheet-of-another-revision')
      expect(faultOf(sheetForEntry(site, newSerial(bytesOf(1)), machine))).toBe('no-such-sheet')
      expect(faultOf(voidSheet(site, { serial: c, reason: 'Again', at: '2026-03-03T10:00:00.000Z' }))).toBe(
        'sheet-void'
      )
      expect(faultOf(voidSheet(site, { serial: d, reason: ' ', at: '2026-03-03T10:00:00.000Z' }))).toBe('reason-needed')

      enter(a, 'again').close()
      expect(sheetsOf(site).faults.map(({ id }) => id)).toEqual(['sheet-entered-twice'])
    })
  })

  it('are chained: every byte changed, and every record taken away but the last, is found', () => {
    inFolder((folder) => {
      const site = makeFolders(folder)
      for (let n = 0; n < 4; n += 1) value(registerSheet(site, toPrint, bytesOf(n + 20)))
      const names = sheetFiles(site)
      const found = () => sheetsOf(site).faults.map(({ id }) => id)
      expect(found()).toEqual([])
      for (const [at, name] of names.entries()) {
        const file = join(sheetsFolder(site), name)
        const bytes = readFileSync(file)
        rmSync(file)
        expect(found()).toEqual(at === names.length - 1 ? [] : ['sheet-missing'])
        for (let byte = 0; byte < bytes.length; byte += 1) {
          const changed = Buffer.from(bytes)
          changed[byte] = (changed[byte] ?? 0) ^ 1
          writeFileSync(file, changed)
          // The last record has nothing after it that would tell; what it says has to be readable all the same.
          if (at < names.length - 1) expect(found().length).toBeGreaterThan(0)
        }
        writeFileSync(file, bytes)
      }
      expect(found()).toEqual([])
    })
  })

  it('are on record before they are printed, wherever the process dies', () => {
    class Killed extends Error {}
    let [deaths, finished] = [0, false]
    for (let last = 1; !finished; last += 1) {
      inFolder((folder) => {
        const site = makeFolders(folder)
        value(registerSheet(site, toPrint))
        let touches = 0
        const touch = (all: () => void, half?: () => void): void => {
          touches += 1
          if (touches < last) all()
          if (touches === last) half?.()
          if (touches >= last) throw new Killed()
        }
        const disk: Disk = {
          ...realDisk,
          write: (handle, bytes) =>
            touch(
              () => realDisk.write(handle, bytes),
              () => realDisk.write(handle, bytes.subarray(0, 9))
            ),
          sync: (handle) => touch(() => realDisk.sync(handle)),
          rename: (from, to) => touch(() => realDisk.rename(from, to)),
          remove: (file) => touch(() => realDisk.remove(file)),
          syncFolder: (name) => touch(() => realDisk.syncFolder(name))
        }
        let serial: string | null = null
        try {
          serial = value(onDisk(disk, () => registerSheet(site, toPrint))).serial
        } catch (error) {
          if (!(error instanceof Killed)) throw error
          deaths += 1
        }
        finished = touches < last
        for (const name of readdirSync(sheetsFolder(site))) {
          if (name.includes('.lock-')) rmSync(join(sheetsFolder(site), name))
        }
        const third = value(registerSheet(site, toPrint)).serial
        const { faults, sheets } = sheetsOf(site)
        expect(faults).toEqual([])
        const serials = sheets.map(({ sheet }) => sheet.serial as string)
        if (serial !== null) expect(serials).toContain(serial)
        expect(serials).toContain(third)
        expect(new Set(serials).size).toBe(serials.length)
      })
    }
    expect(deaths).toBeGreaterThan(5)
  })

  it('get a number each where two processes print at once', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'lockwright-sheets-'))
    try {
      const script = join(folder, 'printer.mjs')
      bundleProgram(join(import.meta.dirname, '..', '..', 'fixtures', 'sheet-printer.ts'), script)
      const site = makeFolders(join(folder, 'site'))
      const print = (): ChildProcess => spawn(process.execPath, [script, site.folder, '15'], { stdio: 'inherit' })
      const ends = await Promise.all([print(), print()].map((child) => once(child, 'exit')))
      expect(ends.map(([code]) => code)).toEqual([0, 0])
      const { faults, sheets } = sheetsOf(site)
      expect(faults).toEqual([])
      expect(sheets.map(({ sheet }) => sheet.number)).toEqual(Array.from({ length: 30 }, (_, at) => at + 1))
      expect(new Set(sheets.map(({ sheet }) => sheet.serial)).size).toBe(30)
    } finally {
      rmSync(folder, { recursive: true, force: true })
    }
  })
})
