import type { SourceKind } from '@lockwright/language'
import type { Machine, MachineSource } from '@lockwright/machine'
import { sourceOf } from '../arrangement.js'
import { isElectricalKind, itemsNamed, type ProveState } from '../electrical-steps.js'
import { heldIn, limitOf, measuresOf, shows } from '../instrument.js'
import type { Declared, Finding, Obligation } from '../obligation.js'
import { joined, quoted } from '../vocabulary.js'

export const gaugeFits: Obligation = {
  id: 'gauge-fits',
  statement: 'the instrument can show the safe level it is asked to show',
  sources: ['common practice'],
  danger: 'A gauge that cannot show so small or so large a value stands at zero whatever the source holds.',
  waivable: false,
  check: { kind: 'declared', find }
}

function find(machine: Machine): Declared {
  const proofs = machine.states.flatMap((state) =>
    state.kind === 'prove'
      ? state.sources
          .map((id) => sourceOf(machine, id))
          // Testers of electrical work have an obligation of their own.
          .filter(({ electricalWork }) => !electricalWork)
          .map((source) => ({ state, source }))
      : []
  )
  return {
    arises: proofs.length > 0,
    findings: proofs.flatMap(({ state, source }) => {
      const fault = state.by === 'trial' ? trialFault(source) : instrumentFault(machine, state, source)
      if (fault === null) return []
      const related = [{ span: source.span, note: `\`${source.id}\` is declared here.` }]
      return { ...fault, span: state.span, related }
    })
  }
}

type Fault = Pick<Finding, 'what' | 'mend'>

function shownByTrial(kind: SourceKind): boolean {
  return kind === 'gravity' || kind === 'spring' || kind === 'rotating'
}

function trialFault({ id, kind }: MachineSource): Fault | null {
  if (shownByTrial(kind)) return null
  return {
    what: `\`${id}\` is proven by trial, and a trial shows nothing of a source of kind ${kind}.`,
    mend: 'Prove it with an instrument: `with=`.'
  }
}

function instrumentFault(machine: Machine, state: ProveState, source: MachineSource): Fault | null {
  const { id, kind } = source
  const wanted = measuresOf(kind)
  const instruments = itemsNamed(machine, state.with, 'tool').filter(
    ({ measures }) => measures !== null && (wanted === null || wanted.includes(measures))
  )
  if (instruments.length === 0) {
    return {
      what: `No instrument is named that measures ${wanted === null ? `what \`${id}\` holds` : `the ${joined(wanted, 'or')} of \`${id}\``}.`,
      mend:
        wanted === null
          ? 'Name an instrument with `with=`, and say at its `::tool` what it measures: `measures=`.'
          : `Name an instrument with \`with=\` whose \`::tool\` says \`measures=${wanted[0]}\`.`
    }
  }
  if (isElectricalKind(kind)) return null
  const limit = limitOf(source)
  if (limit === undefined) {
    return {
      what: `Nothing says below which reading \`${id}\` counts as dead.`,
      mend: `Declare \`safe-below:\` at \`${id}\`${shownByTrial(kind) ? ', or prove it `by=trial`' : ''}.`
    }
  }
  const held = heldIn(source, limit)
  const levels = held === undefined ? [limit] : [held, limit]
  if (instruments.some((instrument) => levels.every((level) => shows(instrument, level)))) return null
  const names = quoted(
    instruments.map((instrument) => instrument.id),
    'or'
  )
  return {
    what: `The range of ${names} does not hold ${held === undefined ? '' : `both the ${held.written} that \`${id}\` can hold and `}the ${limit.written} that it has to be below.`,
    mend: 'Take one instrument whose `range="... to ..."` holds both, in units of the same quantity.'
  }
}
