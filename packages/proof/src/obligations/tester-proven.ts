import type { Machine } from '@lockwright/machine'
import { type ElectricalProof, electricalProofs, testersOf } from '../electrical-steps.js'
import type { Declared, Obligation } from '../obligation.js'
import { joined, quoted } from '../vocabulary.js'

export const testerProven: Obligation = {
  id: 'tester-proven',
  statement: 'a voltage tester is proven on a known source before and after',
  sources: ['29 CFR 1910.333(b)(2)(iv)(B) above 600 V', 'common practice below'],
  danger: 'A tester with an empty battery or a broken lead shows nothing on a live conductor.',
  waivable: false,
  check: { kind: 'declared', find }
}

function find(machine: Machine): Declared {
  const proofs = electricalProofs(machine)
  return {
    arises: proofs.length > 0,
    findings: proofs.flatMap((proof) => {
      const missing = missingIn(machine, proof)
      if (missing.length === 0) return []
      return {
        span: proof.state.span,
        what: `The proof of ${quoted(proof.sources.map(({ id }) => id))} lacks ${joined(missing)}.`,
        mend: 'Name a tool that `measures=voltage` with `with=`, and a live source close by on which it is tried before and after with `known="..."`.',
        related: []
      }
    })
  }
}

function missingIn(machine: Machine, { state }: ElectricalProof): readonly string[] {
  // The compiler asks for both boxes by itself; a machine that was read from a file may lack one.
  const boxes = state.inputs.flatMap((input) => (input.kind === 'box' ? [input.of] : []))
  const known = state.known !== null && state.known.trim() !== ''
  return [
    ...(testersOf(machine, state).length > 0 ? [] : ['a voltage tester (`with=`)']),
    ...(known ? [] : ['the known source that the tester is proven on (`known=`)']),
    ...(!known || boxes.includes('tester-before') ? [] : ['the trial of the tester before']),
    ...(!known || boxes.includes('tester-after') ? [] : ['the trial of the tester after'])
  ]
}
