import { energySheet } from '@lockwright/energy'
import { describe, expect, it } from 'vitest'
import { boosterPump } from './booster-pump.fixture.js'
import { printEnergySheet } from './print-energy-sheet.js'

const digest = 'ab12'.repeat(16)

async function printed(paper: 'a4' | 'letter' = 'a4'): Promise<Buffer> {
  const machine = boosterPump()
  return Buffer.from(await printEnergySheet(machine, energySheet(machine.sources), { paper, digest }))
}

describe('printEnergySheet', () => {
  it('gives a whole file, and the same bytes for the same input', async () => {
    const [first, second] = [await printed(), await printed()]
    expect(Buffer.compare(first, second)).toBe(0)
    expect(first.toString('latin1').trimEnd().endsWith('%%EOF')).toBe(true)
  })

  it('is tagged, with headings in the bookmarks and each curve a figure with an alternate text', async () => {
    const pdf = (await printed('letter')).toString('latin1')
    expect(pdf).toContain('/Marked true')
    expect(pdf).toContain('(P-202: Calculation sheet of stored energies)')
    expect(pdf).toContain('/Title (dc-link: charged capacitor)')
    // The QR code and one curve.
    expect(pdf.match(/\/S \/Figure\n/g)).toHaveLength(2)
    expect(pdf).toContain('/Alt (Curve: voltage of dc-link over time')
  })

  it('bears no DRAFT: it is no instruction', async () => {
    expect((await printed()).toString('latin1')).not.toContain('DRAFT')
  })
})
