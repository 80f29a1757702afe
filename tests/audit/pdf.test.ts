import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type AuditReport, chartsOf } from '@lockwright/records'
import { printAudit } from '@lockwright/runner-paper'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { inEventfulSite } from './eventful-site.js'

/** Poppler and qpdf from Debian; `.ci/run` installs them. */
const run = (program: string, ...args: readonly string[]): string => {
  const { stdout, status, stderr } = spawnSync(program, args, { encoding: 'utf8', maxBuffer: 64 * 1024 * 1024 })
  if (status !== 0) throw new Error(`${program}: ${stderr}`)
  return stdout
}

const folder = mkdtempSync(join(tmpdir(), 'lockwright-audit-pdf-'))
const file = join(folder, 'audit.pdf')
let report: AuditReport

beforeAll(async () => {
  await inEventfulSite(async ({ audited }) => {
    report = await audited()
  })
  writeFileSync(file, await printAudit(report, { paper: 'a4' }))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

describe('the report as a PDF', () => {
  it('is sound for qpdf, and the same bytes each time', async () => {
    expect(run('qpdf', '--check', file)).toContain('No syntax or stream encoding errors found')
    expect(
      Buffer.from(await printAudit(report, { paper: 'a4' })).equals(await printAudit(report, { paper: 'a4' }))
    ).toBe(true)
  })

  it('tells every run, every finding with what to do, and the caution', () => {
    const text = run('pdftotext', '-raw', file, '-').replaceAll(/\s+/g, ' ')
    const close = text.replaceAll(' ', '')
    for (const one of report.runs) expect(text).toContain(one.run)
    const findings = [...report.general, ...report.runs.flatMap(({ verdicts }) => verdicts)].flatMap(
      (one) => one.findings
    )
    for (const { id, what, mend } of findings) {
      for (const part of [id, what, mend]) expect(close).toContain(part.replaceAll(/[`\s]/g, ''))
    }
    expect(text).toContain('It does not say that the work was safe.')
    expect(text).toContain('What could not be answered')
  })

  it('is tagged: headings, tables with heads, and a figure with its description for each chart', () => {
    expect(run('pdfinfo', file)).toMatch(/Tagged:\s+yes/)
    const tags = run('pdfinfo', '-struct-text', file)
    const figures = chartsOf(report)
    expect(figures.map(({ id }) => id)).toEqual(['months', 'waits', 'locks'])
    expect(tags.split(/^\s*Figure/m).length - 1).toBe(figures.length)
    for (const kind of ['H1', 'H2', 'H3', 'Table', 'TH', 'TD']) expect(tags).toMatch(new RegExp(`^\\s*${kind}`, 'm'))
    const raw = run('qpdf', '--qdf', '--object-streams=disable', file, '-')
    expect(raw.match(/\/Alt /g)?.length).toBe(figures.length)
  })

  it('fits on Letter as well', async () => {
    const letter = join(folder, 'letter.pdf')
    writeFileSync(letter, await printAudit(report, { paper: 'letter' }))
    expect(run('pdfinfo', letter)).toMatch(/Page size:\s+612 x 792/)
  })
})
