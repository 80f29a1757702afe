import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { ProvedMachine } from '@lockwright/proof'
import { compileFile } from '../../packages/cli/src/compile-file.js'
import { root } from '../cli/transcript.js'

/** Every procedure of the library, by its file name, proved. */
export function libraryMachines(): ReadonlyMap<string, ProvedMachine> {
  const folder = join(root, 'procedures')
  const names = readdirSync(folder).filter((name) => name.endsWith('.md') && name !== 'README.md')
  return new Map(names.map((name) => [name, provedFile(join(folder, name))]))
}

export function provedFile(file: string): ProvedMachine {
  const compiled = compileFile(file, readFileSync(file))
  if (compiled.kind !== 'proved') throw new Error(`${file} is ${compiled.kind}`)
  return compiled.machine
}
