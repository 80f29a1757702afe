import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { lockwright, root } from './transcript.js'

const boosterPump = join(root, 'procedures/booster-pump-precharge.md')

interface Entry {
  readonly id: string
  readonly energy: { readonly kind: string; readonly calculation?: { readonly worst: number; readonly source: string } }
  readonly wait: { readonly seconds: number; readonly because: string }
}

let cwd: string

beforeEach(() => {
  cwd = mkdtempSync(join(tmpdir(), 'lockwright-energy-'))
})

afterEach(() => rmSync(cwd, { recursive: true, force: true }))

function entriesOf(...args: readonly string[]): readonly Entry[] {
  const { code, said } = lockwright(['energy', boosterPump, '--format', 'json', ...args], { cwd })
  expect(code).toBe(0)
  return (JSON.parse(said) as { readonly entries: readonly Entry[] }).entries
}

describe('energy --format json', () => {
  it('gives each source of the procedure with its energy and its wait', () => {
    const entries = entriesOf()
    expect(entries.map(({ id }) => id)).toEqual(['mains', 'control', 'dc-link', 'rotor', 'water'])
    const link = entries[2]
    // ½ · 11.28 mF · (976.5 V)²: the worst ends of 9.4 mF ± 20 % and 930 V ± 5 %.
    expect(link?.energy.calculation?.worst).toBeCloseTo(0.5 * 11.28e-3 * 976.5 ** 2, 6)
    expect(link?.wait).toMatchObject({ seconds: 900, because: 'label' })
    expect(entries[4]?.energy.kind).toBe('not-computable')
  })

  it('takes a what-if in place of what is declared', () => {
    const link = entriesOf('--what-if', 'dc-link.voltage=750 V', '--what-if', 'label-wait=1 min')[2]
    expect(link?.energy.calculation?.worst).toBeCloseTo(0.5 * 11.28e-3 * 750 ** 2, 6)
    expect(link?.wait.because).toBe('computed')
  })
})

describe('energy --svg and --format pdf', () => {
  it('write a picture for each energy that falls, and a PDF with the same curves', () => {
    const args = ['energy', boosterPump, '--format', 'pdf', '--out', 'sheet.pdf', '--svg', 'curves']
    expect(lockwright(args, { cwd }).code).toBe(0)
    expect(readdirSync(join(cwd, 'curves')).sort()).toEqual(['dc-link.svg', 'rotor.svg'])
    const svg = readFileSync(join(cwd, 'curves/dc-link.svg'), 'utf8')
    expect(svg).toContain('<title>dc-link: voltage over time</title>')
    expect(svg).toContain('>label</text>')
    const pdf = readFileSync(join(cwd, 'sheet.pdf'), 'latin1')
    expect(pdf.startsWith('%PDF-1.7')).toBe(true)
    expect(pdf.match(/\/Alt \(Curve: /g)).toHaveLength(2)
  })
})
