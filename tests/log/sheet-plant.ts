import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { PersonId } from '@lockwright/machine'
import {
  addInstrument,
  addPerson,
  type Clock,
  initSite,
  issue,
  listRuns,
  type RecordsResult,
  type Site,
  sheetsOf,
  unlockKey
} from '@lockwright/records'
import { afterAll, beforeAll } from 'vitest'
import { enter } from '../../packages/cli/src/commands/enter.js'
import { print } from '../../packages/cli/src/commands/print.js'
import { filledIn, machine, procedure } from './fill-sheet.js'

const earlier: Clock = { now: () => ({ at: '2026-03-01T08:00:00.000Z', elapsed: 0 }) }
const passphrase = 'a long passphrase'

function value<Value>(result: RecordsResult<Value>): Value {
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

export type Fields = Readonly<Record<string, string | true>>

// Reference: python3-pypdf of Debian fills the form, so what we read is what a program of somebody else wrote.
export const formFiller = (() => {
  try {
    execFileSync('/usr/bin/python3', ['-c', 'import pypdf'], { stdio: 'ignore' })
    return true
  } catch {
    return false
  }
})()
if (!formFiller) {
  process.stderr.write(
    '\n!!! SKIPPED: python3-pypdf is not installed, so no sheet was filled by a program not ours. On Debian: apt-get install python3-pypdf\n\n'
  )
}

/** A site that keeps a list of instruments, with two technicians and a clerk who owns the equipment, and printed sheets. */
export interface SheetPlant {
  readonly site: Site
  readonly folder: string
  /** Prints a sheet and gives its serial number. */
  readonly printed: (chosen?: readonly string[]) => Promise<{ readonly serial: string; readonly blank: string }>
  /** The sheet as somebody filled it in on a screen, with a program that is not ours. */
  readonly filled: (blank: string, fields: Fields) => string
  /** Enters it; what is told goes to the test. */
  readonly entered: (
    file: string,
    more?: Readonly<Record<string, unknown>>
  ) => Promise<{ readonly code: number; readonly told: string }>
  readonly journalOf: (serial: string) => string
  readonly runOf: (serial: string) => string
  readonly remove: () => void
}

function sheetPlant(): SheetPlant {
  const folder = mkdtempSync(join(tmpdir(), 'lockwright-sheet-'))
  const cost = 2 ** 15
  const site = value(
    initSite({ folder: join(folder, 'site'), name: 'Sandholm waterworks', passphrase, clock: earlier, cost })
  )
  const root = value(unlockKey(site, 'site-root', passphrase))
  for (const [id, name, is] of [
    ['mira', 'Mira Holt', ['coordinator', 'equipment-owner']],
    ['tor', 'Tor Lind', ['electrical-lv']],
    ['ida', 'Ida Berg', ['electrical-lv']]
  ] as const) {
    const qualifications = is.map((one) => ({ is: one, validFrom: '2026-01-01', validUntil: null }))
    value(addPerson({ site, id, name, qualifications, passphrase, root, clock: earlier, cost }))
  }
  const key = value(unlockKey(site, 'mira', passphrase))
  value(issue({ site, machine, signer: { person: 'mira' as PersonId, key }, clock: earlier }))
  const gauge = {
    serial: 'S-1',
    name: 'Gauge',
    measures: 'pressure',
    ratings: [],
    range: null,
    accuracy: null,
    withdrawn: null
  }
  const calibrations = [{ from: '2025-01-01', until: '2025-12-31', certificate: null }]
  value(addInstrument({ site, instrument: { ...gauge, id: 'PG-9', calibrations }, root, clock: earlier }))
  const find = (serial: string) => listRuns(site).runs.find(({ sheet }) => sheet === serial)
  let files = 0
  return {
    site,
    folder,
    printed: async (chosen = []) => {
      files += 1
      const blank = join(folder, `blank-${files}.pdf`)
      const flags = { out: blank, paper: 'a4', site: site.folder, by: 'mira' } as const
      await print(procedure, chosen.length === 0 ? flags : { ...flags, for: chosen })
      return { serial: sheetsOf(site).sheets.at(-1)?.sheet.serial ?? '', blank }
    },
    filled: (blank, fields) => {
      files += 1
      const out = join(folder, `filled-${files}.pdf`)
      execFileSync('/usr/bin/python3', [join(import.meta.dirname, 'fill-form.py'), blank, out], {
        input: JSON.stringify(fields)
      })
      return out
    },
    entered: async (file, more = {}) => {
      const write = process.stderr.write
      let told = ''
      process.stderr.write = (text: string | Uint8Array) => {
        told += String(text)
        return true
      }
      try {
        return { code: await enter(procedure, file, { by: 'mira', site: site.folder, ...more }), told }
      } finally {
        process.stderr.write = write
      }
    },
    journalOf: (serial) => readFileSync(find(serial)?.file ?? '', 'utf8'),
    runOf: (serial) => find(serial)?.run ?? '',
    remove: () => rmSync(folder, { recursive: true, force: true })
  }
}

/** The plant of a test file, with the time zone and the passphrase that it counts on. */
export function forSheets(): () => SheetPlant {
  const held = new Map(['LOCKWRIGHT_PASSPHRASE', 'TZ'].map((name) => [name, process.env[name]] as const))
  let plant: SheetPlant
  beforeAll(() => {
    process.env['TZ'] = 'UTC'
    process.env['LOCKWRIGHT_PASSPHRASE'] = passphrase
    plant = sheetPlant()
  })
  afterAll(() => {
    plant.remove()
    for (const [name, before] of held) {
      if (before === undefined) delete process.env[name]
      else process.env[name] = before
    }
  })
  return () => plant
}

/** The sheet up to a step, otherwise in some fields; null empties one. */
export function sheet(upTo: string | null, change: Readonly<Record<string, string | true | null>> = {}): Fields {
  const filled = filledIn(upTo)
  // The note of step 7 is written once that is done.
  const early = 'lock-out.3.1.time' in filled ? {} : { '#notes.1.1-step': null, '#notes.1.1-what': null }
  return Object.fromEntries(
    Object.entries({ ...filled, ...early, ...change }).flatMap(([name, one]) => (one === null ? [] : [[name, one]]))
  )
}
