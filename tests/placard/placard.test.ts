import { type PlacardPaper, printPlacard } from '@lockwright/runner-paper'
import { describe, expect, it } from 'vitest'
import { optionsFor, outside, pdfOf, provedFile } from './printed.js'

const pump = provedFile('booster-pump-precharge.md')
const press = provedFile('baling-press-platen.md')

/** ISO 216 and ANSI/ASME Y14.1. */
const sizes: Readonly<Record<PlacardPaper, string>> = {
  a4: '595.28 x 841.89 pts (A4)',
  letter: '612 x 792 pts (letter)',
  a3: '841.89 x 1190.55 pts (A3)'
}

describe('the placard', () => {
  for (const machine of [pump, press]) {
    for (const paper of ['a4', 'letter', 'a3'] as const) {
      it(`is one page of ${paper} with every source, device and restraint of ${machine.procedure}`, async () => {
        const hung = await printPlacard(machine, { ...optionsFor(machine), paper })
        const seen = outside(pdfOf(hung))
        try {
          expect(seen.pages).toBe(1)
          expect(seen.size).toBe(sizes[paper])
          for (const { id } of [...machine.sources, ...machine.points, ...machine.restraints])
            expect(seen.text).toMatch(new RegExp(`(^|\\s)${id}\\b`, 'm'))
          for (const { where } of machine.points) expect(flat(seen.text)).toContain(flat(where).slice(0, 14))
          expect(flat(seen.text)).toContain('Locked out is not proven dead')
          expect(seen.text).toContain('Who to call')
          expect(seen.text).toContain(optionsFor(machine).digest.slice(0, 12))
          const [width = 0] = sizes[paper].split(' ').map(Number)
          expect(seen.codes(1, [[width * 0.6, 0, width * 0.4, width * 0.3]])).toEqual([
            `LOCKWRIGHT/1 ${machine.procedure} r${machine.revision} sha256:${optionsFor(machine).digest}`
          ])
          // What was left out is told on the page as well as to whoever printed it.
          if (hung.ok) for (const remark of hung.remarks) expect(flat(seen.text)).toContain(flat(remark))
        } finally {
          seen.close()
        }
      })
    }
  }

  it('has the order of the steps, numbered as on the checklist, where there is room', async () => {
    const seen = outside(pdfOf(await printPlacard(pump, { ...optionsFor(pump), paper: 'a4' })))
    seen.close()
    for (const line of ['7 Lock Q1', '11 Let the energy out of dc-link', '16 Prove mains, control and dc-link dead'])
      expect(flat(seen.text)).toContain(line)
  })

  it('leaves out scope and order before it becomes illegible, and never a source', async () => {
    const long = 'behind the third panel from the left in the low gallery under the stairs of the old pump house'
    const crowded = provedFile('booster-pump-precharge.md', (text) =>
      text.replace('where: left door of the cabinet', `where: ${Array(6).fill(long).join(' and ')}`)
    )
    const hung = await printPlacard(crowded, { ...optionsFor(crowded), paper: 'letter' })
    expect(hung.ok && hung.remarks.join()).toContain('scope')
    const seen = outside(pdfOf(hung))
    seen.close()
    expect(seen.pages).toBe(1)
    for (const { id } of crowded.sources) expect(seen.text).toMatch(new RegExp(`^\\s*${id}:`, 'm'))
  })

  it('is refused rather than printed without a source', async () => {
    const long = 'behind the third panel from the left in the low gallery under the stairs of the old pump house'
    const full = provedFile('booster-pump-precharge.md', (text) =>
      text.replace('where: left door of the cabinet', `where: ${Array(90).fill(long).join(' and ')}`)
    )
    const hung = await printPlacard(full, { ...optionsFor(full), paper: 'a4' })
    expect(hung).toMatchObject({ ok: false, faults: [expect.stringContaining('take --paper a3')] })
  })

  it('is marked where nobody issued it, and gives the same bytes for the same input', async () => {
    const draft = { ...optionsFor(pump), issue: { kind: 'draft' }, paper: 'a4' } as const
    const [one, other] = [await printPlacard(pump, draft), await printPlacard(pump, draft)]
    expect(Buffer.compare(pdfOf(one), pdfOf(other))).toBe(0)
    const seen = outside(pdfOf(one))
    seen.close()
    expect(seen.text).toContain('DRAFT, not issued for use')
  })
})

function flat(text: string): string {
  return text.replace(/[\s\u00A0]+/g, ' ')
}
