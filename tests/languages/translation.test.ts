import { execFileSync } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseReading } from '@lockwright/energy'
import { parseProcedure } from '@lockwright/language'
import { digestOf, skeletonOf } from '@lockwright/machine'
import { compile } from '@lockwright/machine/lower'
import { type ProvedMachine, prove } from '@lockwright/proof'
import { catalogFor, printProcedure, printSideBySide, sheetLanguages } from '@lockwright/runner-paper'
import { describe, expect, it } from 'vitest'

const library = fileURLToPath(new URL('../../procedures/', import.meta.url))
const translations = readdirSync(join(library, 'translations')).filter((name) => name.endsWith('.md'))

function read(file: string): { readonly machine: ProvedMachine; readonly translates: string | undefined } {
  const procedure = parseProcedure({ file, bytes: readFileSync(file) })
  const machine = procedure.ok ? compile(procedure.value) : procedure
  if (!procedure.ok || !machine.ok) throw new Error(`${file} is no procedure`)
  const verdict = prove(machine.value, { file })
  if (verdict.kind !== 'proved') throw new Error(`${file} is ${verdict.kind}`)
  return { machine: verdict.machine, translates: procedure.value.head.translates }
}

/** What poppler reads of a PDF that qpdf finds whole. */
function textOf(pdf: Uint8Array, args: readonly string[] = []): string {
  const folder = mkdtempSync(join(tmpdir(), 'lockwright-languages-'))
  try {
    const file = join(folder, 'a.pdf')
    writeFileSync(file, pdf)
    execFileSync('qpdf', ['--check', file], { stdio: 'pipe' })
    return execFileSync('pdftotext', [...args, file, '-'], { encoding: 'utf8' })
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

describe('the translations of the demo library', () => {
  it('are there', () => {
    expect(translations.length).toBeGreaterThan(0)
  })

  for (const name of translations) {
    it(`${name} is proved and has the skeleton of the file that it names`, () => {
      const file = join(library, 'translations', name)
      const { machine, translates = '' } = read(file)
      const { machine: original } = read(join(dirname(file), translates))
      expect(skeletonOf(machine)).toBe(skeletonOf(original))
      expect(digestOf(machine)).not.toBe(digestOf(original))
      expect(name).toContain(`.${machine.language}.md`)
    })
  }
})

describe('a sheet', () => {
  const { machine } = read(join(library, 'booster-pump-precharge.md'))
  const options = {
    paper: 'a4',
    issue: { kind: 'issued', by: 'Ann Berg', at: '2026-03-04T05:06:00Z' },
    digest: digestOf(machine)
  } as const

  it.each([
    ['de', 'GEFAHR', '4. März 2026, 05:06 UTC', 'höchstens 5,38 kJ', 'Seite 1 von'],
    ['es', 'PELIGRO', '4 de marzo de 2026, 05:06 UTC', 'como máximo 5,38 kJ', 'Página 1 de'],
    ['fr', 'AVERTISSEMENT', '4 mars 2026, 05:06 UTC', 'au plus 5,38 kJ', 'Page 1 sur'],
    ['en', 'DANGER', '2026-03-04 05:06 UTC', 'at most 5.38 kJ', 'Page 1 of']
  ] as const)('has its fixed wording, dates and numbers in %s', async (language, ...told) => {
    const text = textOf(await printProcedure(machine, { ...options, language })).replace(/[\s\u00A0]+/g, ' ')
    for (const part of told) expect(text).toContain(part)
  })

  it('prints no number that the runner would not take back, in any language', () => {
    for (const language of sheetLanguages) {
      const { number, decimal } = catalogFor(language, 'en')
      for (const value of [0.1, 880, 1480, 0.69, 12.5, 1234567.25]) {
        const parsed = parseReading(`${number(value)} V`, 'V', { decimal })
        expect(parsed, `${language} ${number(value)}`).toMatchObject({ ok: true, value })
      }
    }
  })

  it('with a translation beside it is whole, reads both and says which one counts', async () => {
    const { machine: translation } = read(join(library, 'translations/booster-pump-precharge.es.md'))
    const both = await printSideBySide(machine, translation, options)
    if (!both.ok) throw new Error(both.difference.what)
    const text = textOf(both.pdf).replace(/[\s\u00A0]+/g, ' ')
    for (const part of ['Lock Q1', 'Bloquear y etiquetar Q1', 'DANGER', 'PELIGRO', 'el que está en inglés'])
      expect(text).toContain(part)
  })
})

describe('a right-to-left language', () => {
  it('is read back by an outside program in its reading order, with numbers and units in theirs', async () => {
    const text = readFileSync(join(library, 'booster-pump-precharge.md'), 'utf8')
      .replace(
        '1. Press Stop on the door panel.\n2. Wait',
        '1. לחצו על עצירה (STOP) בלוח הדלת והמתינו 15 min.\n2. Wait'
      )
      .replace('Nobody near the coupling or inside the fence.', 'لا أحد قرب الوصلة، وأقل من 50 V.')
    const file = join(library, 'not-written.md')
    const procedure = parseProcedure({ file, bytes: new TextEncoder().encode(text) })
    const machine = procedure.ok ? compile(procedure.value) : procedure
    if (!machine.ok) throw new Error('the text is no procedure')
    const verdict = prove(machine.value, { file })
    if (verdict.kind !== 'proved') throw new Error(`the text is ${verdict.kind}`)
    const pdf = await printProcedure(verdict.machine, {
      paper: 'a4',
      issue: { kind: 'draft' },
      digest: digestOf(verdict.machine)
    })
    const seen = textOf(pdf).replace(/[\u202A-\u202E\u2066-\u2069\u200E\u200F]/g, '')
    for (const word of ['לחצו', 'עצירה', 'הדלת', 'أحد', 'قرب', 'الوصلة']) expect(seen.normalize('NFKC')).toContain(word)
    expect(seen).not.toContain('\uFFFD')
  })
})
