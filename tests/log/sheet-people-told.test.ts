import { describe, expect, it } from 'vitest'
import { formFiller, forSheets, sheet } from './sheet-plant.js'

describe.runIf(formFiller)('the people and instruments that a filled sheet tells', () => {
  const plant = forSheets()

  it('puts the instruments on record, and what is to be said against them is told at once', async () => {
    const { blank, serial } = await plant().printed()
    const file = plant().filled(
      blank,
      sheet(null, { 'lock-out.12.1.instrument-tester': 'VT-7', 'lock-out.14.1.instrument-gauge': 'PG-9' })
    )
    const { code, told } = await plant().entered(file)
    expect(code).toBe(0)
    expect(plant().journalOf(serial)).toMatch(/"input":"reading-mains-L1-L2","instrument":"VT-7"/)
    expect(plant().journalOf(serial)).toMatch(/"input":"reading-water","instrument":"PG-9"/)
    expect(told).toMatch(/FAULT instrument-unknown: .*VT-7/)
    expect(told).toMatch(/FAULT instrument-not-calibrated: .*PG-9/)
  })

  it('tells at once who signed without being qualified for it', async () => {
    const { blank } = await plant().printed()
    const file = plant().filled(
      blank,
      sheet(null, { 'back-in-service.1.sign': 'Tor Lind', 'back-in-service.1.initials': 'TL' })
    )
    expect((await plant().entered(file)).told).toMatch(/FAULT not-qualified/)
  })

  it('has the locks of everybody under the lockout, and when they came off', async () => {
    const { blank, serial } = await plant().printed()
    const people = { '#people.1.1-name': 'Ida Berg', '#people.1.1-initials': 'IB' }
    const bare = plant().filled(blank, sheet('lock-out.5', { ...people, '#people.1.1-locks': '41, 42' }))
    await expect(plant().entered(bare)).rejects.toThrow(/does not say on which point.*Q1 41, Q2 42/)
    expect(plant().runOf(serial)).toBe('')
    const second = { ...people, '#people.1.1-locks': 'Q1 41, Q2 42, V1 43' }
    expect((await plant().entered(plant().filled(blank, sheet('lock-out.5', second)))).code).toBe(0)
    const run = plant().runOf(serial)
    expect(plant().journalOf(serial)).toMatch(/"by":"ida".*"kind":"joined","locks":\[.*"lock":"42","point":"Q2"/)
    const off = { ...second, '#people.1.1-off': '09:30', 'lock-out.15.1.initials': 'IB' }
    const whole = await plant().entered(plant().filled(blank, sheet(null, off)), { run })
    expect(whole.code).toBe(0)
    expect(plant().journalOf(serial)).toMatch(/"by":"ida"[^\n]*"kind":"left"/)
  })

  it('is refused where the name beside a lock is not that of whoever did the step', async () => {
    const { blank } = await plant().printed()
    const hung = sheet('lock-out.5', { 'lock-out.3.1.lock-Q1-by': 'Ida Berg' })
    await expect(plant().entered(plant().filled(blank, hung))).rejects.toThrow(/name `Ida Berg`.*done by `tor`/)
    const off = sheet(null, { 'hand-back.6.1.unlock-Q1-by': 'Ida Berg' })
    await expect(plant().entered(plant().filled(blank, off))).rejects.toThrow(/came off Q1.*`tor` hung it/)
    const first = sheet('lock-out.5', { '#devices.1.Q1-lock': '71' })
    await expect(plant().entered(plant().filled(blank, first))).rejects.toThrow(/number 17 at .*, and 71 in the list/)
    const own = sheet('lock-out.5', { 'lock-out.3.1.lock-Q1-by': 'Tor Lind', '#devices.1.Q1-lock': '17' })
    expect((await plant().entered(plant().filled(blank, own))).code).toBe(0)
  })

  it('goes the way of readings that stayed outside the limits', async () => {
    const { blank, serial } = await plant().printed()
    const outside = {
      'link.1.reading': '700',
      'link.2.reading': '0.71 kV',
      'link.3.reading': '720',
      'link.1.choice': 'outside'
    }
    expect((await plant().entered(plant().filled(blank, sheet('hand-back.12', outside)))).code).toBe(0)
    expect(plant().journalOf(serial)).toMatch(/"answer":"outside","boxes":\[\],"kind":"choice"/)
    expect(
      plant()
        .journalOf(serial)
        .match(/"input":"reading","kind":"reading"/g)
    ).toHaveLength(3)
  })
})
