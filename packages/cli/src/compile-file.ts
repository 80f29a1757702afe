import { type Diagnostic, type NonEmpty, type Procedure, parseProcedure, type Result } from '@lockwright/language'
import type { Machine } from '@lockwright/machine'
import { compile } from '@lockwright/machine/lower'
import { energyAdvice, type ProofReport, type ProvedMachine, prove, remedyAdvice } from '@lockwright/proof'

/** How far a file came. Only `proved` holds a machine that a runner takes. */
export type Compiled =
  /** It is not a procedure: every fault of the text at once. */
  | { readonly kind: 'malformed'; readonly diagnostics: NonEmpty<Diagnostic> }
  /** It is a procedure, and at least one obligation is not kept. */
  | {
      readonly kind: 'refused'
      readonly machine: Machine
      readonly diagnostics: readonly Diagnostic[]
      readonly report: ProofReport
    }
  /** A limit was reached: nothing is proven. */
  | {
      readonly kind: 'undecided'
      readonly machine: Machine
      readonly reason: string
      readonly diagnostics: readonly Diagnostic[]
      readonly report: ProofReport
    }
  /** Every obligation holds, does not arise or is waived; what is left are warnings and advice. */
  | {
      readonly kind: 'proved'
      readonly machine: ProvedMachine
      readonly diagnostics: readonly Diagnostic[]
      readonly report: ProofReport
    }

/** The whole pipeline: source → procedure → machine → proved machine. */
export function compileFile(file: string, bytes: Uint8Array): Compiled {
  return then(parseProcedure({ file, bytes }), (procedure, said) =>
    then(compile(procedure), (machine, saidToo) => proved(procedure, machine, [...said, ...saidToo]), said)
  )
}

function then<Value>(
  result: Result<Value>,
  next: (value: Value, warnings: readonly Diagnostic[]) => Compiled,
  before: readonly Diagnostic[] = []
): Compiled {
  if (result.ok) return next(result.value, result.warnings)
  const [first, ...rest] = result.diagnostics
  return { kind: 'malformed', diagnostics: before.length === 0 ? result.diagnostics : [first, ...rest, ...before] }
}

function proved(procedure: Procedure, machine: Machine, before: readonly Diagnostic[]): Compiled {
  const said = [...before, ...energyAdvice(procedure), ...remedyAdvice(procedure, machine)]
  const verdict = prove(machine, { file: procedure.file })
  const { report } = verdict
  switch (verdict.kind) {
    case 'proved':
      return { kind: 'proved', machine: verdict.machine, diagnostics: [...said, ...verdict.notes], report }
    case 'refused':
      return { kind: 'refused', machine, diagnostics: [...said, ...verdict.diagnostics], report }
    case 'undecided':
      return {
        kind: 'undecided',
        machine,
        reason: verdict.reason,
        diagnostics: [...said, ...verdict.diagnostics],
        report
      }
  }
}
