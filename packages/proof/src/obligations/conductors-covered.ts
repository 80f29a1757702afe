import type { Machine, MachineSource } from '@lockwright/machine'
import { sourceOf } from '../arrangement.js'
import { isElectricalKind, type ProveState } from '../electrical-steps.js'
import type { Declared, Finding, Obligation } from '../obligation.js'
import { joined } from '../vocabulary.js'

export const conductorsCovered: Obligation = {
  id: 'conductors-covered',
  statement: 'every conductor pair and every conductor to earth is tested',
  sources: ['common practice'],
  danger: 'A conductor that is fed from elsewhere, or behind a blown fuse, shows only in the pair that nobody tested.',
  waivable: false,
  check: { kind: 'declared', find }
}

function find(machine: Machine): Declared {
  const proofs = machine.states.flatMap((state) =>
    state.kind === 'prove'
      ? state.sources
          .map((id) => sourceOf(machine, id))
          .filter(({ kind }) => isElectricalKind(kind))
          .map((source) => ({ state, source }))
      : []
  )
  return { arises: proofs.length > 0, findings: proofs.flatMap(({ state, source }) => faultOf(state, source) ?? []) }
}

/** Against all that the conductors make: n (n - 1) / 2 pairs, and n to earth. */
function faultOf(state: ProveState, source: MachineSource): Finding | null {
  const finding = (what: string, mend: string): Finding => ({
    span: state.span,
    what,
    mend,
    related: [{ span: source.span, note: `\`${source.id}\` is declared here.` }]
  })
  const unknown = whyUnknown(source)
  if (unknown !== null) {
    return finding(
      `${unknown}, so which pairs have to be tested is not known.`,
      `Name every conductor of \`${source.id}\` once, its neutral too, and leave out earth, to which each is tested: \`conductors: [L1, L2, L3, N]\`.`
    )
  }
  if (state.by === 'trial') {
    return finding(
      `\`${source.id}\` is proven by trial, and no conductor of it is tested.`,
      'Prove it with a voltage tester: `with=`.'
    )
  }
  // By id: two readings of one id are one reading.
  const asked = new Map(
    state.inputs.flatMap((input) =>
      input.kind === 'reading' && input.source === source.id ? [[input.id, input.label] as const] : []
    )
  )
  const labels = new Set(asked.values())
  const untested = pairsOf(source).filter((pair) => !labels.has(`${source.id}: ${pair}`))
  if (untested.length === 0) return null
  return finding(
    `\`${source.id}\` is not tested ${joined(untested)}.`,
    'Compile the procedure again: the step then asks for every pair.'
  )
}

/** Why the conductors do not count as known, as a clause; null where they do. */
function whyUnknown({ id, phases, conductors }: MachineSource): string | null {
  const names = conductors.map((name) => name.toLowerCase())
  const twice = conductors.find((_, index) => names.indexOf(names[index] ?? '') !== index)
  if (twice !== undefined) return `\`${id}\` names the conductor \`${twice}\` twice`
  if (names.includes('earth')) return `\`${id}\` names earth among its conductors`
  // What flows in one conductor comes back in another.
  const least = Math.max(phases ?? 0, 2)
  if (conductors.length >= least) return null
  const declared = phases === null ? '' : ` for ${phases === 1 ? 'one phase' : `${phases} phases`}`
  return conductors.length === 0
    ? `Nothing says which conductors \`${id}\` has`
    : `\`${id}\` names ${conductors.length === 1 ? 'a single conductor' : `${conductors.length} conductors`}${declared}`
}

function pairsOf({ conductors }: MachineSource): readonly string[] {
  return conductors.flatMap((first, index) =>
    [...conductors.slice(index + 1), 'earth'].map((second) => `${first} to ${second}`)
  )
}
