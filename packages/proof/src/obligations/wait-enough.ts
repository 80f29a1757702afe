import { formatDuration, type RelieveTime, relieveTime, requiredWait } from '@lockwright/energy'
import type { SourceId } from '@lockwright/language'
import type { Machine, MachineSource, State } from '@lockwright/machine'
import { sourceOf } from '../arrangement.js'
import type { Declared, Finding, Obligation } from '../obligation.js'
import { joined } from '../vocabulary.js'

export const waitEnough: Obligation = {
  id: 'wait-enough',
  statement: "a wait is no shorter than the label's and the worst-case decay",
  sources: ['physics'],
  danger: 'Whoever opens too early meets the charge, the heat or the motion that is still there.',
  waivable: false,
  check: { kind: 'declared', find }
}

type RelieveState = Extract<State, { readonly kind: 'relieve' }>

function find(machine: Machine): Declared {
  const relieved = machine.states.flatMap((state) =>
    state.kind === 'relieve' ? state.sources.map((id) => ({ state, source: sourceOf(machine, id) })) : []
  )
  const times = new Map<SourceId, RelieveTime>()
  const timeOf = (source: MachineSource): RelieveTime => {
    const time = times.get(source.id) ?? relieveTime(source)
    times.set(source.id, time)
    return time
  }
  return {
    arises: relieved.length > 0,
    findings: relieved.flatMap(({ state, source }) => faultOf(state, source, timeOf(source)) ?? [])
  }
}

function faultOf(state: RelieveState, source: MachineSource, computed: RelieveTime): Finding | null {
  const finding = (what: string, mend: string): Finding => ({
    span: state.span,
    what,
    mend,
    related: [{ span: source.span, note: `\`${source.id}\` is declared here.` }]
  })
  const needed = requiredWait({ written: state.wait ?? undefined, label: source.quantities['label-wait'], computed })
  const whole = formatDuration(needed.seconds)
  if (needed.writtenTooShort) {
    const because = needed.because === 'label' ? 'its label asks for' : 'in the worst case the decay takes'
    return finding(
      `The step waits ${state.wait?.written} for \`${source.id}\`; ${because} ${whole}.`,
      `Write \`wait="${Math.ceil(needed.seconds)} s"\` or more, or leave \`wait=\` out: the longest is asked for by itself.`
    )
  }
  if (needed.because === 'none') {
    if (state.with.length > 0) return null
    const lacking = computed.kind === 'not-computable' ? computed.missing : []
    const measured = source.kind === 'rotating' && !lacking.includes('speed') ? ', or a measured `coast-down`' : ''
    const missing = lacking.length === 0 ? '' : ` It cannot be computed without ${joined(lacking)}${measured}.`
    const label = source.kind === 'capacitor' ? ', or `label-wait:` at the source where a label says so' : ''
    const coast =
      source.kind === 'rotating' ? 'measure the time to standstill and write it as `coast-down:` at the source, ' : ''
    return finding(
      `Nothing says how the energy of \`${source.id}\` is let out, or how long that takes.${missing}`,
      `Name the tool with which it is let out (\`with=\`), ${coast}or write how long to wait: \`wait=\`${label}.`
    )
  }
  // The compiler asks for the longest by itself; a machine that was read from a file may ask for less.
  const asked = state.inputs.flatMap((input) =>
    input.kind === 'wait' && input.source === source.id ? [input.seconds] : []
  )
  if (Math.max(0, ...asked) >= needed.seconds) return null
  return finding(
    `The step asks for a wait of ${formatDuration(Math.max(0, ...asked))} for \`${source.id}\`; ${whole} are needed.`,
    'Compile the procedure again: the step then asks for the longest wait.'
  )
}
