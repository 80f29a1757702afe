import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { buildSheet } from '@lockwright/runner-paper'
import { beforeAll, describe, expect, it } from 'vitest'
import { isHere, provedFile, root, sheetOf, told, withFile } from './paper-tools.js'

const files = ['procedures/booster-pump-precharge.md', 'procedures/baling-press-platen.md']
const programs = ['qpdf', 'pdfinfo', 'pdftotext', 'pdffonts'].every(isHere)

/** As pdftotext reads it: one blank between words, the marks of a cut title left off. */
function flat(text: string): string {
  return text.replace(/\s+/g, ' ')
}

describe.runIf(programs).each(files)('the sheet of %s, read by programs that are not ours', (file) => {
  const machine = provedFile(file)
  const steps = buildSheet(machine).steps
  let pdf: Uint8Array

  beforeAll(async () => {
    pdf = await sheetOf(machine, { serial: 'S-000017' })
  })

  it('is a sound file to qpdf', () => {
    expect(withFile(pdf, (path) => told('qpdf', '--check', path))).toContain(
      'No syntax or stream encoding errors found'
    )
  })

  it('is tagged, a form, and says which standard it is made to', () => {
    const info = withFile(pdf, (path) => told('pdfinfo', path))
    expect(info).toMatch(/Tagged:\s+yes/)
    expect(info).toMatch(/Form:\s+AcroForm/)
    expect(info).toMatch(/JavaScript:\s+no/)
    expect(info).toContain(`Title:           ${machine.equipment.tag}: ${machine.title}`)
    // ISO 14289-1, clause 5: the part in the metadata.
    expect(withFile(pdf, (path) => told('pdfinfo', '-meta', path))).toMatch(/<pdfuaid:part>1<\/pdfuaid:part>/)
  })

  it('embeds every font with its characters', () => {
    const lines = withFile(pdf, (path) => told('pdffonts', path))
      .trim()
      .split('\n')
      .slice(2)
    expect(lines.length).toBeGreaterThan(0)
    for (const line of lines) expect(line, line).toMatch(/\s+yes yes yes\s+/)
  })

  it('has headings in order, tables with their heads, lists, figures and fields in its structure', () => {
    const structure = withFile(pdf, (path) => told('pdfinfo', '-struct-text', path))
    for (const element of ['H1', 'H2', 'H3', 'Table', 'TH', 'TD', 'L', 'LI', 'LBody', 'Figure', 'Form', 'Link'])
      expect(structure, element).toMatch(new RegExp(`^\\s*${element}\\b`, 'm'))
    // ISO 14289-1, 7.4.2: no level is passed over on the way down.
    const levels = [...structure.matchAll(/^\s*H(\d)\b/gm)].map((match) => Number(match[1]))
    expect(levels[0]).toBe(1)
    levels.forEach((level, at) => {
      if (at > 0) expect(level, `heading ${at}`).toBeLessThanOrEqual((levels[at - 1] ?? 0) + 1)
    })
    // Read out in the order of the work, each step with its number.
    let from = 0
    for (const { number, state } of steps) {
      const at = flat(structure).indexOf(`${number} `, from)
      expect(at, `step ${number}, ${state.title}`).toBeGreaterThanOrEqual(from)
      from = at
    }
  })

  it('has every step in order in its text, each with where to go on', () => {
    // In the order of the file, which is the order in which it is read out.
    const text = flat(withFile(pdf, (path) => told('pdftotext', '-raw', path, '-')))
    // The map names them all first; the steps themselves begin where the first one bears its name for the record.
    let from = text.indexOf(steps[0]?.state.step ?? '')
    expect(from).toBeGreaterThan(0)
    for (const { state } of steps.slice(1)) {
      if (state.kind === 'branch' || state.kind === 'timer' || state.kind === 'back') continue
      const at = text.indexOf(state.step, from)
      expect(at, `step ${state.step}`).toBeGreaterThan(from)
      from = at
    }
  })

  it('bears digest, serial and page on every page, and DRAFT across each until it is issued', async () => {
    const pages = withFile(pdf, (path) => told('pdftotext', path, '-'))
      .split('\f')
      .slice(0, -1)
    pages.forEach((page, index) => {
      expect(page).toContain('sheet S-000017')
      expect(page).toContain(`Page ${index + 1} of ${pages.length}`)
      expect(page).toContain('DRAFT')
    })
    const issued = await sheetOf(machine, { issue: { kind: 'issued', by: 'A. Vega', at: '2027-03-01T10:00:00Z' } })
    const text = withFile(issued, (path) => told('pdftotext', path, '-'))
    expect(text).not.toContain('DRAFT')
    expect(text.split('Issued by A. Vega').length).toBe(pages.length + 2)
    expect(text).toContain('sheet without serial')
  })

  it('leads from each "go on" to a place that is there', () => {
    const json = withFile(pdf, (path) => told('qpdf', '--json', '--json-key=qpdf', path))
    const links = [...json.matchAll(/"\/Dest": "(?:u:)?(step-\d+)"/g)].map((match) => match[1] ?? '')
    const places = new Set([...json.matchAll(/"u:(step-\d+)",\s*\[/g)].map((match) => match[1]))
    expect(links.length).toBeGreaterThan(steps.length)
    for (const link of links) expect(places.has(link), link).toBe(true)
    expect(places.size).toBe(steps.length)
  })
})

describe.runIf(programs)('letters', () => {
  it('of Latin, Greek, Cyrillic and signs are shown, and what the fonts lack is told', async () => {
    const text = readFileSync(join(root, files[0] ?? ''), 'utf8')
    const wide = 'Ζεύξη Ω, Ключ Ж, Dźwignia Ł, ≤ ≥ ± µ ° ½ → ☐ ✓ ⚠'
    const machine = provedFile('procedure.md', text.replace(/^scope: .*$/m, `scope: "${wide} \u4E2D\u{1F512}"`))
    const read = flat(withFile(await sheetOf(machine), (path) => told('pdftotext', path, '-')))
    expect(read).toContain(wide)
    expect(read).toContain('U+4E2D, U+1F512')
  })
})

it('gives the same bytes for the same machine and options, pictures or none', async () => {
  const machine = provedFile(files[0] ?? '')
  const [one, other] = [await sheetOf(machine), await sheetOf(machine)]
  expect(Buffer.compare(one, other)).toBe(0)
  expect(Buffer.compare(one, await sheetOf(machine, { serial: 'S-1' }))).not.toBe(0)
})
