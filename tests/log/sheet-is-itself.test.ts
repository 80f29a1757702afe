import { readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { sheetsOf } from '@lockwright/records'
import { describe, expect, it } from 'vitest'
import { formFiller, forSheets, sheet } from './sheet-plant.js'

describe.runIf(formFiller)('what a filled sheet tells', () => {
  const plant = forSheets()

  it('is entered as the sheet that it is, under no other serial number', async () => {
    const [one, other] = [await plant().printed(), await plant().printed()]
    const file = plant().filled(one.blank, sheet('lock-out.3'))
    await expect(plant().entered(file, { sheet: other.serial })).rejects.toThrow(
      new RegExp(`is that of sheet ${one.serial}, and --sheet says ${other.serial}`)
    )
    expect((await plant().entered(file)).code).toBe(0)
    // What was read out of the form is written anew, unless somebody corrected it.
    const answers = file.replace('.pdf', '.answers.yaml')
    const run = plant().runOf(one.serial)
    writeFileSync(answers, readFileSync(answers, 'utf8').replace('"by":"tor"', '"by":"ida"'))
    await expect(plant().entered(file, { run })).rejects.toThrow(/was corrected by hand, and holds other answers/)
    rmSync(answers)
    expect((await plant().entered(file, { run, timeZone: '+02:00' })).code).toBe(1)
    expect((await plant().entered(file, { run })).code).toBe(0)
    const stateOf = (serial: string) =>
      sheetsOf(plant().site).sheets.find(({ sheet: { serial: own } }) => own === serial)?.state.kind
    expect([stateOf(one.serial), stateOf(other.serial)]).toEqual(['partly-entered', 'out'])
  })

  it('is that of one generation where it was printed for one, with the numbers of its steps', async () => {
    const { blank, serial } = await plant().printed(['cabinet=series-t'])
    const skipped = ['change-the-module.2', 'change-the-module.3']
    const own = Object.fromEntries(
      Object.entries(sheet(null, { '#notes.1.1-step': '21' })).filter(
        ([name]) => !skipped.some((id) => name.startsWith(`${id}.`))
      )
    )
    const { 'prepare.1.1.choice': _, ...unchosen } = own
    const file = plant().filled(blank, unchosen)
    expect((await plant().entered(file)).code).toBe(0)
    expect(plant().journalOf(serial)).toMatch(
      /"kind":"note","text":"The handle was stiff"[^\n]*"state":"change-the-module.4"/
    )
    const typed = await plant().printed(['cabinet=series-s'])
    const answers = join(plant().folder, 'other-generation.yaml')
    writeFileSync(
      answers,
      'clock: { start: 2026-03-04T07:00:00Z }\nanswers:\n  - { at: prepare.gather, by: tor, ticks: all }\n  - { step: 2, choose: series-t }\n'
    )
    await expect(plant().entered(answers, { sheet: typed.serial })).rejects.toThrow(/printed for `series-s` alone/)
  })

  it('is compared with what stands on record when it is given again', async () => {
    const { blank, serial } = await plant().printed()
    expect((await plant().entered(plant().filled(blank, sheet('hand-back.1')))).code).toBe(0)
    const run = plant().runOf(serial)
    const before = plant().journalOf(serial)
    for (const [change, told] of [
      [{ 'lock-out.14.1.reading-water': '0.1' }, /The record has `reading, 0 bar.*says `reading, 0.1 bar/s],
      [{ 'lock-out.3.1.lock-Q1': '71' }, /The record has `lock hung, Q1, 17, by tor.*says `lock hung, Q1, 71/s],
      [{ 'lock-out.14.1.initials': 'IB' }, /by tor, at.*by ida, at/s],
      [{ 'window.1.time': '07:12' }, /07:10:00Z.*07:12:00Z/s]
    ] as const) {
      const again = await plant().entered(plant().filled(blank, sheet('hand-back.2', change)), { run })
      expect(again.code).toBe(1)
      expect(again.told.replaceAll(/\s+/g, ' ')).toMatch(told)
      expect(plant().journalOf(serial)).toBe(before)
    }
    // A note that is new is no difference, and a sheet that says less than the record is one.
    const fewer = await plant().entered(plant().filled(blank, sheet('lock-out.3')), { run })
    expect(fewer.told).toContain('the sheet does not say so here')
    const noted = { '#notes.1.2-step': '8', '#notes.1.2-what': 'V1 drips' }
    expect((await plant().entered(plant().filled(blank, sheet(null, noted)), { run })).code).toBe(0)
    expect(plant().journalOf(serial)).toContain('V1 drips')
    expect(plant().journalOf(serial).startsWith(before)).toBe(true)
  })
})
