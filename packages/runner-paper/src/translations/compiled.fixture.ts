import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { parseProcedure } from '@lockwright/language'
import { compile } from '@lockwright/machine/lower'
import { type ProofReport, type ProvedMachine, prove } from '@lockwright/proof'

const library = new URL('../../../../procedures/', import.meta.url)

/** A procedure of the demo library as it is written. */
export function written(name: string): string {
  return readFileSync(fileURLToPath(new URL(name, library)), 'utf8')
}

/** A text, proved; a test whose text is not proved fails here. */
export function proved(text: string): { readonly machine: ProvedMachine; readonly report: ProofReport } {
  const procedure = parseProcedure({ file: 'test.md', bytes: new TextEncoder().encode(text) })
  if (!procedure.ok) throw new Error(procedure.diagnostics.map(({ what }) => what).join('\n'))
  const machine = compile(procedure.value)
  if (!machine.ok) throw new Error(machine.diagnostics.map(({ what }) => what).join('\n'))
  const verdict = prove(machine.value, { file: 'test.md' })
  if (verdict.kind !== 'proved') throw new Error(`the text is ${verdict.kind}`)
  return { machine: verdict.machine, report: verdict.report }
}
