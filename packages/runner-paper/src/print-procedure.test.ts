import type { AxisId, AxisValueId } from '@lockwright/language'
import type { State, StateId } from '@lockwright/machine'
import { describe, expect, it } from 'vitest'
import { boosterPump } from './booster-pump.fixture.js'
import { made, text } from './made.fixture.js'
import type { PrintOptions } from './print-options.js'
import { printProcedure } from './print-procedure.js'

const draft: PrintOptions = { paper: 'a4', issue: { kind: 'draft' }, digest: 'ab12'.repeat(16) }

async function printed(options: PrintOptions, machine = boosterPump()): Promise<string> {
  return Buffer.from(await printProcedure(machine, options)).toString('latin1')
}

function pages(pdf: string): readonly string[] {
  return pdf.match(/\/Type \/Page\n[\s\S]*?endobj/g) ?? []
}

describe('printProcedure', () => {
  it('gives the same bytes for the same input', async () => {
    const first = await printProcedure(boosterPump(), draft)
    const second = await printProcedure(boosterPump(), draft)
    expect(Buffer.compare(first, second)).toBe(0)
  })

  it('gives a whole file on the paper that was asked for', async () => {
    const [a4, letter] = [await printed(draft), await printed({ ...draft, paper: 'letter' })]
    for (const pdf of [a4, letter]) {
      expect(pdf.startsWith('%PDF-1.7')).toBe(true)
      expect(pdf.trimEnd().endsWith('%%EOF')).toBe(true)
      expect(pages(pdf).length).toBeGreaterThan(4)
    }
    // ISO 216: 210 x 297 mm; ANSI/ASME Y14.1: 8.5 x 11 in; at 72 points an inch.
    for (const page of pages(a4))
      expect(page).toContain(`[0 0 ${((210 / 25.4) * 72).toFixed(2)} ${((297 / 25.4) * 72).toFixed(2)}]`)
    for (const page of pages(letter)) expect(page).toContain(`[0 0 ${8.5 * 72} ${11 * 72}]`)
  })

  it('is tagged, in the language of the procedure, with a title and bookmarks', async () => {
    const pdf = await printed(draft)
    expect(pdf).toContain('/Lang (en)')
    expect(pdf).toContain('/Marked true')
    expect(pdf).toContain('/DisplayDocTitle true')
    expect(pdf).toContain('(P-202: Replace the pre-charge module of booster pump 2)')
    expect(pdf).toMatch(/\/Outlines \d+ 0 R/)
    expect(pdf).toContain('/Title (6. Lock Q1, V1 and V2)')
    for (const type of ['H1', 'H2', 'H3', 'Table', 'TH', 'TD', 'L', 'LI', 'Lbl', 'LBody', 'Figure'])
      expect(pdf).toMatch(new RegExp(`/S /${type}\\n`))
  })

  it('takes its date from the options, never from the clock', async () => {
    const issue = { kind: 'issued', by: 'A. Coordinator', at: '2026-01-05T10:00:00Z' } as const
    expect(await printed({ ...draft, issue })).toContain('(D:20260105100000Z)')
    expect(await printed({ ...draft, issue, now: '2026-02-01T00:00:00Z' })).toContain('(D:20260201000000Z)')
    expect(await printed(draft)).toContain('(D:19700101000000Z)')
  })

  it('is shorter in steps for one generation', async () => {
    const all = await printed(draft)
    const one = await printed({ ...draft, for: { ['cabinet' as AxisId]: 'series-s' as AxisValueId } })
    expect(all).toContain('Work: slide the module out)')
    expect(one).not.toContain('Work: slide the module out)')
    expect(one).toContain('Work: undo the four bolts)')
  })

  it('breaks a long procedure over many pages and keeps every step', async () => {
    const count = 400
    const states: readonly State[] = [
      ...Array.from({ length: count }, (_, index) =>
        made(`s${index}`, {
          kind: index % 3 === 0 ? 'clear' : 'shutdown',
          title: `Step called ${index}`,
          section: 'prepare',
          body: text('Turn the handle and wait until it stops. '.repeat(index % 40)),
          exits: [{ on: 'done', to: index === count - 1 ? 'end' : `s${index + 1}` }]
        })
      ),
      made('end', { kind: 'finish', title: 'Return to service', section: 'prepare' })
    ]
    const pdf = await printed(draft, boosterPump({ states, start: 's0' as StateId }))
    expect(pages(pdf).length).toBeGreaterThan(40)
    for (let index = 0; index < count; index += 1) expect(pdf).toContain(`(${index + 1}. Step called ${index})`)
  })

  it('prints hostile text without harm', async () => {
    const states = [
      made('s', { kind: 'notify', title: `\u202E)>>endobj \u0000 \u{1F512} ${'x'.repeat(5000)}`, body: text('') })
    ]
    const pdf = await printed(draft, boosterPump({ states, start: 's' as StateId, title: '{{digest}} {{#if}}' }))
    expect(pdf.trimEnd().endsWith('%%EOF')).toBe(true)
  })
})
