import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseProcedure } from '@lockwright/language'
import { digestOf } from '@lockwright/machine'
import { compile } from '@lockwright/machine/lower'
import { type ProvedMachine, prove } from '@lockwright/proof'
import type { HangingOptions, Hung } from '@lockwright/runner-paper'
import jsQR from 'jsqr'
import { PNG } from 'pngjs'

/** A procedure of the demo library, or a text in its place, proved. */
export function provedFile(name: string, change: (text: string) => string = (text) => text): ProvedMachine {
  const file = fileURLToPath(new URL(`../../procedures/${name}`, import.meta.url))
  const bytes = new TextEncoder().encode(change(readFileSync(file, 'utf8')))
  const procedure = parseProcedure({ file, bytes })
  const machine = procedure.ok ? compile(procedure.value) : procedure
  if (!machine.ok) throw new Error(machine.diagnostics.map(({ what }) => what).join('\n'))
  const verdict = prove(machine.value, { file })
  if (verdict.kind !== 'proved') throw new Error(`${name} is ${verdict.kind}`)
  return verdict.machine
}

export function optionsFor(machine: ProvedMachine): HangingOptions {
  return {
    issue: { kind: 'issued', by: 'Ann Berg', at: '2026-03-04T05:06:00Z' },
    digest: digestOf(machine),
    now: '2026-03-05T05:06:00Z'
  }
}

export function pdfOf(hung: Hung): Uint8Array {
  if (!hung.ok) throw new Error(hung.faults.join('\n'))
  return hung.pdf
}

/** The package is CommonJS: what its types call the default is the function itself. */
const decode = jsQR as unknown as (data: Uint8ClampedArray, width: number, height: number) => { data: string } | null

/** Enough for a phone's camera at arm's length. */
const dpi = 200

export type Box = readonly [left: number, top: number, width: number, height: number]

/** What outside programs make of a PDF: qpdf's verdict, poppler's pages, text and pixels. */
export interface Outside {
  readonly pages: number
  readonly size: string
  readonly text: string
  /** What the QR code in each box of a page holds: left, top, width and height in points; null where none is read. */
  readonly codes: (page: number, boxes: readonly Box[]) => readonly (string | null)[]
  readonly close: () => void
}

export function outside(pdf: Uint8Array): Outside {
  const folder = mkdtempSync(join(tmpdir(), 'lockwright-placard-'))
  const file = join(folder, 'a.pdf')
  writeFileSync(file, pdf)
  // Throws where the file is damaged.
  execFileSync('qpdf', ['--check', file], { stdio: 'pipe' })
  const info = execFileSync('pdfinfo', [file], { encoding: 'utf8' })
  return {
    pages: Number(/^Pages:\s+(\d+)/m.exec(info)?.[1]),
    size: /^Page size:\s+(.*)$/m.exec(info)?.[1] ?? '',
    text: execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' }),
    codes: (page, boxes) =>
      boxes.map((box, index) => {
        const stem = join(folder, `page-${page}-${index}`)
        const [left, top, width, height] = box.map((points) => String(Math.round((points * dpi) / 72)))
        const place = ['-x', left, '-y', top, '-W', width, '-H', height].map(String)
        const which = ['-f', String(page), '-l', String(page)]
        execFileSync('pdftoppm', ['-r', String(dpi), '-gray', '-png', '-singlefile', ...which, ...place, file, stem])
        const { data, width: wide, height: high } = PNG.sync.read(readFileSync(`${stem}.png`))
        return decode(new Uint8ClampedArray(data), wide, high)?.data ?? null
      }),
    close: () => rmSync(folder, { recursive: true, force: true })
  }
}
