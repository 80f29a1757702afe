import { parseProcedure } from '@lockwright/language'
import type { Machine } from '@lockwright/machine'
import { compile } from '@lockwright/machine/lower'
import { prove, type Verdict } from '@lockwright/proof'

/** The whole pipeline over a text that is expected to be well formed; a fault in it fails the test with its words. */
export function machineOf(text: string, file = 'procedure.md'): Machine {
  const procedure = parseProcedure({ file, text })
  if (!procedure.ok) throw new Error(tell(procedure.diagnostics))
  const machine = compile(procedure.value)
  if (!machine.ok) throw new Error(tell(machine.diagnostics))
  return machine.value
}

export function verdictOf(text: string, file = 'procedure.md'): Verdict {
  return prove(machineOf(text, file), { file })
}

/** `id:line` of each diagnostic, in the order in which they are told. */
export function findingsOf(verdict: Verdict): readonly string[] {
  if (verdict.kind === 'proved') return []
  return verdict.diagnostics.map(({ id, place }) => `${id}:${place.start.line}`)
}

function tell(
  diagnostics: readonly {
    readonly id: string
    readonly what: string
    readonly place: { readonly start: { readonly line: number } }
  }[]
): string {
  return diagnostics.map(({ id, what, place }) => `${place.start.line}: ${id}: ${what}`).join('\n')
}
