import { join } from 'node:path'
import { beforeAll, describe, expect, it } from 'vitest'
import { isHere, provedFile, root, sheetOf, told, withFile } from './paper-tools.js'

const { longProcedure } = (await import(join(root, 'tests/bench/paper-procedure.mjs'))) as {
  longProcedure: (steps: number) => string
}
const steps = 240

describe.runIf(isHere('pdftotext') && isHere('qpdf'))('a sheet of more than sixty pages', () => {
  let pages: readonly string[]

  beforeAll(async () => {
    const pdf = await sheetOf(provedFile('long.md', longProcedure(steps)))
    expect(withFile(pdf, (file) => told('qpdf', '--check', file))).toContain('No syntax')
    pages = withFile(pdf, (file) => told('pdftotext', '-raw', file, '-'))
      .split('\f')
      .slice(0, -1)
  })

  it('has every step, with its notice on the same page', () => {
    expect(pages.length).toBeGreaterThanOrEqual(60)
    for (let step = 1; step <= steps; step += 1) {
      const notice = pages.findIndex((page) => page.includes(`Part ${step}\n`))
      const work = pages.findIndex((page) => page.includes(`☐ Undo the screws of cover ${step} and`))
      expect(notice, `step ${step}`).toBeGreaterThan(0)
      expect(work, `step ${step}`).toBe(notice)
    }
  })

  it('ends no page with a heading, and leaves none nearly empty before the last sections', () => {
    pages.forEach((page, index) => {
      // The footer comes with the frame of the page, before what stands on it.
      const lines = page.trim().split('\n')
      expect(lines.at(-1), `page ${index + 1}`).not.toMatch(/^Row \d+$|^(Prepare|Lock out|Clean|Hand back)$/)
    })
    const work = pages.filter((page) => page.includes('☐ Undo the screws'))
    for (const page of work.slice(0, -1)) expect(page.match(/Put the cover back/g)?.length).toBeGreaterThanOrEqual(3)
  })
})
