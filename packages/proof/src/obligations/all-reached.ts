import type { State } from '@lockwright/machine'
import type { Declared, Obligation, ReachableGraph } from '../obligation.js'

export const allReached: Obligation = {
  id: 'all-reached',
  statement: 'each step is reached',
  sources: ['common practice'],
  danger: 'A step that nobody ever comes to protects nobody, while whoever reads the page trusts that it is done.',
  waivable: true,
  check: { kind: 'graph', find }
}

function find(graph: ReachableGraph): Declared {
  // Copies of a step stand at one place in the source.
  const steps = new Map<string, { readonly state: State; reached: boolean }>()
  graph.machine.states.forEach((state, index) => {
    if (!isWritten(state)) return
    const place = `${state.span.line}:${state.span.column}`
    const known = steps.get(place)
    const reached = graph.reached(index)
    if (known === undefined) steps.set(place, { state, reached })
    else known.reached ||= reached
  })
  const missed = [...steps.values()].filter((step) => !step.reached)
  return {
    arises: steps.size > 0,
    findings: missed.map(({ state }) => ({
      span: state.span,
      what: `No way through the procedure comes to this step: ${state.title}.`,
      mend: 'Take the step out, or put it where a way still leads: what stands behind a `::stop`, a `::finish` or a `::back` is never done.',
      related: []
    }))
  }
}

/** What the author wrote as a step; the branches, clocks and the implied finish are ours. */
function isWritten(state: State): boolean {
  const { line, column, endLine, endColumn } = state.span
  const empty = line === endLine && column === endColumn
  return state.kind !== 'branch' && state.kind !== 'timer' && !empty
}
