import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { sheetsOf } from '@lockwright/records'
import { describe, expect, it } from 'vitest'
import { formFiller, forSheets, sheet } from './sheet-plant.js'

describe.runIf(formFiller)('the times that a filled sheet tells', () => {
  const plant = forSheets()

  it('is refused at a wait whose written times are shorter than it has to be', async () => {
    const { blank, serial } = await plant().printed()
    // The wait of 15 min began at 07:45.
    for (const change of [{ 'lock-out.7.1.time': '07:47' }, { 'lock-out.7.1.wait-dc-link-ends': '07:59' }]) {
      const file = plant().filled(blank, sheet('lock-out.8', change))
      const run = plant().runOf(serial)
      const { code, told } = await plant().entered(file, run === '' ? {} : { run })
      expect(code).toBe(1)
      expect(told.replaceAll(/\s+/g, ' ')).toMatch(
        /has to be 15 min. It began at 2026-03-04T07:45:00Z and was written as over at 2026-03-04T07:(47:00Z: 2|59:00Z: 14) min/
      )
      expect(plant().journalOf(serial)).not.toContain('wait-')
    }
  })

  it('is entered with the times at which a wait was written to have begun and ended', async () => {
    const { blank, serial } = await plant().printed()
    expect((await plant().entered(plant().filled(blank, sheet('lock-out.8')))).code).toBe(0)
    expect(plant().journalOf(serial)).toMatch(/"at":"2026-03-04T08:05:00.000Z".*"kind":"done","state":"lock-out.7"/)
  })

  it('is refused where a wait of which nobody wrote the beginning has no room', async () => {
    const { blank } = await plant().printed()
    const file = plant().filled(
      blank,
      sheet('lock-out.8', { 'lock-out.7.1.time': '07:50', 'lock-out.7.1.wait-dc-link-started': null })
    )
    await expect(plant().entered(file)).rejects.toThrow(/step 11 on the sheet.* wait of 15 min.* lie 10 min/)
  })

  it('is never entered for a time that is still to come', async () => {
    const { blank, serial } = await plant().printed()
    const late = sheet('lock-out.8', { '#sheet.1.completed-date': null })
    await expect(plant().entered(plant().filled(blank, late), { date: '2999-01-01' })).rejects.toThrow(/still to come/)
    expect(plant().runOf(serial)).toBe('')
    const day = '2026-03-04T07:00:00Z'
    const answers = join(plant().folder, 'late.yaml')
    writeFileSync(
      answers,
      `clock: { start: ${day} }\nanswers:\n  - { at: prepare.gather, by: tor, ticks: all }\n  - { at: prepare.1, time: 2999-01-01T00:00:00Z, choose: series-t }\n`
    )
    const { code, told } = await plant().entered(answers, { sheet: serial })
    expect(code).toBe(1)
    expect(told).toContain('This would be recorded for 2999-01-01T00:00:00Z')
    expect(plant().journalOf(serial)).not.toContain('2999')
  })

  it('gives the locks to whoever hung them when it is entered in parts, never to the clerk', async () => {
    const { blank, serial } = await plant().printed()
    expect((await plant().entered(plant().filled(blank, sheet('window')))).code).toBe(0)
    const run = plant().runOf(serial)
    expect((await plant().entered(plant().filled(blank, sheet('lock-out.5')), { run })).code).toBe(0)
    const owners = [
      ...plant()
        .journalOf(serial)
        .matchAll(/"by":"(\w+)"[^\n]*"kind":"lock-hung"/g)
    ].map(([, by]) => by)
    expect(new Set(owners)).toEqual(new Set(['tor']))
    expect((await plant().entered(plant().filled(blank, sheet(null)), { run })).code).toBe(0)
    expect(sheetsOf(plant().site).sheets.find((one) => one.sheet.serial === serial)?.state.kind).toBe('entered')
  })

  it('counts its times by the clock that it was printed for, whatever that of the clerk is', async () => {
    process.env['TZ'] = 'Etc/GMT-1'
    const { blank, serial } = await plant().printed()
    process.env['TZ'] = 'UTC'
    const file = plant().filled(blank, sheet('window'))
    expect((await plant().entered(file)).code).toBe(0)
    expect(plant().journalOf(serial)).toContain('"at":"2026-03-04T06:05:00.000Z"')
    const run = plant().runOf(serial)
    const other = await plant().entered(file, { run, timeZone: '-03:00' })
    expect([other.code, other.told.includes('2026-03-04T10:00:')]).toEqual([1, true])
    await expect(plant().entered(file, { run, timeZone: 'CET' })).rejects.toThrow(/`CET` is no offset/)
  })

  it('belongs to the day on its first page, and is refused where --date or its end says another', async () => {
    const { blank, serial } = await plant().printed()
    const on = (day: string, completed: string | null) =>
      plant().filled(blank, sheet('window', { '#sheet.1.began-date': day, '#sheet.1.completed-date': completed }))
    await expect(plant().entered(on('2026-03-04', null), { date: '2026-03-05' })).rejects.toThrow(
      /--date says that the work began on 2026-03-05, and the form says on its first page that it began on 2026-03-04/
    )
    await expect(plant().entered(on('2026-03-04', '2026-03-02'))).rejects.toThrow(
      /`Sheet completed` that it was done on 2026-03-02/
    )
    await expect(plant().entered(on('4 March', null))).rejects.toThrow(/`4 March`, on the first page, is no day/)
    expect(plant().runOf(serial)).toBe('')
    expect((await plant().entered(on('2026-03-03', '2026-03-04'))).code).toBe(0)
    expect(plant().journalOf(serial)).toContain('"at":"2026-03-03T07:05:00.000Z"')
  })
})
