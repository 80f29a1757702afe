import { execFileSync, spawnSync } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { digestOf } from '@lockwright/machine'
import type { ProvedMachine } from '@lockwright/proof'
import { type PrintOptions, printProcedure } from '@lockwright/runner-paper'
import { PNG } from 'pngjs'
import { compileFile } from '../../packages/cli/src/compile-file.js'

export const root = join(dirname(fileURLToPath(import.meta.url)), '../..')

/** The proved machine of a file of the demo library, or of any other path below the repository. */
export function provedFile(file: string, text?: string): ProvedMachine {
  const compiled = compileFile(file, text === undefined ? readFileSync(join(root, file)) : Buffer.from(text))
  if (compiled.kind !== 'proved')
    throw new Error(
      `${file} is ${compiled.kind}: ${compiled.diagnostics.map(({ id, what }) => `${id}: ${what}`).join('; ')}`
    )
  return compiled.machine
}

/** A sheet as the command prints it, on a fixed day. */
export async function sheetOf(machine: ProvedMachine, options: Partial<PrintOptions> = {}): Promise<Uint8Array> {
  return printProcedure(machine, {
    paper: 'a4',
    issue: { kind: 'draft' },
    digest: digestOf(machine),
    now: '2027-03-02T07:00:00Z',
    ...options
  })
}

/** Does something with a PDF as a file in a folder of its own, which is gone afterwards. */
export function withFile<Value>(pdf: Uint8Array, act: (file: string, folder: string) => Value): Value {
  const folder = mkdtempSync(join(tmpdir(), 'lockwright-paper-'))
  try {
    const file = join(folder, 'sheet.pdf')
    writeFileSync(file, pdf)
    return act(file, folder)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** What a program prints; one that is not here, or that fails, fails the test. */
export function told(program: string, ...args: readonly string[]): string {
  return execFileSync(program, args, { encoding: 'utf8', maxBuffer: 1 << 28, stdio: ['ignore', 'pipe', 'pipe'] })
}

/** Whether Debian's program is here; `.ci/run` installs each that these tests name. */
export function isHere(program: string): boolean {
  return spawnSync(program, ['-v'], { stdio: 'ignore' }).error === undefined
}

/** The pages as poppler sets them, in grey unless asked otherwise; `only`: one page alone. */
export function pictures(
  pdf: Uint8Array,
  resolution: number,
  { only, color = false }: { readonly only?: number; readonly color?: boolean } = {}
): readonly PNG[] {
  return withFile(pdf, (file, folder) => {
    const pages = only === undefined ? [] : ['-f', String(only), '-l', String(only)]
    told(
      'pdftoppm',
      '-r',
      String(resolution),
      '-png',
      ...(color ? [] : ['-gray']),
      ...pages,
      file,
      join(folder, 'page')
    )
    return readdirSync(folder)
      .filter((name) => name.endsWith('.png'))
      .sort()
      .map((name) => PNG.sync.read(readFileSync(join(folder, name))))
  })
}
