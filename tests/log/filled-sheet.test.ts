import { execFileSync } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { digestOf, type PersonId } from '@lockwright/machine'
import {
  addPerson,
  audit,
  type Clock,
  folderStore,
  initSite,
  issue,
  leavesAfter,
  listRuns,
  type RecordsResult,
  type Site,
  sheetsOf,
  systemClock,
  unlockKey
} from '@lockwright/records'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { enter } from '../../packages/cli/src/commands/enter.js'
import { print } from '../../packages/cli/src/commands/print.js'
import { filledIn, machine, procedure } from './fill-sheet.js'

// Reference: python3-pypdf of Debian fills the form, so what we read is what a program of somebody else wrote.
const installed = (() => {
  try {
    execFileSync('/usr/bin/python3', ['-c', 'import pypdf'], { stdio: 'ignore' })
    return true
  } catch {
    return false
  }
})()
if (!installed) {
  process.stderr.write(
    '\n!!! SKIPPED: python3-pypdf is not installed, so no sheet was filled by a program not ours. On Debian: apt-get install python3-pypdf\n\n'
  )
}

const earlier: Clock = { now: () => ({ at: '2026-03-01T08:00:00.000Z', elapsed: 0 }) }

function value<Value>(result: RecordsResult<Value>): Value {
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

function fill(blank: string, out: string, fields: Record<string, string | true>): void {
  execFileSync('/usr/bin/python3', [join(import.meta.dirname, 'fill-form.py'), blank, out], {
    input: JSON.stringify(fields)
  })
}

describe.runIf(installed)('a sheet that was filled in on a screen', () => {
  let folder: string
  let site: Site
  let pdf: string
  const held = process.env['LOCKWRIGHT_PASSPHRASE']
  const zone = process.env['TZ']

  beforeAll(async () => {
    process.env['TZ'] = 'UTC'
    process.env['LOCKWRIGHT_PASSPHRASE'] = 'a long passphrase'
    folder = mkdtempSync(join(tmpdir(), 'lockwright-sheet-'))
    const cost = 2 ** 15
    site = value(
      initSite({
        folder: join(folder, 'site'),
        name: 'Sandholm waterworks',
        passphrase: 'a long passphrase',
        clock: earlier,
        cost
      })
    )
    const root = value(unlockKey(site, 'site-root', 'a long passphrase'))
    for (const [id, name, is] of [
      ['mira', 'Mira Holt', ['coordinator', 'equipment-owner']],
      ['tor', 'Tor Lind', ['electrical-lv']]
    ] as const) {
      const qualifications = is.map((one) => ({ is: one, validFrom: '2026-01-01', validUntil: null }))
      value(addPerson({ site, id, name, qualifications, passphrase: 'a long passphrase', root, clock: earlier, cost }))
    }
    const key = value(unlockKey(site, 'mira', 'a long passphrase'))
    value(issue({ site, machine, signer: { person: 'mira' as PersonId, key }, clock: earlier }))
    pdf = join(folder, 'blank.pdf')
    expect(await print(procedure, { out: pdf, paper: 'a4', site: site.folder, by: 'mira' })).toBe(0)
  })

  afterAll(() => {
    rmSync(folder, { recursive: true, force: true })
    for (const [name, before] of [
      ['LOCKWRIGHT_PASSPHRASE', held],
      ['TZ', zone]
    ] as const) {
      if (before === undefined) delete process.env[name]
      else process.env[name] = before
    }
  })

  /** Another sheet, printed, with its serial number. */
  const another = async (
    chosen: readonly string[] = []
  ): Promise<{ readonly serial: string; readonly blank: string }> => {
    const blank = join(folder, `blank-${sheetsOf(site).sheets.length}.pdf`)
    const flags = { out: blank, paper: 'a4', site: site.folder, by: 'mira' } as const
    expect(await print(procedure, chosen.length === 0 ? flags : { ...flags, for: chosen })).toBe(0)
    return { serial: sheetsOf(site).sheets.at(-1)?.sheet.serial ?? '', blank }
  }
  const runOf = (serial: string) => listRuns(site).runs.find(({ sheet }) => sheet === serial)
  const stateOf = (serial: string) => sheetsOf(site).sheets.find(({ sheet }) => sheet.serial === serial)?.state
  const flags = { by: 'mira', workedBy: 'tor' }

  it('is entered whole, with its page, counts as come back, and passes the audit', async () => {
    const [sheet] = sheetsOf(site).sheets
    expect(sheet).toMatchObject({ state: { kind: 'out' }, sheet: { machine: digestOf(machine), by: 'mira' } })
    const serial = sheet?.sheet.serial ?? ''
    const filled = join(folder, 'filled.pdf')
    fill(pdf, filled, filledIn(null))
    const page = join(folder, 'page-1.jpg')
    writeFileSync(page, 'a photo')
    expect(await enter(procedure, filled, { ...flags, site: site.folder, sheet: serial, scan: page })).toBe(0)
    const run = runOf(serial)
    expect(run).toMatchObject({ status: 'finished', mode: 'issued', sheet: serial, onPaper: true })
    expect(stateOf(serial)?.kind).toBe('entered')
    const journal = readFileSync(run?.file ?? '', 'utf8')
    expect(journal).toContain('"typed":"0,4 V"')
    expect(journal).toContain('"typed":"931 V","value":931')
    expect(journal).toContain('The handle was stiff')
    expect(journal).toContain('"kind":"attachment","name":"page-1.jpg"')
    expect(existsSync(join(folder, 'filled.answers.yaml'))).toBe(true)
    const report = await audit({ store: folderStore(site), clock: systemClock, run: run?.run ?? '' })
    const [told] = report.runs
    const faults = told?.verdicts.flatMap(({ findings }) => findings.filter(({ weight }) => weight === 'fault')) ?? []
    expect(faults.map(({ id, what }) => `${id} ${what}`)).toEqual([])
    expect(value(leavesAfter(site, 0)).map(({ leaf }) => [leaf.sheet, leaf.locks])).toEqual([[serial, []]])
    // A second time it is refused.
    await expect(enter(procedure, filled, { ...flags, site: site.folder, sheet: serial })).rejects.toThrow(
      /was entered before/
    )
  })

  it('is entered as far as it is filled in, and gone on with', async () => {
    const { blank, serial } = await another()
    const half = join(folder, 'half.pdf')
    fill(blank, half, filledIn('lock-out.12'))
    expect(await enter(procedure, half, { ...flags, site: site.folder, sheet: serial })).toBe(0)
    const open = runOf(serial)
    expect(open?.status).toBe('running')
    expect(stateOf(serial)).toMatchObject({ kind: 'partly-entered', run: open?.run })
    const whole = join(folder, 'whole.pdf')
    fill(blank, whole, filledIn(null))
    await expect(enter(procedure, whole, { ...flags, site: site.folder, sheet: serial })).rejects.toThrow(
      /go on with that: --run/
    )
    expect(await enter(procedure, whole, { ...flags, site: site.folder, sheet: serial, run: open?.run ?? '' })).toBe(0)
    expect(runOf(serial)).toMatchObject({ run: open?.run, status: 'finished' })
    expect(stateOf(serial)?.kind).toBe('entered')
  })

  it('is entered where the way led to a stop', async () => {
    const { blank, serial } = await another()
    const way = Object.entries(filledIn('lock-out.1')).filter(([name]) => !name.startsWith('#notes'))
    const stop = {
      'window.1.choice': 'answer-2',
      'prepare.3.1.initials': 'TL',
      'prepare.3.1.time': '07:20',
      'prepare.3.1.left': 'As found'
    }
    const file = join(folder, 'stopped.pdf')
    fill(blank, file, { ...Object.fromEntries(way), ...stop })
    expect(await enter(procedure, file, { ...flags, site: site.folder, sheet: serial })).toBe(0)
    expect(runOf(serial)?.status).toBe('stopped')
    expect(stateOf(serial)?.kind).toBe('entered')
  })

  it('is refused with another text of the procedure than was printed', async () => {
    const text = readFileSync(procedure, 'utf8')
    const other = join(folder, 'other.md')
    writeFileSync(other, text.replace('let the pump run up.', 'let the pump run up slowly.'))
    await expect(enter(other, pdf, { ...flags, site: site.folder })).rejects.toThrow(/printed from another text/)
  })

  it('is refused without the day on which it was worked with', async () => {
    const { '#sheet.1.completed-date': _day, ...fields } = filledIn(null)
    const file = join(folder, 'dayless.pdf')
    fill((await another()).blank, file, fields)
    const runs = listRuns(site).runs.length
    await expect(enter(procedure, file, { ...flags, site: site.folder })).rejects.toThrow(/give it with --date/)
    expect(listRuns(site).runs.length).toBe(runs)
  })
})
